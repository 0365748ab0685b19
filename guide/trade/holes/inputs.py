"""What `holes`, `marks` and their like are given, and how it is read: sheet, mount, hand, hinge, range."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import BadInput
from guide.trade.arm.inputs import widest
from guide.trade.arm.sheet_geometry import Opening
from guide.trade.computation import Given, Input, given, needed
from guide.trade.door.handing import HANDS, SIDES, hand_from_outside, knuckles_from_outside
from guide.trade.door.hinges import HINGES, USUAL_THICKNESS
from guide.trade.holes.layout import to_mark
from guide.trade.inputs import optional_length
from guide.trade.mounts import MOUNT_WORDS, MOUNTS
from guide.trade.sheet.lookup import SHEET_INPUT
from guide.trade.sheet.parts import OpeningRange
from guide.trade.sheet.sheet import Sheet

__all__ = [
    "ALONG_WORDS",
    "DATUM_WORDS",
    "HAND_INPUT",
    "HINGE_INPUT",
    "KNUCKLES_INPUT",
    "MOUNT_INPUT",
    "OVERLAP_INPUT",
    "RANGE_INPUT",
    "SHEET_INPUT",
    "THICKNESS_INPUT",
    "UNITS_INPUT",
    "WIDTH_INPUT",
    "HoleRequest",
    "inches_of",
    "knuckles_of",
    "knuckles_of_hand",
    "read_request",
    "thickness_of",
]

ALONG_WORDS = {"pin": "hinge pin centre", "edge": "hinge edge"}
DATUM_WORDS = {"stop": "underside of the stop", "top": "top of the leaf"}
SYSTEMS = ("inch", "metric")

MOUNT_INPUT = Input("mount", "choice", True, "how the closer is mounted", MOUNTS)
RANGE_INPUT = Input(
    "range",
    "angle",
    True,
    "how far the door is to open, from closed",
    low=Quantity(Fraction(1), "deg"),
    high=Quantity(Fraction(180), "deg"),
    tidy=widest,
)
HAND_INPUT = Input("hand", "choice", False, "the hand; or give knuckles=", HANDS)
KNUCKLES_INPUT = Input(
    "knuckles", "choice", False, "the side the knuckles are on, from the pull side", SIDES
)
HINGE_INPUT = Input("hinge", "choice", True, "what the leaf hangs on", HINGES)
THICKNESS_INPUT = optional_length(
    "thickness", "thickness of the leaf; 1 3/4 in if left out", Fraction(1), Fraction(3)
)
OVERLAP_INPUT = optional_length(
    "overlap", "top of the leaf above the underside of the stop", Fraction(0), Fraction(2)
)
WIDTH_INPUT = optional_length("width", "width of the leaf", Fraction(12), Fraction(120))
UNITS_INPUT = Input(
    "units", "choice", False, "the units of the marks; the sheet's if left out", SYSTEMS
)


@dataclass(frozen=True, slots=True)
class HoleRequest:
    """What says which holes: one range of one mount of a sheet, on one hinge."""

    sheet: Sheet
    mount: str
    found: OpeningRange
    hinge: str
    thickness: Fraction
    """Of the leaf [in]."""
    system: str
    """What marks are given in, "inch" or "metric"."""

    @property
    def opening(self) -> Opening:
        """What of the opening counts for the arm."""
        return Opening(self.hinge, self.thickness)

    @property
    def words(self) -> str:
        """As a sentence begins."""
        return f"{self.sheet.sheet}, {MOUNT_WORDS[self.mount]}, opening to {self.found.up_to}"

    def told(self, inches: Fraction) -> str:
        """A length [in] for a sentence, to what a mark is given to."""
        return write(to_mark(inches, self.system))


def read_request(inputs: Mapping[str, Given]) -> HoleRequest:
    """The inputs that say which holes; NoAnswer if the sheet has no such mount or range."""
    sheet = needed(inputs, "sheet", Sheet)
    mount = needed(inputs, "mount", str)
    return HoleRequest(
        sheet,
        mount,
        sheet.range_for(mount, needed(inputs, "range", Quantity)),
        given(inputs, "hinge", str) or "butt",
        thickness_of(inputs),
        given(inputs, "units", str) or sheet.units,
    )


def knuckles_of(inputs: Mapping[str, Given]) -> str:
    """The side the knuckles are on, seen from the pull side.

    BadInput if neither hand nor knuckles is given, or they contradict each other.
    """
    hand = given(inputs, "hand", str)
    knuckles = given(inputs, "knuckles", str)
    if hand is None and knuckles is None:
        raise BadInput(
            "Give hand=LH, RH, LHR or RHR, or knuckles=left or right as seen from the pull side."
        )
    if hand is None:
        return knuckles or ""
    shows = knuckles_of_hand(hand)
    if knuckles not in (None, shows):
        raise BadInput(
            f"hand={hand} shows the knuckles on the {shows} from the pull side, but"
            f" knuckles={knuckles} was given; look at the door again."
        )
    return shows


def knuckles_of_hand(hand: str) -> str:
    """The side the knuckles are on, seen from the pull side, for LH, RH, LHR or RHR."""
    return next(
        knuckles_from_outside(hinges, swing)
        for hinges in SIDES
        for swing in ("away", "toward")
        if hand_from_outside(hinges, swing) == hand
    )


def thickness_of(inputs: Mapping[str, Given]) -> Fraction:
    """The leaf's thickness [in], a usual one if it was left out."""
    value = given(inputs, "thickness", Quantity)
    return USUAL_THICKNESS if value is None else value.base


def inches_of(inputs: Mapping[str, Given], name: str) -> Fraction | None:
    """A length [in], None if it was left out."""
    value = given(inputs, name, Quantity)
    return None if value is None else value.base
