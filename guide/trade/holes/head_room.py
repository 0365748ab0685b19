"""`head-room`: how high above the floor a closer would hang, before anything is drilled.

From the height of the leaf and the closer's sheet where it gives the body. The floor counts as level with the leaf's
lower edge; the gap below the leaf is room to spare.
"""

from collections.abc import Collection, Iterable, Mapping
from fractions import Fraction

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
from guide.trade.holes.accessories import KIND_WORDS
from guide.trade.holes.distances import HEADROOM, MOST_OVERLAP
from guide.trade.holes.opening import OPENING_INPUTS, opening_of
from guide.trade.holes.set_out import set_out
from guide.trade.inputs import HEIGHT_INPUT
from guide.trade.mounts import MOUNT_WORDS, MOUNTS
from guide.trade.sheet.parts import Accessory
from guide.trade.sheet.sheet import Sheet
from guide.trade.shown import length, system_of

USUAL_HANG = Fraction(5)
"""No usual closer hangs lower than this under the top of the leaf [in] (common practice)."""
SHOE_HALF = Fraction(1)
"""From a shoe's screw line to its lower edge [in] (common practice)."""
MOST_UNDER = Fraction(3, 4)
"""Most that a leaf stands above the floor [in]: NFPA 80 allows no more under a fire door."""

SHOE_HIGH = Fraction(5, 4)
"""From the underside of a soffit to that of a shoe and its arm [in] (common practice)."""

DECIDES = (
    "room",
    "top_rail",
    "glass",
    "frame_face",
    "soffit",
    "soffit_width",
    "head_item",
    "coordinator",
    "overlap",
)
"""What of the opening says which accessory goes on."""

VERDICTS = ("enough", "measure", "low")


def hangs(sheet: Sheet, mount: str, kinds: Collection[str] = ()) -> Fraction | None:
    """How far under the top of the leaf the lowest part on the leaf comes, at the most [in]; None if the sheet does not
    say.

    `kinds` are the accessories that go on, of `sheet.parts.ACCESSORY_KINDS`: a drop plate lowers what is on the leaf by
    what its row says, and a bracket or plate under the soffit lowers the shoe there by its thickness.
    """
    rows = sheet.mount(mount)
    on = [one for one in sheet.accessories_for(mount) if one.kind in kinds]
    above = MOST_OVERLAP if rows.datum == "underside of the stop" else Fraction(0)
    if mount == "top-jamb":
        shoe = max(row.shoe_datum.base for row in rows.ranges) + _shift(on, "shoe") + SHOE_HALF
        if sheet.body is None:
            return above + shoe
        up = min(row.body_datum.base for row in rows.ranges) - _shift(on, "body")
        return above + max(shoe, sheet.body.height.base / 2 - up)
    if sheet.body is None:
        return None
    body = max(row.body_datum.base for row in rows.ranges) + _shift(on, "body")
    lowest = above + body + sheet.body.height.base / 2
    under = [
        one.thickness.base for one in on if one.carries == "shoe" and one.thickness is not None
    ]
    if mount == "parallel" and under:
        lowest = max(lowest, MOST_OVERLAP + max(under) + SHOE_HIGH)
    return lowest


def _shift(on: Iterable[Accessory], part: str) -> Fraction:
    """How far the accessories bring a part down [in]."""
    return max((one.shift_down.base for one in on if one.carries == part), default=Fraction(0))


def _goes_on(inputs: Mapping[str, Given], sheet: Sheet | None) -> tuple[str, ...]:
    """The accessories that the opening needs, as far as it is known."""
    wanted = set_out(opening_of(inputs), sheet).accessories.needs
    return tuple(one.kind for one in wanted)


def _head_room(inputs: Mapping[str, Given]) -> Answer:
    height = needed(inputs, "height", Quantity)
    mount = needed(inputs, "mount", str)
    sheet = given_sheet(inputs)
    by_sheet, kinds = None, _goes_on(inputs, sheet)
    if sheet is not None and any(one.mount == mount for one in sheet.mounts):
        by_sheet = hangs(sheet, mount, kinds)
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
    on = f" on the {KIND_WORDS[kinds[0]]}" if kinds and by_sheet is not None else ""
    working = (
        (
            f"{whose}{on} hangs at least {length(float(room), system)} above the leaf's lower edge on a"
            f" {MOUNT_WORDS[mount]}."
        ),
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
        *(one for one in OPENING_INPUTS if one.name in DECIDES),
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
