"""The values of a hold, in the size a person reads at arm's length."""

import textwrap
from collections.abc import Sequence
from itertools import zip_longest

from guide.measures import held
from guide.screens.figures import can_be_large, in_five_rows, in_three_rows
from guide.screens.host import host
from guide.screens.words_shown import Piece, Words, clean, in_lines

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
        rows: list[list[Piece]] = []
        for name, value in values:
            number, _, unit = value.rpartition(" ")
            if high > 1 and can_be_large(number):
                rows += _large(clean(name), number, unit, high)
            elif width < _COLUMNS_FROM:
                rows.append([f"{name}: ", (value, "bold $primary")])
            else:
                rows += _in_columns(name, value, width - _AROUND - _NAMES)
        self.tell(*in_lines(rows))


def _in_columns(name: str, value: str, columns: int) -> list[list[Piece]]:
    """Name and value, each wrapped in its column."""
    names, values = textwrap.wrap(name, _NAMES - 1), textwrap.wrap(held(value), columns)
    return [
        [f"{word:{_NAMES}}", (said, "bold $primary")]
        for word, said in zip_longest(names, values, fillvalue="")
    ]


def _large(name: str, number: str, unit: str, high: int) -> list[list[Piece]]:
    """The number in large figures, with a line below to keep it apart."""
    figures = in_five_rows(number) if high == 5 else in_three_rows(number)
    if high == 5 and len(figures[0]) > 60:
        figures = in_three_rows(number)
    names = textwrap.wrap(name, _NAMES - 1)[: len(figures)]
    rows: list[list[Piece]] = [
        [(f"{word:{_NAMES}}", "bold"), (drawn, "$primary")]
        for word, drawn in zip_longest(names, figures, fillvalue="")
    ]
    rows[-1].append(f" {unit}")
    return [*rows, []]
