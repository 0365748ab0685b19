"""Openings that the tests of drawings share."""

from guide.drawing.for_step import DoorFacts
from guide.files.library import find
from guide.measures import parse
from tests.trade.shipped_sheets import load_sheet

MOUNTS = ("regular", "top-jamb", "parallel")
BOTH = ("left", "right")


def school_door(mount: str, knuckles: str, sheet: str = "generic-a") -> DoorFacts:
    """A classroom's door, 36 in wide on butt hinges, opening to 100 deg."""
    return DoorFacts(
        mount,
        knuckles,
        opening=parse("100 deg"),
        sheet=load_sheet(find("sheet", sheet)),
        units="inch" if sheet == "generic-a" else "metric",
    )
