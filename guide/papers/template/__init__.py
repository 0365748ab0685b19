"""The full-size template of the holes."""
