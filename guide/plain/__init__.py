"""A run line by line, for a plain terminal, a screen reader or a script."""
