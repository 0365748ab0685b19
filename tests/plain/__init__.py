"""Runs and practice line by line."""
