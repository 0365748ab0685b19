"""One procedure carried out on one opening, by event sourcing: the state of a run is the fold of its events.

`step` folds one event into the state, `prompt` gives what a person sees and may answer, and a `Session` keeps
both beside the journal on disk. Front ends render a prompt and return an event.
"""
