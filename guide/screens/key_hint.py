"""A key along the bottom of a screen."""

from typing import NamedTuple


class KeyHint(NamedTuple):
    """One key of the key bar."""

    key: str
    """As Textual names it: what a click presses."""
    shown: str
    word: str
