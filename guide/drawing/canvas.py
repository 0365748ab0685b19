"""A raster of dots, two across and four down in every character cell, each with the role that made it.

In braille every dot is shown. In ASCII a cell shows the role in front, in the order of `ROLES` (painter's
algorithm). Polygons are filled by scan line with the even-odd rule.
"""

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import TypeAlias

from guide.drawing.scene import ROLES

Dot: TypeAlias = tuple[float, float]
"""(x, y) in dots, y downward from the top."""

ACROSS, DOWN = 2, 4
"""Dots of one character cell."""
_BRAILLE = 0x2800
_BIT = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The bit of each dot of a cell, by row and column: Unicode, Braille Patterns."""

_DEPTH = {role: number for number, role in enumerate(ROLES)}
_ASCII = dict(
    zip(
        ROLES,
        ("-", "-", ".", "#", "=", "b", "v", "S", "O", "*", "|", "+", "-", ":", "-", "*", "o", "@"),
        strict=True,
    )
)
ASCII_KEY = (
    ("#", "frame", "frame"),
    ("=", "leaf", "leaf"),
    ("b", "body", "body"),
    ("v", "valves", "valve end"),
    ("*", "arm", "arm"),
    ("S", "shoe", "shoe"),
)
"""Letter, role and words, for the legend of an ASCII drawing."""


class Canvas:
    """A picture of `columns` by `rows` character cells."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows
        self._bits = [0] * (columns * rows)
        self._roles = [0] * (columns * rows)

    def dot(self, x: int, y: int, role: str) -> None:
        """Set one dot; one outside the canvas is ignored."""
        column, row = x // ACROSS, y // DOWN
        if 0 <= column < self.columns and 0 <= row < self.rows:
            cell = row * self.columns + column
            self._bits[cell] |= _BIT[y % DOWN][x % ACROSS]
            self._roles[cell] |= 1 << _DEPTH[role]

    def wipe(self, x: int, y: int) -> None:
        """Clear one dot."""
        column, row = x // ACROSS, y // DOWN
        if 0 <= column < self.columns and 0 <= row < self.rows:
            self._bits[row * self.columns + column] &= ~_BIT[y % DOWN][x % ACROSS]

    def line(
        self,
        start: Dot,
        end: Dot,
        role: str,
        dash: tuple[int, int] = (1, 0),
        *,
        thick: bool = False,
    ) -> None:
        """A line, `dash` dots on and off in turn; a thick one is two dots wide, with cleared dots on both sides."""
        along = _steps(start, end)
        steep = abs(end[1] - start[1]) > abs(end[0] - start[0])
        if thick:
            for x, y in along:
                for away in (-1, 2):
                    self.wipe(*((x + away, y) if steep else (x, y + away)))
        for number, (x, y) in enumerate(along):
            if number % sum(dash) < dash[0]:
                self.dot(x, y, role)
                if thick:
                    self.dot(*((x + 1, y) if steep else (x, y + 1)), role)

    def fill(self, corners: Iterable[Dot], role: str, *, sparse: bool = False) -> None:
        """A filled polygon, its outline included; a sparse one has every other dot inside."""
        points = list(corners)
        for y in range(round(min(p[1] for p in points)), round(max(p[1] for p in points)) + 1):
            crossings = sorted(_crossings(points, y + 0.001))
            for left, right in zip(crossings[::2], crossings[1::2], strict=False):
                for x in range(round(left), round(right) + 1):
                    if not sparse or (x + y) % 2 == 0:
                        self.dot(x, y, role)
        for start, end in pairwise([*points, points[0]]):
            self.line(start, end, role)

    def inked(self, column: int, row: int) -> bool:
        """Whether a cell has a dot."""
        return self._bits[row * self.columns + column] != 0

    def blank(self) -> list[bytearray]:
        """Every row of cells, 1 where a cell has no dot."""
        cells = bytearray(not bits for bits in self._bits)
        return [cells[row * self.columns : (row + 1) * self.columns] for row in range(self.rows)]

    def shows(self, column: int, row: int, role: str) -> bool:
        """Whether something of that role is in a cell."""
        return bool(self._roles[row * self.columns + column] >> _DEPTH[role] & 1)

    def lines(self, *, ascii_only: bool) -> list[list[str]]:
        """Every cell as a character, row by row."""
        shown = _as_ascii if ascii_only else _as_braille
        cells = [shown(bits, roles) for bits, roles in zip(self._bits, self._roles, strict=True)]
        return [cells[row * self.columns : (row + 1) * self.columns] for row in range(self.rows)]

    def roles(self) -> set[str]:
        """The roles that lie in front somewhere."""
        return {_front(roles) for roles in set(self._roles) if roles}


def _as_braille(bits: int, _: int) -> str:
    return chr(_BRAILLE + bits) if bits else " "


def _as_ascii(bits: int, roles: int) -> str:
    return _ASCII[_front(roles)] if bits else " "


def _front(roles: int) -> str:
    return ROLES[roles.bit_length() - 1]


def _steps(start: Dot, end: Dot) -> list[tuple[int, int]]:
    """The dots nearest to a line, one for each step of its longer side (digital differential analyzer)."""
    (x0, y0), (x1, y1) = start, end
    count = max(1, round(max(abs(x1 - x0), abs(y1 - y0))))
    return [
        (round(x0 + (x1 - x0) * n / count), round(y0 + (y1 - y0) * n / count))
        for n in range(count + 1)
    ]


def _crossings(points: list[Dot], y: float) -> Iterator[float]:
    for (x0, y0), (x1, y1) in pairwise([*points, points[0]]):
        if (y0 <= y) != (y1 <= y):
            yield x0 + (x1 - x0) * (y - y0) / (y1 - y0)
