"""The nearest known spelling of a word, for errors that say what was probably meant."""

from collections.abc import Iterable

LONGEST = 60
"""Nobody's slip of the pen is longer, and comparing a huge text letter by letter takes minutes."""
SHORT = 40


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like this one; empty where none is near."""
    if len(word) > LONGEST:
        return ""
    import difflib  # only where something was misspelt

    found = difflib.get_close_matches(word, list(known), n=1)
    return found[0] if found else ""


def meant(word: str, known: Iterable[str], otherwise: str) -> str:
    """The end of a sentence: did you mean the nearest, or what to do where none is near."""
    near = nearest(word, known)
    return f"did you mean “{near}”?" if near else otherwise


def short(text: str) -> str:
    """The text as a message quotes it: its beginning, where it is long."""
    return text if len(text) <= SHORT else text[:SHORT] + "…"
