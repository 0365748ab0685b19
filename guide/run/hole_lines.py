"""The holes that a step lists, from the setting-out of the run's opening."""

from typing import TYPE_CHECKING, NamedTuple

from guide.measures import Quantity
from guide.run.state import State

if TYPE_CHECKING:
    from guide.trade.holes.rows import Line


class HoleLine(NamedTuple):
    """One line of the holes that a step lists."""

    text: str
    name: str = ""
    """The hole's name, to be spoken; empty for a line on all of them."""
    places: tuple[tuple[Quantity, str], ...] = ()
    """Its two numbers, each with the way it runs."""
    only_if: str = ""
    """When it is drilled at all; empty if always."""


def hole_lines(state: State, group: str) -> list[HoleLine]:
    """The lines for a group of holes, in the run's units."""
    from guide.run.run_opening import setting_out_of_run  # most steps list no holes
    from guide.trade.holes.rows import lines

    return [_shown(one) for one in lines(setting_out_of_run(state), group, state.units)]


def _shown(line: "Line") -> HoleLine:
    row = line.hole
    if row is None:
        return HoleLine(line.text)
    places = ((row.along, "along"), (row.across, row.direction))
    return HoleLine(line.text, row.hole.name, places, row.hole.only_if)
