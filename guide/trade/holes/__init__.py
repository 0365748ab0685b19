"""Where the holes go, and whether the marks are right."""
