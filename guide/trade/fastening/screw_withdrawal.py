"""`screw-withdrawal`: what a wood screw holds against being pulled out, w = 2850 G² D [lbf per inch of thread].

National Design Specification for Wood Construction, side grain of solid wood only: G is the wood's oven-dry specific
gravity, D the screw's shank diameter [in].
"""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, home_unit, write
from guide.measures.units import unit_named
from guide.trade.answer import Answer, about, decimal
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.fastening.wood_screws import (
    INTO_INPUT,
    SCREW_INPUTS,
    SOURCE,
    WOOD_SCREWS,
    read_gravity,
    refuse_unless_solid,
)
from guide.trade.shown import rounded

LEAST_PENETRATION_DIAMETERS = 6
"""Thread in the wood, in shank diameters; National Design Specification (from memory)."""


def withdrawal_per_inch(screw: str, gravity: Fraction) -> Fraction:
    """Reference withdrawal load [lbf per inch of thread], 2850 G^2 D; exact.

    `screw` is a key of `WOOD_SCREWS`, `gravity` the wood's oven-dry specific gravity. National
    Design Specification for Wood Construction: side grain of solid wood only.
    """
    return 2850 * gravity**2 * WOOD_SCREWS[screw].shank


def _screw_withdrawal(inputs: Mapping[str, Given]) -> Answer:
    refuse_unless_solid(inputs)
    screw = needed(inputs, "screw", str)
    gravity = read_gravity(inputs)
    penetration = given(inputs, "penetration", Quantity)
    shank = WOOD_SCREWS[screw].shank
    per_inch = withdrawal_per_inch(screw, gravity)
    working = [
        (
            f"2850 x {decimal(gravity, 6)} x {decimal(gravity, 6)} x {decimal(shank, 3)} in:"
            f" {about(per_inch, 1)} lbf for each inch of thread in the wood."
        )
    ]
    cautions = [
        "For solid wood, across the grain, dry, with the lead hole bored.",
        "It is a steady design load for one screw; wind and slamming need a margin.",
    ]
    if penetration is None:
        working.append("The answer is for 1 in of thread; give penetration= for the whole screw.")
        return Answer(Quantity(per_inch, "lbf"), tuple(working), tuple(cautions))
    unit = home_unit("force", unit_named(penetration.unit).systems[0])
    load = Quantity(per_inch * penetration.base, "lbf").to(unit)
    working.append(f"With {write(penetration)} of thread in the wood: about {rounded(load)}.")
    least = Quantity(LEAST_PENETRATION_DIAMETERS * shank, "in")
    if penetration < least:
        cautions.append(
            f"A No. {screw} wants {decimal(least.magnitude, 2)} in of thread in the wood at least:"
            " take a longer screw."
        )
    return Answer(load, tuple(working), tuple(cautions))


COMPUTATION = Computation(
    name="screw-withdrawal",
    about="What a wood screw holds against being pulled out of solid wood.",
    inputs=(
        *SCREW_INPUTS,
        Input(
            "penetration",
            "length",
            False,
            "length of thread in the wood; the answer is for 1 in if left out",
            low=Quantity(Fraction(1, 4), "in"),
            high=Quantity(Fraction(4), "in"),
        ),
        INTO_INPUT,
    ),
    output=Output("force"),
    compute=_screw_withdrawal,
    source=SOURCE,
    example="screw=14 gravity=0.55",
)
