"""How the leaf of a practice door swung, angle by time: the first swing and the last, with the mark at 12 degrees."""

from guide.drawing.plot import Axis, Plot, PlotCurve
from guide.practice.practice import Practice, PracticeSwing
from guide.trade.swing.path import TWELVE

_MOST_POINTS = 40


def swing_plot(practice: Practice) -> Plot | None:
    """The first and the last swing from the widest start; None before the leaf was let go."""
    wide = max((swung.start for swung in practice.swings), default=0.0)
    found = [swung for swung in practice.swings if swung.start == wide]
    if not found:
        return None
    shown = [found[0], found[-1]] if len(found) > 1 else found
    return Plot(
        "The leaf's swing",
        " ".join(_told(swung) for swung in shown),
        Axis("seconds", 0.0, max(1.0, *(swung.seconds for swung in shown))),
        Axis("degrees open", 0.0, wide),
        tuple(PlotCurve(f"swing {swung.number}", _path(swung)) for swung in shown),
        limits=(TWELVE,) if wide > TWELVE else (),
        limit_name="the mark",
    )


def _told(swung: PracticeSwing) -> str:
    mark = next((seconds for seconds, deg in swung.trace if deg <= TWELVE), None)
    passed = (
        ""
        if swung.start <= TWELVE
        else f" at the mark after {mark:.1f} s,"
        if mark is not None
        else " never at the mark,"
    )
    seconds, deg = swung.trace[-1]
    end = (
        "latched"
        if swung.closing.latched
        else f"stopped at {deg:.0f} degree{'' if round(deg) == 1 else 's'}"
    )
    return (
        f"Swing {swung.number} from {swung.start:g} degrees:{passed} {end} after {seconds:.1f} s."
    )


def _path(swung: PracticeSwing) -> tuple[tuple[float, float], ...]:
    """Enough of its points to be drawn, both ends among them."""
    step = max(1, len(swung.trace) // _MOST_POINTS)
    return (*swung.trace[:-1:step], swung.trace[-1])
