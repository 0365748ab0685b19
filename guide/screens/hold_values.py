"""The values of a hold, in the size a person reads at arm's length."""

import textwrap
from collections.abc import Sequence

from guide.measures import held
from guide.screens.figures import can_be_large, in_five_rows, in_three_rows
from guide.screens.host import host
from guide.screens.words_shown import Piece, Words, clean

_NAMES = 24
"""Columns of the names."""
_COLUMNS_FROM, _AROUND = 70, 12
"""Columns of the window from which all values begin at one column, and those of the window around them."""
_FIVE_ROWS, _THREE_ROWS = 34, 18
"""Rows of the window from which the figures are so high."""


class HoldValues(Words):
    """Name and value, one below the other."""

    def show(self, values: Sequence[tuple[str, str]]) -> None:
        """Show these in the window as it is; none hides the widget."""
        width, height = self.app.size
        ascii_wanted = host(self.app).ascii
        high = 5 if height >= _FIVE_ROWS else 3 if height >= _THREE_ROWS and width >= 50 else 1
        high = 1 if ascii_wanted or len(values) * (high + 1) > 2 * height else high
        pieces: list[Piece] = []
        for name, value in values:
            pieces += ["\n"] if pieces else []
            number, _, unit = value.rpartition(" ")
            if high > 1 and can_be_large(number):
                pieces += _large(clean(name), number, unit, high)
            elif width < _COLUMNS_FROM:
                pieces += [f"{name}: ", (value, "bold $primary")]
            else:
                head = f"{name:{_NAMES}}" if len(name) < _NAMES else f"{name}: "
                said = "\n".join(_hanging(value, width - _AROUND, len(head)))
                pieces += [head, (said, "bold $primary")]
        self.tell(*pieces)


def _hanging(value: str, columns: int, head: int) -> list[str]:
    """A value in lines that begin at one column; the first stands after its name, `head` columns long."""
    indent = " " * _NAMES
    lines = textwrap.wrap(held(value), columns, initial_indent=" " * head, subsequent_indent=indent)
    return [lines[0][head:], *lines[1:]] if lines else [""]


def _large(name: str, number: str, unit: str, high: int) -> list[Piece]:
    figures = in_five_rows(number) if high == 5 else in_three_rows(number)
    if high == 5 and len(figures[0]) > 60:
        figures = in_three_rows(number)
    names = _in_column(name, len(figures))
    pieces: list[Piece] = []
    for row, (word, drawn) in enumerate(zip(names, figures, strict=True)):
        pieces += ["\n"] if row else []
        pieces += [(f"{word:{_NAMES}}", "bold"), (drawn, "$primary")]
        if row == len(figures) - 1:
            pieces.append(f" {unit}")
    return [*pieces, "\n"]


def _in_column(name: str, rows: int) -> list[str]:
    """The name over at most so many rows of its column."""
    lines = [""]
    for word in name.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) < _NAMES or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    kept = lines[:rows]
    return [*kept, *[""] * (rows - len(kept))]
