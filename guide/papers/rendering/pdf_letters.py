"""Texts in the letters that a PDF's own fonts have: those of Windows-1252."""

import unicodedata

ENCODING = "cp1252"
LOST = "?"


def plain(text: str) -> str:
    """The text with every other letter in its plain form (Ő is O, ⅛ is 1/8), or `LOST` where it has none."""
    return "".join(one if _there(one) else _plainer(one) for one in text)


def _there(letter: str) -> bool:
    try:
        letter.encode(ENCODING)
    except UnicodeEncodeError:
        return False
    return True


def _plainer(letter: str) -> str:
    apart = unicodedata.normalize("NFKD", _NAMED.get(letter, letter))
    found = "".join(one for one in apart.replace("⁄", "/") if not unicodedata.combining(one))
    return found if found and all(map(_there, found)) else LOST


_NAMED = {
    "Ł": "L",
    "ł": "l",
    "đ": "d",
    "Đ": "D",
    "ı": "i",
    "′": "'",
    "″": '"',
    "−": "-",
    "×": "x",
    "→": "->",
}
"""Letters and signs without a form of their own in Unicode's tables."""
