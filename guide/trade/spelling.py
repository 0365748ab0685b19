"""Near spellings, for messages about a word that is not known."""

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word spelt most like `word`, or None when none is close."""
    # difflib is loaded only once something has been misspelt.
    from difflib import get_close_matches

    # Nobody's typing error is this long; comparing a huge text letter by letter takes minutes.
    if len(word) > 60:
        return None
    found = get_close_matches(word.lower(), list(known), n=1, cutoff=0.6)
    return found[0] if found else None


def short(text: str) -> str:
    """The text as a message quotes it: its beginning, where it is long."""
    return text if len(text) <= 40 else text[:40] + "…"


def either(words: Iterable[str]) -> str:
    """The words as a choice in a sentence: "left or right", "LH, RH, LHR or RHR"."""
    listed = list(words)
    if len(listed) < 2:
        return "".join(listed)
    return f"{', '.join(listed[:-1])} or {listed[-1]}"


def unknown(what: str, word: str, known: Iterable[str]) -> str:
    """A sentence saying that `word` is no known `what`, with the nearest or all known words."""
    listed = list(known)
    near = nearest(word, listed)
    hint = f"did you mean {near}?" if near else f"known: {either(listed)}."
    return f"“{short(word)}” is not {what}; {hint}"
