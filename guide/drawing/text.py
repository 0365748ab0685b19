"""Render a scene in characters: braille dots or ASCII letters, with words beside what they name.

Every character is one column wide. The affine mapping from inches to dots has the largest scale at which the
scene fits:

    x_dots = x0 + scale * (x - left)        y_dots = 1 + scale * (top - y)

Labels are placed greedily, in the order of the scene: each on the free cells nearest to its place, never over
another word or a line. One that finds no room becomes a letter that is explained beneath.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from guide.drawing.canvas import ACROSS, ASCII_KEY, DOWN, Canvas, Dot
from guide.drawing.scene import (
    Arc,
    Area,
    Caption,
    Circle,
    Dimension,
    Label,
    Point,
    Polyline,
    Scene,
    Shape,
    arc_points,
    bounds,
)

LEAST_COLUMNS, LEAST_ROWS = 20, 6
"""With less room nothing is drawn."""

_DASH = {"head": (1, 2), "closed": (2, 2), "swing": (1, 3), "datum": (1, 1), "limit": (3, 2)}
"""Dots on and off in turn, by role; a role not named has a whole line."""
_THICK = ("arm", "second")
_SPARSE = ("body",)
_ARC_STEP_DEG = 2.0
_SMALL = 2.0
"""Dots for one inch below which labels without a letter are left out."""
_NARROW = 50
"""Columns below which they are left out too."""
_ROOMY_ROWS = 16
"""Rows from which an ASCII drawing explains its letters."""
_ROWS_AWAY = 2
_COLUMNS_AWAY = 4
"""How far from its place a label may be and still be read as belonging to it [cells]."""


class Words:
    """The words on one canvas, cell by cell."""

    def __init__(self, canvas: Canvas, kept: Canvas) -> None:
        """No words go on the dots of `kept`, although the canvas may be empty there."""
        self._canvas = canvas
        self.columns = canvas.columns
        self.cells: dict[tuple[int, int], str] = {}
        """(column, row) to the character there."""
        pairs = zip(canvas.blank(), kept.blank(), strict=True)
        self._blank = [bytearray(a & b for a, b in zip(*rows, strict=True)) for rows in pairs]
        self._unwritten = [bytearray(b"\1") * (canvas.columns + 2) for _ in range(canvas.rows)]
        """1 where no word is, with one more cell at either end."""

    def put(self, text: str, column: int, row: int) -> None:
        """Write a text from that cell on, over anything there; letters that do not fit are left out."""
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
    """A text on a line of `columns`, centred on the column `middle` if it fits there.

    One that is too long ends before its last comma.
    """
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


@dataclass(frozen=True, slots=True)
class _Fit:
    """The affine mapping from a scene to the dots of a canvas."""

    left: float
    top: float
    scale: float
    """Dots for one inch."""
    x: float
    """Dots from the canvas's left edge."""

    def dots(self, point: Point) -> Dot:
        return (
            self.x + (point[0] - self.left) * self.scale,
            1.0 + (self.top - point[1]) * self.scale,
        )

    def cell(self, point: Point) -> tuple[int, int]:
        x, y = self.dots(point)
        return round(x) // ACROSS, round(y) // DOWN


def scale_for(scene: Scene, columns: int, rows: int) -> float:
    """Dots for one inch at which a scene fits into that many cells, its captions counted."""
    left, bottom, right, top = bounds(scene)
    across = columns * ACROSS - 3
    down = max(1, rows - _caption_rows(scene)) * DOWN - 3
    return min(across / max(right - left, 0.1), down / max(top - bottom, 0.1))


def render_text(
    scene: Scene, columns: int, rows: int, *, ascii_only: bool = False, steady: bool = False
) -> list[str]:
    """The scene in at most `columns` by `rows` cells; no line ends in blanks.

    A `steady` one has one line beneath for its explanations, however many they are, so that its scale stays.
    No lines at all with less room than `LEAST_COLUMNS` by `LEAST_ROWS`: then show the sentence of the scene.
    """
    if columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return []
    if steady:
        picture, explained = _picture(scene, columns, rows - 1, ascii_only)
        return [*picture, *explained[:1]]
    beneath = 0
    while True:
        picture, explained = _picture(scene, columns, rows - beneath, ascii_only)
        if len(explained) <= beneath or beneath + LEAST_ROWS >= rows:
            return [*picture, *explained][:rows]
        beneath = min(len(explained), rows - LEAST_ROWS)


def _caption_rows(scene: Scene) -> int:
    return bool(scene.above) + bool(scene.below)


def _picture(
    scene: Scene, columns: int, rows: int, ascii_only: bool
) -> tuple[list[str], list[str]]:
    """The picture with its captions, and the lines that explain its letters."""
    left, bottom, right, top = bounds(scene)
    scale = scale_for(scene, columns, rows)
    wide = (right - left) * scale
    fit = _Fit(left, top, scale, (columns * ACROSS - wide) / 2)
    high = min(rows - _caption_rows(scene), int(((top - bottom) * scale + 2) // DOWN + 1))
    canvas = Canvas(columns, high)
    for shape in scene.shapes:
        _draw(canvas, fit, shape)
    words = Words(canvas, _inside(fit, scene, columns, high))
    dimensions = [one for one in scene.shapes if isinstance(one, Dimension)]
    upright = [(one, _dimension(words, fit, one, ascii_only)) for one in dimensions]
    explained = []
    for dimension, beside in upright:
        if beside is not None and not words.beside(*beside, "dimension"):
            words.at(dimension.key, *beside[1][0])
            explained.append(f"{dimension.key} {dimension.text}")
    for caption in (one for one in scene.shapes if isinstance(one, Caption)):
        column, row = fit.cell(caption.place)
        length = len(caption.text)
        words.put(caption.text, column - (length if caption.before else length // 2), row)
    explained += _label(words, fit, [one for one in scene.shapes if isinstance(one, Label)])
    cells = canvas.lines(ascii_only=ascii_only)
    for (column, row), char in words.cells.items():
        cells[row][column] = char
    lines = ["".join(row).rstrip() for row in cells]
    middle = fit.cell(((left + right) / 2, top))[0]
    if scene.above:
        lines.insert(0, centred(scene.above, columns, middle))
    if scene.below:
        lines.append(centred(scene.below, columns, middle))
    if ascii_only and rows >= _ROOMY_ROWS:
        drawn = canvas.roles()
        explained += [f"{char} {words}" for char, role, words in ASCII_KEY if role in drawn]
    return lines, wrapped(explained, columns)


def _draw(canvas: Canvas, fit: _Fit, shape: Shape) -> None:
    match shape:
        case Area(role, points):
            canvas.fill([fit.dots(point) for point in points], role, sparse=role in _SPARSE)
        case Polyline(role, points, closed):
            ring = [*points, points[0]] if closed else list(points)
            _through(canvas, [fit.dots(point) for point in ring], role)
        case Arc(role):
            _through(canvas, [fit.dots(point) for point in arc_points(shape, _ARC_STEP_DEG)], role)
        case Circle("hole", centre, radius):
            _hole(canvas, fit, centre, radius)
        case Circle(role, centre, radius):
            around = Arc(role, centre, radius, 0.0, 360.0)
            canvas.fill([fit.dots(point) for point in arc_points(around, 30.0)], role)


def _through(canvas: Canvas, dots: list[Dot], role: str) -> None:
    for start, end in pairwise(dots):
        canvas.line(start, end, role, _DASH.get(role, (1, 0)), thick=role in _THICK)


def _hole(canvas: Canvas, fit: _Fit, centre: Point, radius: float) -> None:
    x, y = fit.dots(centre)
    reach = max(2.0, radius * fit.scale)
    canvas.line((x - reach, y), (x + reach, y), "hole")
    canvas.line((x, y - reach), (x, y + reach), "hole")


def _dimension(
    words: Words, fit: _Fit, shape: Dimension, ascii_only: bool
) -> tuple[str, list[tuple[int, int]]] | None:
    """Draw a level or an upright distance.

    A level one has its text in the line, or beyond its end if the line is short. For an upright one the text
    and the cells that it may be put beside are returned.
    """
    (x0, y0), (x1, y1) = sorted((fit.cell(shape.start), fit.cell(shape.end)))
    if y0 == y1 and x1 > x0:
        start, bar, end = "|-|" if ascii_only else "├─┤"
        inner = x1 - x0 - 1
        text = f" {shape.text} "
        if len(text) + 2 <= inner:
            words.put(start + text.center(inner, bar) + end, x0, y0)
            return None
        words.put(start + bar * inner + end, x0, y0)
        beyond = x1 + 2 if x1 + 2 + len(shape.text) <= words.columns else x0 - 1 - len(shape.text)
        words.put(shape.text, beyond, y0)
        return None
    top, bar, foot = "-|-" if ascii_only else "┬│┴"
    low, high = min(y0, y1), max(y0, y1)
    words.put(bar if low == high else top, x0, low)
    for row in range(low + 1, high):
        words.put(bar, x0, row)
    if high > low:
        words.put(foot, x0, high)
    return shape.text, [(x0, (low + high) // 2), (x0, low), (x0, high)]


def _inside(fit: _Fit, scene: Scene, columns: int, rows: int) -> Canvas:
    """The inside of the leaf, which is kept free so that no word seems to be about it."""
    inside = Canvas(columns, rows)
    for shape in scene.shapes:
        if isinstance(shape, Polyline) and shape.role == "leaf" and shape.closed:
            inside.fill([fit.dots(point) for point in shape.points], "leaf")
    return inside


def _label(words: Words, fit: _Fit, labels: list[Label]) -> list[str]:
    """Put every label; the explanations of those that became a letter."""
    explained = []
    for label in (one for one in labels if one.explained):
        words.at(label.key, *fit.cell(label.places[0]))
        explained.append(f"{label.key} {label.texts[0]}")
    small = fit.scale < _SMALL or words.columns < _NARROW
    for label in (one for one in labels if not one.explained and (one.key or not small)):
        places = [fit.cell(place) for place in label.places]
        if any(words.beside(text, places, label.role) for text in label.texts):
            continue
        if label.key:
            words.at(label.key, *places[0])
            explained.append(f"{label.key} {label.texts[0]}")
    return explained
