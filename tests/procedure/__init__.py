"""Procedure files: read, compiled, cached."""
