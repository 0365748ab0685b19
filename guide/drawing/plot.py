"""A plot of readings or curves as a scene, with one sentence that says the same.

A scene has one scale for both ways, so a plot is laid out for the room it gets: `text_plot` for so many character
cells, `paper_plot` for paper. Only numbers that matter stand at the upright axis: its ends and the limits.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from guide.drawing.canvas import ACROSS, DOWN
from guide.drawing.scene import Caption, Circle, Point, Polyline, Scene, Shape
from guide.drawing.svg import render_svg
from guide.drawing.text import render_text, wrapped

_DOTS = 10.0
"""Dots of a text drawing for one unit of the scene."""
_CELL = ACROSS / _DOTS
_ROW = DOWN / _DOTS
_PAPER = (54.0, 27.0)
_LEAST_GAP = 1.5
"""Rows between two numbers of the upright axis."""


@dataclass(frozen=True, slots=True)
class Axis:
    """The numbers along one side."""

    name: str
    """What is counted, with its unit."""
    low: float
    high: float
    ticks: tuple[float, ...] = ()
    """Where numbers stand; both ends if there are none."""

    def share(self, value: float) -> float:
        """Where a value is between the ends, 0 to 1."""
        return (value - self.low) / (self.high - self.low)


@dataclass(frozen=True, slots=True)
class PlotCurve:
    """One line through points, in the units of the axes."""

    name: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Plot:
    """At most two curves, single readings, and the limits they are compared with."""

    title: str
    says: str
    """What it shows, in one or two sentences."""
    across: Axis
    up: Axis
    curves: tuple[PlotCurve, ...] = ()
    readings: tuple[tuple[Point, str], ...] = ()
    """Points that were read, each with its value in words, which stands at its tick."""
    limits: tuple[float, ...] = ()
    """Values of the upright axis that dashes run along."""
    limit_name: str = "limit"


def text_plot(plot: Plot, columns: int, rows: int, *, ascii_only: bool = False) -> list[str]:
    """The plot in at most so many cells; no lines where there is too little room."""
    legend = wrapped(list(_legend(plot)), columns, "; ")
    drawn = rows - len(legend)
    wide = (columns * ACROSS - 3) / _DOTS
    high = ((drawn - 1) * DOWN - 3) / _DOTS
    scene = replace(_scene(plot, wide, high, (_CELL, _ROW)), below="")
    lines = render_text(scene, columns, drawn, ascii_only=ascii_only)
    return [*lines, *legend] if lines else []


def paper_plot(plot: Plot) -> str:
    """The plot as one SVG document."""
    scene = _scene(plot, *_PAPER, (1.0, 2.0))
    return render_svg(replace(scene, below="; ".join(_legend(plot))))


def _scene(plot: Plot, wide: float, high: float, letter: tuple[float, float]) -> Scene:
    """The plot laid out in a box; `letter` is the size of a letter there."""
    numbers = _beside(plot, (high - letter[1]) / letter[1])
    margin = max(len(number(one)) for one in numbers) + 1
    left, foot = margin * letter[0], letter[1]

    def at(x: float, y: float) -> Point:
        across = left + plot.across.share(x) * (wide - left)
        return across, foot + plot.up.share(y) * (high - foot)

    shapes: list[Shape] = [Polyline("axis", ((left, high), (left, foot), (wide, foot)))]
    low, last = plot.across.low, plot.across.high
    shapes += [Polyline("limit", (at(low, one), at(last, one))) for one in plot.limits]
    for role, curve in zip(("curve", "second"), plot.curves, strict=False):
        shapes.append(Polyline(role, tuple(at(x, y) for x, y in curve.points)))
    shapes += [Circle("reading", at(*point), letter[0] * 0.6) for point, _ in plot.readings]
    shapes += [
        Caption((left - letter[0] * 0.5, at(low, one)[1]), number(one), before=True)
        for one in numbers
    ]
    for tick in plot.across.ticks or (low, last):
        inside = min(max(at(tick, plot.up.low)[0], left), wide - letter[0])
        shapes.append(Caption((inside, foot - letter[1]), _tick(plot, tick)))
    return Scene(
        plot.says,
        tuple(shapes),
        above=f"{plot.title}: {plot.up.name}",
        room=((0.0, 0.0), (wide, high)),
    )


def _beside(plot: Plot, rows: float) -> list[float]:
    """The numbers beside the upright axis: the limits, and its ends where they stand far enough from those."""
    found = list(dict.fromkeys(plot.limits))
    for end in (plot.up.low, plot.up.high):
        if all(abs(plot.up.share(end) - plot.up.share(one)) * rows >= _LEAST_GAP for one in found):
            found.append(end)
    return found


def _legend(plot: Plot) -> Iterator[str]:
    """The level axis, and what each line is."""
    yield f"Along: {plot.across.name}"
    if len(plot.curves) > 1:
        yield from (
            f"{how} line: {curve.name}"
            for how, curve in zip(("thin", "thick"), plot.curves, strict=False)
        )
    if plot.limits:
        yield f"dashes: {plot.limit_name}"


def _tick(plot: Plot, tick: float) -> str:
    """The number at a tick, with what was read there."""
    read = next((said for (x, _), said in plot.readings if x == tick), "")
    return f"{number(tick)}: {read}" if read else number(tick)


def number(value: float) -> str:
    """A number of an axis, as short as it can be."""
    return f"{value + 0.0:.1f}".removesuffix(".0")
