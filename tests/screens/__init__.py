"""The app."""
