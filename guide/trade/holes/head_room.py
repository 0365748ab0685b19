"""`head-room`: how high above the floor a closer would hang, before anything is drilled.

From the height of the leaf and the closer's sheet where it gives the body. The floor counts as level with the leaf's
lower edge; the gap below the leaf is room to spare.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from guide.measures import Quantity
from guide.trade.answer import Answer
from guide.trade.computation import (
    Computation,
    Extent,
    Given,
    Input,
    Output,
    Ranged,
    given_sheet,
    needed,
)
from guide.trade.holes.distances import HEADROOM, MOST_OVERLAP
from guide.trade.inputs import HEIGHT_INPUT
from guide.trade.mounts import MOUNT_WORDS, MOUNTS
from guide.trade.shown import length, system_of

if TYPE_CHECKING:
    from guide.trade.sheet.sheet import Sheet

USUAL_HANG = Fraction(5)
"""No usual closer hangs lower than this under the top of the leaf [in] (common practice)."""
SHOE_HALF = Fraction(1)
"""From a shoe's screw line to its lower edge [in] (common practice)."""
MOST_UNDER = Fraction(3, 4)
"""Most that a leaf stands above the floor [in]: NFPA 80 allows no more under a fire door."""

VERDICTS = ("enough", "measure", "low")


def hangs(sheet: "Sheet", mount: str) -> Fraction | None:
    """How far under the top of the leaf the lowest part on the leaf comes, at the most [in]; None if the sheet does not
    say."""
    rows = sheet.mount(mount)
    above = MOST_OVERLAP if rows.datum == "underside of the stop" else Fraction(0)
    if mount == "top-jamb":
        return above + max(row.shoe_datum.base for row in rows.ranges) + SHOE_HALF
    if sheet.body is None:
        return None
    return above + max(row.body_datum.base for row in rows.ranges) + sheet.body.height.base / 2


def _head_room(inputs: Mapping[str, Given]) -> Answer:
    height = needed(inputs, "height", Quantity)
    mount = needed(inputs, "mount", str)
    sheet = given_sheet(inputs)
    by_sheet = None
    if sheet is not None and any(one.mount == mount for one in sheet.mounts):
        by_sheet = hangs(sheet, mount)
    room = height.base - (USUAL_HANG if by_sheet is None else by_sheet)
    if room >= HEADROOM:
        verdict = "enough"
    elif by_sheet is None or room + MOST_UNDER >= HEADROOM:
        verdict = "measure"
    else:
        verdict = "low"
    system = system_of(inputs)
    whose = (
        "A usual closer" if by_sheet is None or sheet is None else f"By the sheet {sheet.sheet} it"
    )
    working = (
        f"{whose} hangs at least {length(float(room), system)} above the leaf's lower edge on a {MOUNT_WORDS[mount]}.",
        f"{length(float(HEADROOM), system)} is wanted above the floor (ADA 307.4).",
    )
    return Answer({"verdict": verdict, "hangs_at": Quantity(room, "in")}, working)


def _extent(_: Ranged, part: str) -> Extent:
    """Every leaf is at most so high."""
    if part == "hangs_at":
        return Extent(Quantity(Fraction(0), "in"), HEIGHT_INPUT.high)
    return Extent(None, None)


COMPUTATION = Computation(
    name="head-room",
    about="How high above the floor a closer would hang, before anything is drilled.",
    inputs=(
        HEIGHT_INPUT,
        Input("mount", "choice", True, "how the closer is mounted", MOUNTS),
        Input("sheet", "sheet", False, "the sheet of the closer, which says where it hangs"),
    ),
    output=Output(
        "mapping",
        ("verdict", "hangs_at"),
        labels=(("verdict", VERDICTS),),
        measures=(("hangs_at", "length"),),
    ),
    compute=_head_room,
    source="2010 ADA Standards, 307.4, exception; the maker's sheet; common practice",
    example="height='80 in' mount=regular",
)
