"""The record and the full-size template."""
