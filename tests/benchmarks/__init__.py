"""Measurements of time and size, run by hand as `python -m tests.benchmarks.NAME`."""
