"""Files as they are written: YAML as text with its places, findings, and the folders where things are found."""
