"""Static analysis of procedures: model checking over all answers, and rules, one family a file.

Nothing is imported here: a run reads its graph by `graph_cache`, which must not load what a check needs.
"""
