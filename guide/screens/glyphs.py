"""ASCII in place of Unicode, for a terminal that has none."""

import unicodedata
from collections.abc import Mapping

GLYPHS = {
    **dict.fromkeys("┌┐└┘├┤┬┴┼", "+"),
    **dict.fromkeys("│▌", "|"),
    **dict.fromkeys("█▀▄", "#"),
    **dict.fromkeys("–—−─·", "-"),
    **dict.fromkeys("“”″", '"'),
    **dict.fromkeys("‘’′", "'"),
    **dict.fromkeys("↓▼", "v"),
    **dict.fromkeys("²₂", "2"),
    "↑": "^",
    "▏": "_",
    "━": "=",
    "●": "*",
    "×": "x",
    "…": "...",
    "←": "<-",
    "→": "->",
    "°": " deg",
    "±": "+/-",
    "≤": "<=",
    "≥": ">=",
}
"""Unicode to ASCII. What drawings are made of is replaced one column for one."""

UNKNOWN = "?"
"""Shown for a letter that has no ASCII."""


def ascii_only(text: str) -> str:
    """The text in ASCII alone: accents are dropped, fractions are written out."""
    if text.isascii():
        return text
    return "".join(char if char.isascii() else _replaced(char) for char in text)


def _replaced(char: str) -> str:
    if char in GLYPHS:
        return GLYPHS[char]
    apart = unicodedata.normalize("NFKD", char).replace("\N{FRACTION SLASH}", "/")
    return "".join(c for c in apart if c.isascii()) or UNKNOWN


def wants_ascii(environ: Mapping[str, str]) -> bool:
    """Whether the terminal is not to be trusted with Unicode: another encoding, or the Linux console."""
    if environ.get("TERM") == "linux":
        return True
    names = (environ.get(name, "") for name in ("LC_ALL", "LC_CTYPE", "LANG"))
    encoding = next((name for name in names if name), "")
    return bool(encoding) and "utf" not in encoding.casefold()
