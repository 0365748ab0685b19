"""One invented closer, copied from no maker's sheet: the numbers are ours."""

from fractions import Fraction

from guide.measures import parse
from guide.trade.sheet.parts import ChartRow, OpeningRange, Screw, SheetMount
from guide.trade.sheet.sheet import Sheet


def opening_range(up_to: str, body: str, shoe: str) -> OpeningRange:
    return OpeningRange(
        up_to=parse(up_to),
        body_along=parse(body),
        body_datum=parse("2 1/8 in"),
        shoe_along=parse(shoe),
        shoe_datum=parse("7/8 in"),
    )


REGULAR = SheetMount(
    mount="regular",
    ranges=(
        opening_range("100 deg", "8 3/4 in", "15 5/16 in"),
        opening_range("130 deg", "6 1/2 in", "12 1/16 in"),
    ),
    datum="underside of the stop",
    along_from="hinge edge",
    valves_toward="hinge",
    arm_rests="The forearm stands square to the frame.",
    preset="Turn the main arm a quarter turn from rest before the forearm is joined.",
)

PARALLEL = SheetMount(
    mount="parallel",
    ranges=(opening_range("180 deg", "5 1/4 in", "9 3/8 in"),),
    datum="top of the leaf",
    along_from="hinge pin centre",
    valves_toward="latch",
    arm_rests="The main arm lies along the closed door.",
    preset="Bring the main arm along the door before the forearm is joined.",
)

SWEEP = Screw("sweep", "upper screw at the end of the body", "clockwise", Fraction(2), True)
SPRING = Screw("spring", "end of the body away from the valves")


def harbour_closer() -> Sheet:
    """A closer of EN sizes 2 to 5 with a spring screw and no size chart of its own."""
    return Sheet(
        sheet="harbour-school",
        about="Invented, for practice.",
        units="inch",
        sizes=(2, 5),
        adjustable=True,
        mounts=(REGULAR, PARALLEL),
        screws=(SWEEP, SPRING),
        turns_per_size=Fraction(5, 2),
        through_bolts="Use through-bolts where the leaf has no reinforcement.",
    )


CHART_BY_MOUNT = (
    ChartRow(parse("34 in"), 2, "regular"),
    ChartRow(parse("38 in"), 3, "regular"),
    ChartRow(parse("48 in"), 5, "regular"),
    ChartRow(parse("34 in"), 3, "parallel"),
    ChartRow(parse("38 in"), 4, "parallel"),
)
"""Goes to a 48 in leaf on a regular arm and to 38 in on a parallel arm; no line for top jamb."""

CHART_FOR_ALL = (ChartRow(parse("900 mm"), 3), ChartRow(parse("1100 mm"), 5))
