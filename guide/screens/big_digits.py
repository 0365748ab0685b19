"""A time in large type, to be read from the foot of a ladder."""

from guide.screens.rows import Row

_DIGITS = {
    "0": "### # # # # # # ###",
    "1": " #  ##   #   #  ###",
    "2": "###   # ### #   ###",
    "3": "###   # ###   # ###",
    "4": "# # # # ###   #   #",
    "5": "### #   ###   # ###",
    "6": "### #   ### # # ###",
    "7": "###   #   #   #   #",
    "8": "### # # ### # # ###",
    "9": "### # # ###   # ###",
    ".": "                 # ",
}
"""Five rows of three columns, a blank between the rows."""

HEIGHT = 5


def large(text: str) -> list[Row]:
    """The digits and the point of a text; each column is two wide, and digits stand two apart."""
    shown = [_DIGITS[char] for char in text if char in _DIGITS]
    return [
        Row("  ".join(_row(digit, row) for digit in shown).rstrip(), "action", whole=True)
        for row in range(HEIGHT)
    ]


def _row(digit: str, row: int) -> str:
    return "".join("█" * 2 if char == "#" else "  " for char in digit[row * 4 : row * 4 + 3])
