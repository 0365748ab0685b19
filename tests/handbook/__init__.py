"""The handbook: its pages, their commands and their pictures."""
