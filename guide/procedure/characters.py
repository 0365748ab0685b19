"""Characters that nobody can see: in a file or an answer they hide or reorder what is written."""

import re

_BIDI = "\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069"
"""Marks that change the direction of writing, so that a line reads otherwise than it is stored."""
_NO_WIDTH = "\u00ad\u200b\u2060\ufeff"
_CONTROL = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff"
_HALVES = "\ud800-\udfff"
"""Halves of a character, from bytes that were no text."""

_UNSEEN = re.compile(f"[{_CONTROL}{_BIDI}{_NO_WIDTH}{_HALVES}]")


def unseen(text: str) -> re.Match[str] | None:
    """The first character that must not stand in a text; tabs and line ends are not looked at."""
    return _UNSEEN.search(text)


def all_unseen(text: str) -> list[re.Match[str]]:
    """Every such character, in order."""
    return list(_UNSEEN.finditer(text))


def made_seen(text: str) -> str:
    """The text with each such character replaced by `�`, so that every place in it stays the same."""
    return _UNSEEN.sub("\ufffd", text)


def printable(text: str) -> str:
    """One line that any terminal can be given: what is not printable becomes `�`."""
    return "".join(char if char.isprintable() else "\ufffd" for char in text)
