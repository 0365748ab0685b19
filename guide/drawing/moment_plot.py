"""The closer's moment at the leaf by its opening angle, as a plot: what `hingeside work moments` works out."""

from collections.abc import Mapping, Sequence

from guide.drawing.plot import Axis, Plot, PlotCurve, number
from guide.measures import Quantity

EVERY = 5
"""Degrees between two points of a curve that are drawn."""
_STEPS = (1, 2, 5, 10, 20, 50, 100, 200)


def moment_plot(rows: Sequence[Mapping[str, object]]) -> Plot:
    """The plot of the rows of `moments`: `angle`, `closing` and `opening`, each a Quantity, at least one row."""
    closing = [(_of(row, "angle"), _of(row, "closing")) for row in rows]
    opening = [(_of(row, "angle"), _of(row, "opening")) for row in rows]
    unit = _unit(rows[0])
    last = closing[-1][0]
    values = [value for _, value in (*closing, *opening)]
    top, foot = _round(max(*values, 1.0)), 0.0 - _round(-min(*values, 0.0))
    least = min(closing, key=lambda one: one[1])
    most = max(opening, key=lambda one: one[1])
    says = (
        f"Closing {number(closing[0][1])} {unit} shut, and least {number(least[1])} {unit} at"
        f" {number(least[0])} degrees. Opening needs {number(most[1])} {unit} at most, at"
        f" {number(most[0])} degrees."
    )
    ticks = tuple(float(deg) for deg in range(0, int(last) + 1, 30))
    return Plot(
        "Moment at the leaf",
        says,
        Axis("degrees open", 0.0, max(last, 1.0), ticks),
        Axis(unit, foot, top),
        (PlotCurve("closing", _thinned(closing)), PlotCurve("opening", _thinned(opening))),
    )


def _of(row: Mapping[str, object], name: str) -> float:
    value = row[name]
    assert isinstance(value, Quantity)  # the computation's output says so
    return float(value.magnitude)


def _unit(row: Mapping[str, object]) -> str:
    value = row["closing"]
    assert isinstance(value, Quantity)  # as above
    return value.unit


def _thinned(points: list[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    return tuple(one for one in points if one[0] % EVERY == 0 or one is points[-1])


def _round(value: float) -> float:
    """The next round number above."""
    if value <= 0:
        return 0.0
    step = next(one for one in _STEPS if one * 10 >= value or one == _STEPS[-1])
    return float(-(-value // step) * step)
