"""The log of a run: one file of lines that is only ever added to, each line chained to the one before by its digest."""
