"""The ear and the mouth."""
