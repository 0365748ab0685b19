"""The trade's computations: pure functions, one file a subject, listed in `registry`.

Nothing here reads a file, prints or asks. A front end names a computation, gives it inputs and
gets an `Answer` with its working, or an exception whose message is a sentence for the fitter.
"""
