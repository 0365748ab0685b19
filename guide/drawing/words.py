"""Words in a drawing of characters: each beside what it names, none over another or over a line."""

from collections.abc import Iterator

from guide.drawing.canvas import Canvas

_ROWS_AWAY = 2
_COLUMNS_AWAY = 4
"""How far from its place a label may stand and still be read as belonging to it [cells]."""


class Words:
    """The words on one canvas, cell by cell."""

    def __init__(self, canvas: Canvas, kept: Canvas) -> None:
        """`kept` is drawn where no words go, though nothing is there on the canvas."""
        self._canvas = canvas
        self.columns = canvas.columns
        self.cells: dict[tuple[int, int], str] = {}
        """(column, row) to the character there."""
        pairs = zip(canvas.blank(), kept.blank(), strict=True)
        self._blank = [bytearray(a & b for a, b in zip(*rows, strict=True)) for rows in pairs]
        self._unwritten = [bytearray(b"\1") * (canvas.columns + 2) for _ in range(canvas.rows)]
        """1 where no word is, with one more cell at either end."""

    def put(self, text: str, column: int, row: int) -> None:
        """Write a text from that cell on, over whatever is there; what does not fit is left out."""
        for number, char in enumerate(text):
            if 0 <= column + number < self._canvas.columns and 0 <= row < self._canvas.rows:
                self.cells[column + number, row] = char
                self._unwritten[row][column + number + 1] = 0

    def beside(self, text: str, places: list[tuple[int, int]], role: str) -> bool:
        """Write a text on the blank cells closest to one of the places, with nothing but `role` between
        them; False if there are none close."""
        found = [one for place in places if (one := self._nearest(text, *place, role)) is not None]
        if not found:
            return False
        _, column, row = min(found, key=lambda one: one[0])
        self.put(text, column, row)
        return True

    def at(self, letter: str, column: int, row: int) -> None:
        """Write one letter at that cell, or at the nearest that has no other word."""
        wanted = (min(max(column, 0), self._canvas.columns - 1), row)
        places = ((wanted[0] + dx, row + dy) for reach in range(6) for dx, dy in _ring(reach))
        for x, y in places:
            if (
                0 <= x < self._canvas.columns
                and 0 <= y < self._canvas.rows
                and not any((x + near, y) in self.cells for near in (-1, 0, 1))
            ):
                self.put(letter, x, y)
                return

    def _nearest(
        self, text: str, column: int, row: int, role: str
    ) -> tuple[float, int, int] | None:
        best: tuple[float, int, int] | None = None
        for y in range(max(0, row - _ROWS_AWAY), min(self._canvas.rows, row + _ROWS_AWAY + 1)):
            first = max(0, column - len(text) - _COLUMNS_AWAY)
            last = min(self._canvas.columns - len(text), column + _COLUMNS_AWAY + 1)
            for x in range(first, last + 1):
                gap = max(x - column, column - (x + len(text) - 1), 0)
                off_centre = abs(x + len(text) / 2 - column) / 50
                cost = gap + 2.0 * abs(y - row) + off_centre
                if (
                    (best is None or cost < best[0])
                    and self._free(len(text), x, y)
                    and self._in_sight(
                        (min(max(column, x), x + len(text) - 1), y), (column, row), role
                    )
                ):
                    best = cost, x, y
        return best

    def _in_sight(self, start: tuple[int, int], end: tuple[int, int], role: str) -> bool:
        """Whether the way between two cells crosses no words and nothing of another role."""
        (x0, y0), (x1, y1) = start, end
        count = max(abs(x1 - x0), abs(y1 - y0))
        for n in range(1, count):
            cell = round(x0 + (x1 - x0) * n / count), round(y0 + (y1 - y0) * n / count)
            inside = 0 <= cell[0] < self._canvas.columns and 0 <= cell[1] < self._canvas.rows
            if cell in self.cells or (
                inside and self._canvas.inked(*cell) and not self._canvas.shows(*cell, role)
            ):
                return False
        return True

    def _free(self, length: int, column: int, row: int) -> bool:
        """Whether so many cells are blank, with no word at either end of them."""
        return (
            self._blank[row].find(0, column, column + length) < 0
            and self._unwritten[row].find(0, column, column + length + 2) < 0
        )


def _ring(reach: int) -> Iterator[tuple[int, int]]:
    """Steps to the cells that are `reach` away, level ones first."""
    around = [
        (dx, dy)
        for dx in range(-reach, reach + 1)
        for dy in range(-reach, reach + 1)
        if max(abs(dx), abs(dy)) == reach
    ]
    return iter(sorted(around, key=lambda step: abs(step[1])))


def centred(text: str, columns: int, middle: int) -> str:
    """A text on a line of `columns`, about the column `middle` as far as it fits there; of one that is
    too long, what stands before its last comma."""
    if len(text) > columns:
        text = text.rpartition(",")[0] or text
    start = max(0, min(middle - len(text) // 2, columns - len(text)))
    return (" " * start + text)[:columns]


def wrapped(texts: list[str], columns: int, between: str = "  ") -> list[str]:
    """Texts one after another on as few lines as they need, none cut in two unless it is too long."""
    lines: list[str] = []
    for text in texts:
        if lines and len(lines[-1]) + len(between) + len(text) <= columns:
            lines[-1] += between + text
        else:
            lines += _folded(text, columns)
    return lines


def _folded(text: str, columns: int) -> list[str]:
    lines, rest = [], text
    while len(rest) > columns:
        at = rest.rfind(" ", 1, columns + 1)
        at = at if at > 0 else columns
        lines.append(rest[:at])
        rest = "  " + rest[at:].lstrip()
    return [*lines, rest]
