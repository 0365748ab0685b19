"""Typed text in one plain form before it is read: small letters, plain marks, single spaces.

Nothing is guessed here; a character this does not know is left for the reader to refuse.
"""

import re
import unicodedata

_SAME_AS: dict[int, str] = {
    ord(character): plain
    for plain, characters in {
        "'": "′’‘ʹʼ",
        '"': "″“”ʺ",
        "/": "⁄∕",
        "-": "‐‑–",
        "°": "º˚",
        "·": "∙•",
        # of no width, but parting two figures all the same
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
