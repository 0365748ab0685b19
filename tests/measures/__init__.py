"""Measures: understood, refused, shown."""
