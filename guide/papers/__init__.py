"""What is handed over: the record of a run."""
