"""Twelve openings whose holes were worked out by hand from the two shipped sheets, the sum beside each number.

A place is how far along from the visible line, toward the latch, and the second number; both in inches, or in
millimetres for generic-b. The hinge edge is 1/16 in nearer than the pin centre on butts, 5/32 in on a continuous hinge.
Holes that are drilled only in some case are left out.
"""

from dataclasses import dataclass, field
from fractions import Fraction

Place = tuple[str, str]


@dataclass(frozen=True)
class Worked:
    """One opening, worked out by hand."""

    sheet: str
    mount: str
    knuckles: str
    hinge: str
    opening: str
    row: str
    hinges: str
    """On which hand of the fitter."""
    valves: str
    lines: tuple[str, str]
    """What along, and up and down, is measured from."""
    body: Place
    shoe: Place
    holes: dict[str, Place]
    seen: dict[str, str] = field(default_factory=dict)
    """What else is known of the opening."""
    on: dict[str, str] = field(default_factory=dict)
    """What carries body or shoe, by part; nothing for one that goes straight on."""

    @property
    def unit(self) -> str:
        return "in" if self.sheet == "generic-a" else "mm"

    @property
    def texts(self) -> dict[str, str]:
        """As on the command line."""
        return {
            "sheet": self.sheet,
            "mount": self.mount,
            "knuckles": self.knuckles,
            "hinge": self.hinge,
            "top_rail": HIGH_RAIL,
            **self.seen,
        }

    @property
    def name(self) -> str:
        return "-".join((self.sheet, self.mount, self.knuckles, self.hinge, *self.seen.values()))


HIGH_RAIL = "6 in"
"""A top rail that needs no drop plate, unless what is seen of the opening says another."""

PIN, EDGE = "hinge pin centre", "hinge edge"
STOP, TOP = "underside of the stop", "top of the leaf"

CLASSROOM = Worked(
    *("generic-a", "regular", "left", "butt", "95 deg", "100 deg", "left", "hinge"),
    (PIN, TOP),
    body=("7 1/2", "1 1/2"),
    shoe=("13", "3/4"),
    holes={
        "body valve end upper": (
            "4 3/4",
            "3/4",
        ),  # 7 1/2 - 2 3/4 (valves to the hinge); 1 1/2 - 3/4
        "body valve end lower": ("4 3/4", "2 1/4"),  # 1 1/2 + 3/4
        "body far end upper": ("12 1/4", "3/4"),  # 7 1/2 + 4 3/4
        "body far end lower": ("12 1/4", "2 1/4"),
        "shoe hinge side": ("11 3/4", "3/4"),  # 13 - 1 1/4
        "shoe latch side": ("14 1/4", "3/4"),  # 13 + 1 1/4
    },
)
BAKERY = Worked(
    *("generic-a", "regular", "right", "continuous", "130 deg", "130 deg", "right", "hinge"),
    (PIN, TOP),
    body=("7", "1 1/2"),
    shoe=("11 7/8", "3/4"),
    holes={
        "body valve end upper": ("4 1/4", "3/4"),  # 7 - 2 3/4
        "body valve end lower": ("4 1/4", "2 1/4"),
        "body far end upper": ("11 3/4", "3/4"),  # 7 + 4 3/4
        "body far end lower": ("11 3/4", "2 1/4"),
        "shoe hinge side": ("10 5/8", "3/4"),  # 11 7/8 - 1 1/4
        "shoe latch side": ("13 1/8", "3/4"),  # 11 7/8 + 1 1/4
    },
)
WAREHOUSE = Worked(
    *("generic-a", "top-jamb", "left", "butt", "170 deg", "180 deg", "right", "hinge"),
    (EDGE, STOP),
    body=("4 15/16", "1 1/4"),  # 5 - 1/16
    shoe=("8 11/16", "1"),  # 8 3/4 - 1/16
    holes={
        "body valve end upper": ("2 3/16", "2"),  # 4 15/16 - 2 3/4; up the frame 1 1/4 + 3/4
        "body valve end lower": ("2 3/16", "1/2"),  # 1 1/4 - 3/4
        "body far end upper": ("9 11/16", "2"),  # 4 15/16 + 4 3/4
        "body far end lower": ("9 11/16", "1/2"),
        "shoe hinge side": ("7 7/16", "1"),  # 8 11/16 - 1 1/4
        "shoe latch side": ("9 15/16", "1"),  # 8 11/16 + 1 1/4
    },
)
SWIMMING_HALL = Worked(
    *("generic-a", "top-jamb", "right", "continuous", "100 deg", "100 deg", "left", "hinge"),
    (EDGE, STOP),
    body=("6 27/32", "1 1/4"),  # 7 - 5/32
    shoe=("11 27/32", "1"),  # 12 - 5/32
    holes={
        "body valve end upper": ("4 3/32", "2"),  # 6 27/32 - 2 3/4
        "body valve end lower": ("4 3/32", "1/2"),
        "body far end upper": ("11 19/32", "2"),  # 6 27/32 + 4 3/4
        "body far end lower": ("11 19/32", "1/2"),
        "shoe hinge side": ("10 19/32", "1"),  # 11 27/32 - 1 1/4
        "shoe latch side": ("13 3/32", "1"),  # 11 27/32 + 1 1/4
    },
)
CLINIC = Worked(
    *("generic-a", "parallel", "left", "butt", "120 deg", "130 deg", "right", "latch"),
    (EDGE, STOP),
    body=("7 15/16", "2"),  # 8 - 1/16
    shoe=("7 15/16", "3 1/4"),
    holes={
        "body valve end upper": (
            "10 11/16",
            "1 1/4",
        ),  # 7 15/16 + 2 3/4 (valves to the latch); 2 - 3/4
        "body valve end lower": ("10 11/16", "2 3/4"),
        "body far end upper": ("3 3/16", "1 1/4"),  # 7 15/16 - 4 3/4
        "body far end lower": ("3 3/16", "2 3/4"),
        "shoe hinge side": ("6 11/16", "3 1/4"),  # 7 15/16 - 1 1/4
        "shoe latch side": ("9 3/16", "3 1/4"),  # 7 15/16 + 1 1/4
    },
    seen={"soffit": "flat"},
)
FIRE_PAIR = Worked(
    *("generic-a", "parallel", "right", "butt", "90 deg", "100 deg", "left", "latch"),
    (EDGE, STOP),
    body=("9 7/16", "2"),  # 9 1/2 - 1/16
    shoe=("9 7/16", "3 1/4"),
    holes={
        "body valve end upper": ("12 3/16", "1 1/4"),  # 9 7/16 + 2 3/4
        "body valve end lower": ("12 3/16", "2 3/4"),
        "body far end upper": ("4 11/16", "1 1/4"),  # 9 7/16 - 4 3/4
        "body far end lower": ("4 11/16", "2 3/4"),
        # The bracket's own holes, not the shoe's: 1 3/4 in to each side and 1 in further out.
        "coordinator bracket hinge side": ("7 11/16", "4 1/4"),  # 9 7/16 - 1 3/4; 3 1/4 + 1
        "coordinator bracket latch side": ("11 3/16", "4 1/4"),  # 9 7/16 + 1 3/4
        "coordinator bracket tail": ("9 7/16", "5"),  # 3 1/4 + 1 3/4
    },
    seen={"head_item": "coordinator"},
    on={"shoe": "coordinator bracket"},
)
LIBRARY = Worked(
    *("generic-a", "parallel", "left", "continuous", "180 deg", "180 deg", "right", "latch"),
    (EDGE, STOP),
    body=("5 27/32", "2"),  # 6 - 5/32
    shoe=("5 27/32", "3 1/4"),
    holes={
        "body valve end upper": ("8 19/32", "1 1/4"),  # 5 27/32 + 2 3/4
        "body valve end lower": ("8 19/32", "2 3/4"),
        "body far end upper": ("1 3/32", "1 1/4"),  # 5 27/32 - 4 3/4
        "body far end lower": ("1 3/32", "2 3/4"),
        "soffit plate hinge side": ("3 27/32", "2"),  # 5 27/32 - 2; 3 1/4 - 1 1/4
        "soffit plate latch side": ("7 27/32", "2"),  # 5 27/32 + 2
    },
    seen={"soffit": "narrow"},
    on={"shoe": "soffit plate"},
)
MUSIC_ROOM = Worked(
    *("generic-a", "regular", "left", "butt", "140 deg", "140 deg", "left", "hinge"),
    (PIN, TOP),
    body=("5 1/2", "2 1/4"),  # the drop plate puts it 3/4 in lower: 1 1/2 + 3/4
    shoe=("9 1/2", "3/4"),
    holes={
        "drop plate valve end upper": ("3 1/4", "5/8"),  # 5 1/2 - 2 1/4; 2 1/4 - 1 5/8
        "drop plate valve end lower": ("3 1/4", "1 1/2"),  # 2 1/4 - 3/4
        "drop plate far end upper": ("9 3/4", "5/8"),  # 5 1/2 + 4 1/4
        "drop plate far end lower": ("9 3/4", "1 1/2"),
        "shoe hinge side": ("8 1/4", "3/4"),  # 9 1/2 - 1 1/4
        "shoe latch side": ("10 3/4", "3/4"),  # 9 1/2 + 1 1/4
    },
    seen={
        "top_rail": "2 1/2 in"
    },  # the body's lower holes, 2 1/4 in down, would be 1/4 in from its edge
    on={"body": "drop plate"},
)
TOWN_OFFICE = Worked(
    *("generic-b", "regular", "left", "butt", "90 deg", "100 deg", "left", "latch"),
    (EDGE, TOP),
    body=("189", "40"),
    shoe=("329", "20"),
    holes={
        "body valve end upper": ("319", "22"),  # 189 + 130; 40 - 18
        "body valve end lower": ("319", "58"),  # 40 + 18
        "body far end upper": ("119", "22"),  # 189 - 70
        "body far end lower": ("119", "58"),
        "shoe hinge side": ("297", "20"),  # 329 - 32
        "shoe latch side": ("361", "20"),  # 329 + 32
    },
)
THEATRE_PAIR = Worked(
    *("generic-b", "parallel", "right", "butt", "130 deg", "130 deg", "left", "hinge"),
    (EDGE, STOP),
    body=("202", "50"),
    shoe=("202", "88"),  # the bracket puts it 5 further out: 83 + 5
    holes={
        "body valve end upper": ("72", "32"),  # 202 - 130 (valves to the hinge); 50 - 18
        "body valve end lower": ("72", "68"),  # 50 + 18
        "body far end upper": ("272", "32"),  # 202 + 70
        "body far end lower": ("272", "68"),
        "coordinator bracket hinge side": ("157", "108"),  # 202 - 45; 88 + 20
        "coordinator bracket latch side": ("247", "108"),  # 202 + 45
        "coordinator bracket tail": ("202", "126"),  # 88 + 38
    },
    seen={"head_item": "coordinator"},
    on={"shoe": "coordinator bracket"},
)
SCHOOL = Worked(
    *("generic-b", "top-jamb", "left", "butt", "100 deg", "100 deg", "right", "latch"),
    (EDGE, STOP),
    body=("176", "32"),
    shoe=("303", "25"),
    holes={
        "body valve end upper": ("306", "50"),  # 176 + 130; up the frame 32 + 18
        "body valve end lower": ("306", "14"),  # 32 - 18
        "body far end upper": ("106", "50"),  # 176 - 70
        "body far end lower": ("106", "14"),
        "shoe hinge side": ("271", "25"),  # 303 - 32
        "shoe latch side": ("335", "25"),  # 303 + 32
    },
)
BOILER_ROOM = Worked(
    *("generic-b", "parallel", "left", "butt", "100 deg", "100 deg", "right", "hinge"),
    (EDGE, STOP),
    body=("240", "50"),
    shoe=("240", "83"),
    holes={
        "body valve end upper": ("110", "32"),  # 240 - 130
        "body valve end lower": ("110", "68"),
        "body far end upper": ("310", "32"),  # 240 + 70
        "body far end lower": ("310", "68"),
        # Through a packer: the shoe's own holes, its screws 16 mm longer.
        "shoe hinge side": ("208", "83"),  # 240 - 32
        "shoe latch side": ("272", "83"),  # 240 + 32
    },
    seen={"soffit": "blade"},
    on={"shoe": "packer for a blade stop"},
)

TWELVE = (
    *(CLASSROOM, BAKERY, WAREHOUSE, SWIMMING_HALL, CLINIC, FIRE_PAIR),
    *(LIBRARY, MUSIC_ROOM, TOWN_OFFICE, THEATRE_PAIR, SCHOOL, BOILER_ROOM),
)


def mm(number: str, unit: str) -> float:
    """A number of the tables in millimetres."""
    total = sum((Fraction(part) for part in number.split()), Fraction(0))
    return float(total) * (25.4 if unit == "in" else 1.0)
