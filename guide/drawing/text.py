"""A scene in characters: braille dots, or ASCII letters, with words beside what they name.

Every character is one column wide. The picture takes the largest scale at which it fits; words that find
no room become letters that are explained beneath.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from guide.drawing.canvas import ACROSS, ASCII_KEY, DOWN, Canvas, Dot
from guide.drawing.scene import (
    Arc,
    Area,
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
from guide.drawing.words import Words, spread, wrapped

LEAST_COLUMNS, LEAST_ROWS = 20, 6
"""Below these nothing is drawn."""

_DASH = {"head": (1, 2), "closed": (2, 2), "swing": (1, 3), "datum": (1, 1)}
"""Dots on and off in turn, by role; a whole line where none is named."""
_THICK = ("arm",)
_SPARSE = ("body",)
_ARC_STEP = 2.0


@dataclass(frozen=True, slots=True)
class _Fit:
    """Where a scene goes on a canvas."""

    left: float
    top: float
    scale: float
    """Dots for one inch."""
    x: float
    y: float
    """Dots from the canvas's corner."""

    def dots(self, point: Point) -> Dot:
        return (
            self.x + (point[0] - self.left) * self.scale,
            self.y + (self.top - point[1]) * self.scale,
        )

    def cell(self, point: Point) -> tuple[int, int]:
        x, y = self.dots(point)
        return round(x) // ACROSS, round(y) // DOWN


def scale_for(scene: Scene, columns: int, rows: int) -> float:
    """Dots for one inch at which the scene would be drawn in that many cells."""
    left, bottom, right, top = bounds(scene)
    captions = bool(any(_texts(scene.above))) + bool(any(_texts(scene.below)))
    across, down = columns * ACROSS - 2, max(1, rows - captions) * DOWN - 2
    return min(across / max(right - left, 0.1), down / max(top - bottom, 0.1))


def _texts(captions: object) -> tuple[str, str, str]:
    return captions.left, captions.middle, captions.right  # type: ignore[attr-defined]


def render_text(scene: Scene, columns: int, rows: int, *, ascii_only: bool = False) -> list[str]:
    """The scene in at most `columns` by `rows` cells, without blank lines at the end of lines.

    Nothing where there is less room than `LEAST_COLUMNS` by `LEAST_ROWS`: the scene's sentence stands
    for it then.
    """
    if columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return []
    beneath: list[str] = []
    for _ in range(3):
        lines, wanted = _attempt(scene, columns, rows - len(beneath), beneath, ascii_only)
        if len(wanted) <= len(beneath):
            break
        beneath = wanted
    return lines
