"""Text helpers of every part: templates, invisible characters, and near spellings (by edit similarity).

This module imports the standard library only, and every part may import it.
"""

import re
from collections.abc import Callable, Iterable

# Templates: `{width}` is replaced by a fact's value, `{1/16 in}` and `{at most 5 lbf}` by the measure in the units of
# who reads it, and `{limit}` by the limit of a check; `{{` and `}}` are braces.

LIMIT = "limit"
"""In braces: the limit of the check that the text belongs to. No fact can be called so."""

_PIECE = re.compile(r"\{\{|\}\}|\{([^{}]*)\}|[{}]")
_NAME = re.compile(r"[a-z][a-z0-9_]*\Z")
_QUANTITY = re.compile(r"(?:[Aa]t most |[Aa]t least )?[0-9.½¼¾⅛⅜⅝⅞]")


def is_quantity(inner: str) -> bool:
    """Whether what stands between two braces is meant as a measure."""
    return _QUANTITY.match(inner) is not None


def names_in(text: str) -> list[str]:
    """Every name in braces, in order, whether or not it is a fact; neither measures nor `{limit}`."""
    return [one for one in _inners(text) if not is_quantity(one) and one != LIMIT]


def quantities_in(text: str) -> list[str]:
    """Every measure in braces, in order, as it is written."""
    return [one for one in _inners(text) if is_quantity(one)]


def has_limit(text: str) -> bool:
    """Whether the limit of a check is shown in the text."""
    return LIMIT in _inners(text)


def _inners(text: str) -> list[str]:
    if "{" not in text:
        return []  # as most
    return [match[1] for match in _PIECE.finditer(text) if match[1] is not None]


def stray_brace(text: str) -> str:
    """The fault in the braces of a text; empty if there is none."""
    for match in _PIECE.finditer(text):
        if match[0] in ("{", "}"):
            return f"a lone “{match[0]}”; write “{match[0] * 2}” for a brace"
        if match[1] is not None and not _NAME.match(match[1]) and not is_quantity(match[1]):
            return f"“{match[0]}”, which is not a fact's name; write “{{{{” for a brace"
    return ""


def fill(text: str, show: Callable[[str], str]) -> str:
    """The text with what stands in each pair of braces replaced by what `show` gives for it."""

    def piece(match: re.Match[str]) -> str:
        if match[1] is not None:
            return show(match[1])
        return match[0][0]

    return _PIECE.sub(piece, text)


# Invisible characters: in a file or an answer they hide or reorder what is written.

_BIDI = "\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069"
"""Marks that change the direction of writing, so that a line is shown in another order than it is stored."""
_NO_WIDTH = "\u00ad\u200b\u2060\ufeff"
_CONTROL = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff"
_HALVES = "\ud800-\udfff"
"""Lone surrogates: halves of a character, from bytes that were not text."""

_UNSEEN = re.compile(f"[{_CONTROL}{_BIDI}{_NO_WIDTH}{_HALVES}]")


def unseen(text: str) -> re.Match[str] | None:
    """The first character that a text must not contain. Tabs and line ends are allowed."""
    return _UNSEEN.search(text)


def all_unseen(text: str) -> list[re.Match[str]]:
    """Every such character, in order."""
    return list(_UNSEEN.finditer(text))


def made_seen(text: str) -> str:
    """The text with each such character replaced by `�`, so that every position in it stays the same."""
    return _UNSEEN.sub("\ufffd", text)


def printable(text: str) -> str:
    """One line that is safe for any terminal: each character that is not printable becomes `�`."""
    return "".join(char if char.isprintable() else "\ufffd" for char in text)


_COMPUTED = tuple("=+-@|%")


def tame_cell(text: str) -> str:
    """A cell of a CSV file as one line of text: a spreadsheet would compute what begins so, also after blanks."""
    line = printable(text)
    return f"'{line}" if line.lstrip(" ").startswith(_COMPUTED) else line


LONGEST_NOTE = 2000
"""Characters of a note, or of the reason why a job is made safe."""


def tidy(text: str) -> str:
    """A person's words as one line: without characters that do not print, and with single blanks for line ends and
    tabs."""
    return _UNSEEN.sub("", " ".join(text.split()))


# Near spellings, for messages about a word that is not known.

LONGEST_WORD = 60
"""Letters. No typing error is longer, and comparing a huge text letter by letter takes minutes."""
LONGEST_QUOTE = 40
"""Letters of a text that a message quotes."""


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like this one in any letter case; empty if none is near.

    Likeness is the ratio of `difflib.SequenceMatcher`, at least 0.6.
    """
    if len(word) > LONGEST_WORD:
        return ""
    import difflib  # loaded only after something was misspelled

    by_folded: dict[str, str] = {}
    for one in known:
        by_folded.setdefault(one.casefold(), one)
    found = difflib.get_close_matches(word.casefold(), list(by_folded), n=1, cutoff=0.6)
    return by_folded[found[0]] if found else ""


def meant(word: str, known: Iterable[str], otherwise: str) -> str:
    """The end of a sentence: "did you mean" and the nearest known word, or `otherwise` if none is near."""
    near = nearest(word, known)
    return f"did you mean “{near}”?" if near else otherwise


def unknown(what: str, word: str, known: Iterable[str]) -> str:
    """A sentence that `word` is not `what`, with the nearest known word or all of them."""
    listed = list(known)
    near = nearest(word, listed)
    hint = f"did you mean {near}?" if near else f"known: {either(listed)}."
    return f"“{short(word)}” is not {what}; {hint}"


def either(words: Iterable[str]) -> str:
    """The words as a choice in a sentence: "left or right", "LH, RH, LHR or RHR"."""
    listed = list(words)
    if len(listed) < 2:
        return "".join(listed)
    return f"{', '.join(listed[:-1])} or {listed[-1]}"


def short(text: str) -> str:
    """The text as a message quotes it: whole, or its beginning and “…”."""
    return text if len(text) <= LONGEST_QUOTE else text[:LONGEST_QUOTE] + "…"
