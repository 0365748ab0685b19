"""The app in a browser of this machine, or of a phone that was given the link."""
