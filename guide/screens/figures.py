"""Numbers in large figures, to be read from the foot of a ladder."""

_SIGNS = "0123456789 ./STOP"
_ROWS = (
    "75557 26227 71747 71717 55711 74717 74757 71122 75757 75717 "
    "00000 00002 11244 74717 72222 75557 75744"
)
_GLYPHS = dict(zip(_SIGNS, _ROWS.split(" "), strict=True))
"""Each of five rows of three dots, an octal digit a row. Our own drawing."""
_HALVES = {"00": " ", "10": "▀", "01": "▄", "11": "█"}


def can_be_large(text: str) -> bool:
    """Whether every sign of the text has a large figure."""
    return bool(text) and all(sign in _GLYPHS for sign in text)


def in_three_rows(text: str) -> list[str]:
    """The text in half blocks, four columns a sign."""
    dots = ["0" * (4 * len(text)), *_dots(text)]
    return [
        "".join(_HALVES[a + b] for a, b in zip(dots[y], dots[y + 1], strict=True))
        for y in (0, 2, 4)
    ]


def in_five_rows(text: str, *, ascii_only: bool = False) -> list[str]:
    """The text in whole blocks, eight columns a sign."""
    full = "##" if ascii_only else "██"
    return ["".join(full if dot == "1" else "  " for dot in row) for row in _dots(text)]


def _dots(text: str) -> list[str]:
    return ["".join(f"{int(_GLYPHS[sign][row]):03b}0" for sign in text) for row in range(5)]
