"""`lead-hole`: the drill for a wood screw's thread, 70 or 90 percent of the screw's root diameter.

National Design Specification for Wood Construction: 90 percent in wood of a specific gravity above 0.6, else 70.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from guide.measures import Quantity
from guide.trade.answer import Answer, Result, decimal
from guide.trade.computation import Computation, Given, Output, given, needed
from guide.trade.fastening.drills import FRACTIONAL, METRIC, Drill, nearest_drill
from guide.trade.fastening.wood_screws import (
    INTO_INPUT,
    SCREW_INPUTS,
    SOURCE,
    WOOD_SCREWS,
    read_gravity,
    refuse_unless_solid,
)
from guide.trade.inputs import optional_length

HARDER_ABOVE = Fraction("0.6")
"""Above this specific gravity a lead hole is 90 percent of the root, else 70."""


def lead_hole(screw: str, gravity: Fraction, root: Quantity | None = None) -> Quantity:
    """Diameter to bore for the thread [in]: 70 percent of the root, 90 in wood of G above 0.6.

    `root` is measured on the screw in hand [length]; without it two thirds of the shank. National Design
    Specification for Wood Construction.
    """
    share = Fraction(9, 10) if gravity > HARDER_ABOVE else Fraction(7, 10)
    return Quantity((WOOD_SCREWS[screw].root if root is None else root.base) * share, "in")


@lru_cache(maxsize=64)
def lead_drill(screw: str, gravity: Fraction) -> Drill:
    """The fractional drill nearest to the lead hole."""
    return nearest_drill(lead_hole(screw, gravity), FRACTIONAL)


def _lead_hole(inputs: Mapping[str, Given]) -> Answer:
    refuse_unless_solid(inputs)
    screw = needed(inputs, "screw", str)
    gravity = read_gravity(inputs)
    root = given(inputs, "root", Quantity)
    hole = lead_hole(screw, gravity, root)
    drill = nearest_drill(hole, FRACTIONAL)
    metric = nearest_drill(hole, METRIC)
    harder = gravity > HARDER_ABOVE
    working = (
        (
            f"Wood of specific gravity {decimal(gravity, 6)}: {90 if harder else 70} percent of the"
            f" root, {decimal(_root(screw, root), 3)} in, is {decimal(hole.magnitude, 4)} in."
        ),
        f"Nearest drill: {drill.name}, or {metric.name} from a metric set.",
    )
    value: dict[str, Result] = {"drill": drill.name, "size": drill.size}
    cautions = ["Where the maker's sheet names a pilot drill, the sheet governs."]
    if root is None:
        cautions.append(
            "The root was taken as two thirds of the shank: measure it on the screw in hand, between two threads."
        )
    return Answer(value, working, tuple(cautions))


def _root(screw: str, measured: Quantity | None) -> Fraction:
    """The root that counts [in]."""
    return WOOD_SCREWS[screw].root if measured is None else measured.base


COMPUTATION = Computation(
    name="lead-hole",
    about="The drill for a wood screw's thread in solid wood.",
    inputs=(
        *SCREW_INPUTS,
        INTO_INPUT,
        optional_length(
            "root",
            "root of the thread, measured on the screw in hand; two thirds of the shank if left out",
            Fraction(1, 20),
            Fraction(1, 4),
        ),
    ),
    output=Output("mapping", ("drill", "size")),
    compute=_lead_hole,
    source=SOURCE,
    example="screw=14 gravity=0.55",
)
