"""What is wrong with a procedure, found without running it: `check.py` gathers what the rules and the proof find.

Nothing is imported here, because `graph_cache` is wanted by a run that reads no file.
"""
