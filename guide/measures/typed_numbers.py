"""The numbers in a typed measure: whole, decimal, fraction and mixed fraction, parsed exactly.

`tidy` puts the text in one plain form first: small letters, plain marks, single spaces. It guesses
nothing; a character it does not know is left for the parser to refuse.
"""

import re
import unicodedata
from fractions import Fraction
from typing import NamedTuple

from guide.measures.errors import RefusedError

_SAME_AS: dict[int, str] = {
    ord(character): plain
    for plain, characters in {
        "'": "′’‘ʹʼ",
        '"': "″“”ʺ",
        "/": "⁄∕",
        "-": "‐‑–",
        "°": "º˚",
        "·": "∙•",
        # of no width, but they separate two figures
        " ": "\u200b\u200c\u200d\u2060\ufeff",
    }.items()
    for character in characters
}

_FRACTIONS: dict[str, str] = {
    character: unicodedata.normalize("NFKC", character).replace("⁄", "/")
    for character in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
}
_FRACTION = re.compile(f"[{''.join(_FRACTIONS)}]")
_WATER = re.compile(r"h ?[2₂]o")


def tidy(text: str) -> str:
    """The text with every known variant of a mark replaced by its plain form."""
    text = text.lower().translate(_SAME_AS).replace("''", '"')
    text = _WATER.sub("water", text)
    text = _FRACTION.sub(_plain_fraction, text)
    return " ".join(text.split())


def foreign_digits(text: str) -> bool:
    """Whether a figure other than 0 to 9 is in the text."""
    return any(c.isdigit() and not c.isascii() for c in text)


def in_plain_digits(text: str) -> str:
    """The text with the decimal figures of other scripts as 0 to 9, to suggest."""
    return "".join(str(unicodedata.decimal(c, c)) for c in text)


def _plain_fraction(found: re.Match[str]) -> str:
    """ "35⅞" is 35 7/8, so the fraction must not run into the figures beside it."""
    before, after = found.string[: found.start()], found.string[found.end() :]
    left = " " if before[-1:].isdigit() else ""
    right = " " if after[:1].isdigit() else ""
    return f"{left}{_FRACTIONS[found.group()]}{right}"


_MOST_DIGITS = 12
"""In a whole number, and after the point."""

_MOST_FRACTION_DIGITS = 40
"""In a numerator or denominator: the exact writing of a converted measure can be long."""

NUMBER = re.compile(r"(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)|[0-9]*\.[0-9]+|[0-9]+")
_WITH_COMMA = r"(?<![0-9.,/])[0-9]*,([0-9]+)(?![0-9.,/])"
_THOUSANDS = r"(?<![0-9.,/])[0-9]{1,3}(?:,[0-9]{3})+(?![0-9.,/])"
"""Kept as text until a number has a comma: most starts compile neither."""
_AMBIGUOUS = "can be read in more than one way"


class Number(NamedTuple):
    """One number as typed."""

    text: str
    value: Fraction
    whole: bool
    """Typed as a whole number: no point, no fraction."""
    lone_fraction: bool
    """Typed as a fraction with no whole number before it."""


def number_typed(found: re.Match[str]) -> Number:
    """The number in a match of NUMBER; RefusedError if it is not a sensible one."""
    text = found.group()
    whole, above, below = found.groups()
    if below is None:
        _check_digits(text, text.split("."), _MOST_DIGITS)
        return Number(text, Fraction(text), text.isdigit(), False)
    _check_digits(text, [whole or ""], _MOST_DIGITS)
    _check_digits(text, [above, below], _MOST_FRACTION_DIGITS)
    if int(below) == 0:
        raise RefusedError("has a fraction with 0 below the line")
    part = Fraction(int(above), int(below))
    if part >= 1:
        before, after = found.string[: found.start()], found.string[found.end() :]
        ideas = _parted(above, below) if whole is None else []
        raise RefusedError(
            "has a fraction that is not less than one",
            *(f"{before}{idea}{after}" for idea in [*ideas, _carried(int(whole or 0) + part)]),
        )
    return Number(text, int(whole or 0) + part, False, whole is None)


def with_points(text: str, system: str) -> str:
    """The text with decimal commas as points.

    A comma is a decimal one only in the metric system, and not before exactly three digits, because it
    may then separate thousands; RefusedError otherwise.
    """
    if "," not in text:
        return text
    commas = list(re.finditer(_WITH_COMMA, text))
    thousands = any(len(found.group(1)) == 3 for found in commas)
    if system != "metric" or thousands or not commas:
        raise RefusedError(
            f"{_AMBIGUOUS}, because of the comma",
            re.sub(_WITH_COMMA, lambda found: found.group().replace(",", "."), text),
            re.sub(_THOUSANDS, lambda found: found.group().replace(",", ""), text),
        )
    return re.sub(_WITH_COMMA, lambda found: found.group().replace(",", "."), text)


def _parted(above: str, below: str) -> list[str]:
    """351/2 may be 35 1/2 with its space left out: the first place where a fraction remains."""
    for cut in range(1, len(above)):
        if above[cut] != "0" and int(above[cut:]) < int(below):
            return [f"{above[:cut]} {above[cut:]}/{below}"]
    return []


def _carried(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    return f"{whole} {rest}" if rest else f"{whole}"


def _check_digits(text: str, runs: list[str], most: int) -> None:
    if any(len(run) > most for run in runs):
        raise RefusedError(f"has more than {most} digits in one number")
