"""Whether there is a terminal: a person who types, and a screen that the app can be drawn on."""

import os
import sys


def person_types() -> bool:
    """Whether the input is a terminal, not a file or a pipe."""
    return sys.stdin is not None and sys.stdin.isatty()


def app_can_open() -> bool:
    """Whether a person types and the app's screen can be drawn: it draws on standard error, by moving the cursor."""
    drawn = sys.__stderr__ is not None and sys.__stderr__.isatty()
    return person_types() and drawn and os.environ.get("TERM") != "dumb"
