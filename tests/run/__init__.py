"""Runs: events, the journal, looking back, talk."""
