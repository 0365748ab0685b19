"""Wood screws: what a thread holds against being pulled out, and the hole to bore first.

For solid wood with the screw across the grain (side grain), and for nothing else.
"""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from guide.measures import Quantity, write
from guide.trade.answer import Answer, NoAnswer, OutOfDomain, Result, about, decimal, exact
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.fastening.drills import FRACTIONAL, METRIC, Drill, nearest_drill


class WoodScrew(NamedTuple):
    """One screw number."""

    shank: Fraction
    """Shank diameter [in]; ASME B18.6.1."""
    root: Fraction
    """Diameter at the bottom of the thread [in]; National Design Specification, appendix L."""


WOOD_SCREWS = {
    number: WoodScrew(Fraction(shank), Fraction(root))
    # The shanks of 6, 8, 10, 12 and 14 are confirmed; the others and all roots are from memory.
    for number, shank, root in (
        ("6", "0.138", "0.113"),
        ("7", "0.151", "0.122"),
        ("8", "0.164", "0.131"),
        ("9", "0.177", "0.142"),
        ("10", "0.190", "0.152"),
        ("12", "0.216", "0.171"),
        ("14", "0.242", "0.196"),
        ("16", "0.268", "0.209"),
        ("18", "0.294", "0.232"),
    )
}
"""Screw number to its diameters."""

SPECIFIC_GRAVITIES = {
    "spruce-pine-fir": Fraction("0.42"),
    "hem-fir": Fraction("0.43"),
    "Douglas fir-larch": Fraction("0.50"),
    "southern pine": Fraction("0.55"),
    "red oak": Fraction("0.67"),
}
"""Oven-dry, National Design Specification (from memory). Older handbooks print higher values; the
lower is the safe side."""

LIGHTEST, HEAVIEST = Fraction("0.31"), Fraction("0.73")
"""Specific gravities the formula is tabulated for, inclusive; National Design Specification (from
memory)."""

HARDER_ABOVE = Fraction("0.6")
"""Above this specific gravity a lead hole is 90 percent of the root, else 70."""

LEAST_PENETRATION_DIAMETERS = 6
"""Thread in the wood, in shank diameters; National Design Specification (from memory)."""

SOLID = "solid-wood"

_NOT_SOLID = {
    "end-grain": (
        "A screw along the grain, in end grain, has no withdrawal value to rely on: put it across"
        " the grain, or use a through-bolt."
    ),
    "particleboard": (
        "Particleboard has no published withdrawal value and lets go under a closer's pull: use"
        " through-bolts, or have solid blocking where the holes fall."
    ),
    "mineral-core": (
        "A mineral core holds no screw: use through-bolts the door's listing allows, or have solid"
        " blocking where the holes fall."
    ),
    "hollow-core": (
        "A hollow core has nothing for a screw to hold in: have solid blocking where the holes"
        " fall, or another leaf."
    ),
}

INTO = (SOLID, *_NOT_SOLID)


def withdrawal_per_inch(screw: str, gravity: Fraction) -> Fraction:
    """Reference withdrawal load [lbf per inch of thread], 2850 G^2 D; exact.

    `screw` is a key of `WOOD_SCREWS`, `gravity` the wood's oven-dry specific gravity. National
    Design Specification for Wood Construction: side grain of solid wood only.
    """
    return 2850 * gravity**2 * WOOD_SCREWS[screw].shank


def lead_hole(screw: str, gravity: Fraction) -> Quantity:
    """Diameter to bore for the thread [in]: 70 percent of the root, 90 in wood of G above 0.6.

    National Design Specification for Wood Construction.
    """
    share = Fraction(9, 10) if gravity > HARDER_ABOVE else Fraction(7, 10)
    return Quantity(WOOD_SCREWS[screw].root * share, "in")


@lru_cache(maxsize=64)
def lead_drill(screw: str, gravity: Fraction) -> Drill:
    """The fractional drill nearest to the lead hole."""
    return nearest_drill(lead_hole(screw, gravity), FRACTIONAL)


def _gravity(inputs: Mapping[str, Given]) -> Fraction:
    value = exact(needed(inputs, "gravity", float))
    if not LIGHTEST <= value <= HEAVIEST:
        raise OutOfDomain(
            f"gravity {decimal(value, 6)} is outside what is worked here:"
            f" {decimal(LIGHTEST, 2)} to {decimal(HEAVIEST, 2)}, oven-dry; {_woods()}."
        )
    return value


def _woods() -> str:
    return ", ".join(f"{wood} {decimal(g, 2)}" for wood, g in SPECIFIC_GRAVITIES.items())


def _screw_withdrawal(inputs: Mapping[str, Given]) -> Answer:
    _refuse_unless_solid(inputs)
    screw = needed(inputs, "screw", str)
    gravity = _gravity(inputs)
    penetration = given(inputs, "penetration", Quantity)
    shank = WOOD_SCREWS[screw].shank
    per_inch = withdrawal_per_inch(screw, gravity)
    working = [
        (
            f"2850 x {decimal(gravity, 6)} x {decimal(gravity, 6)} x {decimal(shank, 3)} in:"
            f" {about(per_inch, 1)} lb for each inch of thread in the wood."
        )
    ]
    cautions = [
        "For solid wood, across the grain, dry, with the lead hole bored.",
        "It is a steady design load for one screw; wind and slamming ask for a margin.",
    ]
    if penetration is None:
        working.append("The answer is for 1 in of thread; give penetration= for the whole screw.")
        return Answer(Quantity(per_inch, "lbf"), tuple(working), tuple(cautions))
    load = Quantity(per_inch * penetration.base, "lbf")
    working.append(
        f"With {write(penetration)} of thread in the wood: {about(load.magnitude, 1)} lb."
    )
    least = Quantity(LEAST_PENETRATION_DIAMETERS * shank, "in")
    if penetration < least:
        cautions.append(
            f"A No. {screw} wants {decimal(least.magnitude, 2)} in of thread in the wood at least:"
            " take a longer screw."
        )
    return Answer(load, tuple(working), tuple(cautions))


def _lead_hole(inputs: Mapping[str, Given]) -> Answer:
    _refuse_unless_solid(inputs)
    screw = needed(inputs, "screw", str)
    gravity = _gravity(inputs)
    hole = lead_hole(screw, gravity)
    drill = lead_drill(screw, gravity)
    metric = nearest_drill(hole, METRIC)
    harder = gravity > HARDER_ABOVE
    working = (
        (
            f"Wood of specific gravity {decimal(gravity, 6)}: {90 if harder else 70} percent of the"
            f" root, {decimal(WOOD_SCREWS[screw].root, 3)} in, is {decimal(hole.magnitude, 4)} in."
        ),
        f"Nearest drill: {drill.name}, or {metric.name} from a metric set.",
    )
    value: dict[str, Result] = {"drill": drill.name, "size": drill.size}
    cautions = ("Where the maker's sheet names a pilot drill, the sheet governs.",)
    return Answer(value, working, cautions)


def _refuse_unless_solid(inputs: Mapping[str, Given]) -> None:
    into = given(inputs, "into", str) or SOLID
    if into != SOLID:
        raise NoAnswer(_NOT_SOLID[into])


def screw_typed(text: str) -> str:
    """A screw number as typed ("#10", "No. 10") as its figures."""
    return text.lower().removeprefix("#").removeprefix("no").removeprefix(".").strip()


_INPUTS = (
    Input(
        "screw",
        "choice",
        True,
        "number of the wood screw, such as 10",
        tuple(WOOD_SCREWS),
        tidy=screw_typed,
    ),
    Input("gravity", "number", True, f"oven-dry specific gravity of the wood; {_woods()}"),
)
_INTO_INPUT = Input("into", "choice", False, "what the thread is in; solid wood if left out", INTO)
_SOURCE = "National Design Specification for Wood Construction; ASME B18.6.1"

COMPUTATIONS = (
    Computation(
        name="screw-withdrawal",
        about="What a wood screw holds against being pulled out of solid wood.",
        inputs=(
            *_INPUTS,
            Input(
                "penetration",
                "length",
                False,
                "length of thread in the wood; the answer is for 1 in if left out",
                low=Quantity(Fraction(1, 4), "in"),
                high=Quantity(Fraction(4), "in"),
            ),
            _INTO_INPUT,
        ),
        output=Output("force"),
        compute=_screw_withdrawal,
        source=_SOURCE,
    ),
    Computation(
        name="lead-hole",
        about="The drill for a wood screw's thread in solid wood.",
        inputs=(*_INPUTS, _INTO_INPUT),
        output=Output("mapping", ("drill", "size")),
        compute=_lead_hole,
        source=_SOURCE,
    ),
)
