"""Openings that the tests of drawings share."""

from guide.drawing.for_step import DoorFacts
from guide.files.library import find
from guide.measures import parse
from guide.trade.holes.opening import Opening
from guide.trade.holes.set_out import set_out
from tests.trade.shipped_sheets import load_sheet

MOUNTS = ("regular", "top-jamb", "parallel")
BOTH = ("left", "right")


def school_door(mount: str, knuckles: str, sheet: str = "generic-a") -> DoorFacts:
    """A classroom's door, 36 in wide on butt hinges, opening to 100 deg; the body fits straight on its leaf."""
    own = load_sheet(find("sheet", sheet))
    opening = Opening(mount, knuckles, hinge="butt", angle=parse("100 deg"), room="fits")
    return DoorFacts(
        mount,
        knuckles,
        opening=parse("100 deg"),
        sheet=own,
        units=own.units,
        setting_out=set_out(opening, own, units=own.units),
    )
