"""Words and numbers as people say them."""
