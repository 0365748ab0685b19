"""Swings timed by stopwatch: rejection of outliers, the median of the rest, and the block a swing goes on to."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from guide.measures import Quantity, nearest, write
from guide.procedure.facts import Fact
from guide.procedure.graph import Node
from guide.run.ahead import following
from guide.run.state import State

MOST = 5
"""The most swings of which the median is used; ours."""

FAR_OFF = 3
"""A time so many times longer or shorter than the median of the others is a slip of the thumb; ours."""

TOO_SOON = 0.3
"""A press within this of the start [s] is the same press twice; ours."""

_TENTH = Quantity(Fraction(1, 10), "s")
"""The resolution of a thumb on a key [s]; used if the fact names no step; ours."""


class Timed(NamedTuple):
    """The result of several swings."""

    value: Quantity
    """Their median, to the step of the fact."""
    swings: tuple[Quantity, ...]
    """Those that count, oldest first."""
    dropped: tuple[Quantity, ...]
    """Those that do not."""

    def body(self) -> dict[str, Any]:
        """The part of the event beside the value."""
        return {
            "swings": [write(one) for one in self.swings],
            "dropped": [write(one) for one in self.dropped],
        }


def timed(seconds: Sequence[float], fact: Fact, slips: Sequence[float] = ()) -> Timed:
    """The median of one or more times of a swing [s]; `slips` were no time at all."""
    from statistics import median  # a start needs none

    kept, dropped = sifted(seconds)
    return Timed(
        _quantity(median(kept), fact),
        tuple(_quantity(one, fact) for one in kept),
        tuple(_quantity(one, fact) for one in (*slips, *dropped)),
    )


def sifted(seconds: Sequence[float]) -> tuple[list[float], list[float]]:
    """The times that count and those that do not; all count if there are fewer than three."""
    from statistics import median  # as above

    kept: list[float] = []
    dropped: list[float] = []
    for place, one in enumerate(seconds):
        others = [*seconds[:place], *seconds[place + 1 :]]
        usual = median(others) if len(others) > 1 else one
        off = one > FAR_OFF * usual or usual > FAR_OFF * one
        (dropped if off else kept).append(one)
    return (kept, dropped) if kept else (list(seconds), [])


def _quantity(seconds: float, fact: Fact) -> Quantity:
    taken = Quantity(Fraction(round(seconds * 1000), 1000), "s")
    return nearest(taken, fact.step or _TENTH)


def goes_on(state: State) -> Node | None:
    """The `time` block that goes on with the swing of the one the run is at, if the run comes to it next."""
    wanted = state.node.body.get("same_swing")
    if not wanted or state.node.kind != "time":
        return None
    node = following(state, state.node)
    return node if node is not None and node.id == wanted else None
