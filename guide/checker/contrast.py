"""Words that exclude each other, and the words of a text: what rules of contradicting words compare."""

import re
from functools import cache

from guide.measures import without_braces

OPPOSITES = (
    ("left", "right"),
    ("faster", "slower"),
    ("quicker", "slower"),
    ("push", "pull"),
    ("clockwise", "anticlockwise"),
    ("clockwise", "counterclockwise"),
    ("tighten", "loosen"),
    ("raise", "lower"),
    ("more", "less"),
    ("stronger", "weaker"),
    ("stiffer", "softer"),
    ("wider", "narrower"),
    ("higher", "lower"),
    ("longer", "shorter"),
    ("thicker", "thinner"),
    ("heavier", "lighter"),
    ("inside", "outside"),
    ("indoors", "outdoors"),
    ("above", "below"),
    ("hinges", "latch"),
)
"""Pairs of words of which one text of a step has one, and none of its texts that say the same the other."""

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?|\d+", re.IGNORECASE)
_BRACED = re.compile(r"\{[^{}]*\}")

_SMALL = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
]
_TEENS = ["thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
NUMBERS = {
    **{word: str(number) for number, word in enumerate((*_SMALL, *_TEENS))},
    **{word: str(10 * number) for number, word in enumerate(_TENS, 2)},
}


@cache
def words(text: str) -> tuple[str, ...]:
    """The words of a text in lower case, without names in braces; numbers in figures."""
    bare = _BRACED.sub(" ", without_braces(text))
    found = (word.lower().removesuffix("'s") for word in _WORD.findall(bare))
    return tuple(NUMBERS.get(word, word) for word in found)


@cache
def in_figures(text: str) -> str:
    """The text with its number words in figures, as in “12 degrees”."""
    return re.sub(
        r"[A-Za-z]+",
        lambda found: NUMBERS.get(found[0].lower(), found[0]),
        _BRACED.sub(" ", without_braces(text)),
    )


def contrary(text: str, other: str) -> tuple[str, str] | None:
    """Two opposite words, the first said by one text only and the second by the other only; None if there are none."""
    mine, theirs = set(words(text)), set(words(other))
    for pair in OPPOSITES:
        for one, its in (pair, pair[::-1]):
            if one in mine and its in theirs and one not in theirs and its not in mine:
                return one, its
    return None


def has_phrase(text: str, phrase: str) -> bool:
    """Whether the words of a phrase stand side by side in a text."""
    mine, wanted = words(text), words(phrase)
    return bool(wanted) and any(
        mine[start : start + len(wanted)] == wanted for start in range(len(mine) - len(wanted) + 1)
    )
