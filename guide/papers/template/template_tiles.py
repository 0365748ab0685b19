"""Tiling of a full-size drawing over several pages, and the clipping of its lines to each.

Millimetres, x to the right and y up, as on the paper when it lies on the door.
"""

import math
from dataclasses import dataclass

PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""Width and height upright [mm]: ANSI/ASME Y14.1 size A, ISO 216."""

MARGIN = 12.0
"""The margin that printers leave white all round [mm]; common practice."""
HEAD, FOOT = 46.0, 24.0
"""Above and below the drawing on every page: title and caution; check bars [mm]."""
OVERLAP = 20.0
"""The overlap of neighboring pages [mm]."""

Box = tuple[float, float, float, float]
"""Left, bottom, right, top [mm]."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One page's part of the whole."""

    across: int
    down: int
    """From the left and from the top, the first is 0."""
    box: Box


@dataclass(frozen=True, slots=True)
class Tiling:
    """The division of a drawing into pages."""

    page: tuple[float, float]
    """Width and height of a page, the way it lies."""
    tiles: tuple[Tile, ...]
    """Row by row, each from the left."""
    across: int
    down: int


def tile(whole: Box, paper: str) -> Tiling:
    """The fewest pages of that paper, upright or on their side, that hold the whole; the drawing is in
    the middle of them. KeyError for a paper that is not in `PAPERS`."""
    short, long = PAPERS[paper]
    return min(
        (_tile(whole, page) for page in ((short, long), (long, short))),
        key=lambda tiling: len(tiling.tiles),
    )


def _tile(whole: Box, page: tuple[float, float]) -> Tiling:
    wide = page[0] - 2 * MARGIN
    high = page[1] - 2 * MARGIN - HEAD - FOOT
    left, bottom, right, top = whole
    across, down = _count(right - left, wide), _count(top - bottom, high)
    x0 = (left + right - across * (wide - OVERLAP) - OVERLAP) / 2
    y0 = (top + bottom + down * (high - OVERLAP) + OVERLAP) / 2
    tiles = []
    for row in range(down):
        for column in range(across):
            x, y = x0 + column * (wide - OVERLAP), y0 - row * (high - OVERLAP)
            tiles.append(Tile(column, row, (x, y - high, x + wide, y)))
    return Tiling(page, tuple(tiles), across, down)


def _count(length: float, room: float) -> int:
    return max(1, math.ceil((length - OVERLAP) / (room - OVERLAP)))


def clip(
    start: tuple[float, float], end: tuple[float, float], box: Box
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The part of a line inside a box; None if it does not touch it (Liang and Barsky 1984)."""
    (x0, y0), (x1, y1) = start, end
    dx, dy = x1 - x0, y1 - y0
    first, last = 0.0, 1.0
    for way, room in ((-dx, x0 - box[0]), (dx, box[2] - x0), (-dy, y0 - box[1]), (dy, box[3] - y0)):
        if way == 0:
            if room < 0:
                return None
        elif way < 0:
            first = max(first, room / way)
        else:
            last = min(last, room / way)
    if first > last:
        return None
    return (x0 + first * dx, y0 + first * dy), (x0 + last * dx, y0 + last * dy)


def holds(box: Box, point: tuple[float, float]) -> bool:
    """Whether a point is inside a box, its edges included."""
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def register_marks(tiling: Tiling) -> dict[str, tuple[float, float]]:
    """Marks in the middle of every overlap, by name; each is printed on all pages that share it."""
    marks: dict[str, tuple[float, float]] = {}
    for one in tiling.tiles:
        left, bottom, right, top = one.box
        if one.across + 1 < tiling.across:
            x = right - OVERLAP / 2
            for y in (top - OVERLAP / 2 - 4.0, bottom + OVERLAP / 2 + 4.0):
                marks[f"R{len(marks) + 1}"] = (x, y)
        if one.down + 1 < tiling.down:
            y = bottom + OVERLAP / 2
            for x in (left + OVERLAP + 8.0, right - OVERLAP - 8.0):
                marks[f"R{len(marks) + 1}"] = (x, y)
    return marks
