"""Papers as plain data, and how they become text, HTML and PDF."""
