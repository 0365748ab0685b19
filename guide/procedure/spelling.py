"""The nearest known spelling of a word, for errors that say what was probably meant."""

import difflib
from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like this one; empty where none is near."""
    found = difflib.get_close_matches(word, list(known), n=1)
    return found[0] if found else ""


def meant(word: str, known: Iterable[str], otherwise: str) -> str:
    """The end of a sentence: did you mean the nearest, or what to do where none is near."""
    near = nearest(word, known)
    return f"did you mean “{near}”?" if near else otherwise
