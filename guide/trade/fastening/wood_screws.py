"""Wood screws by number, and the woods: what `screw-withdrawal` and `lead-hole` share.

Only for solid wood with the screw across the grain (side grain).
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from guide.trade.answer import NoAnswer, OutOfDomain, decimal, exact
from guide.trade.computation import Given, Input, given, needed


class WoodScrew(NamedTuple):
    """One screw number."""

    shank: Fraction
    """Shank diameter [in]; ASME B18.6.1."""
    root: Fraction
    """Diameter at the bottom of the thread [in]; `ROOT_SHARE` of the shank."""


ROOT_SHARE = Fraction(2, 3)
"""Root over shank of most sizes: Wood Handbook (FPL-GTR-190), chapter 8. Tables of makers go up to 0.82; the smaller
root makes the smaller pilot, which bores no thread away."""

WOOD_SCREWS = {
    number: WoodScrew(Fraction(shank), Fraction(shank) * ROOT_SHARE)
    # The shanks of 6, 8, 10, 12 and 14 are confirmed; the others are from memory.
    for number, shank in (
        ("6", "0.138"),
        ("7", "0.151"),
        ("8", "0.164"),
        ("9", "0.177"),
        ("10", "0.190"),
        ("12", "0.216"),
        ("14", "0.242"),
        ("16", "0.268"),
        ("18", "0.294"),
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


def read_gravity(inputs: Mapping[str, Given]) -> Fraction:
    """The specific gravity of the inputs; OutOfDomain outside `LIGHTEST` to `HEAVIEST`."""
    value = exact(needed(inputs, "gravity", float))
    if not LIGHTEST <= value <= HEAVIEST:
        raise OutOfDomain(
            f"gravity {decimal(value, 6)} is outside what is worked here:"
            f" {decimal(LIGHTEST, 2)} to {decimal(HEAVIEST, 2)}, oven-dry; {_woods()}."
        )
    return value


def _woods() -> str:
    return ", ".join(f"{wood} {decimal(g, 2)}" for wood, g in SPECIFIC_GRAVITIES.items())


def refuse_unless_solid(inputs: Mapping[str, Given]) -> None:
    """NoAnswer if the thread is in anything but solid wood across the grain."""
    into = given(inputs, "into", str) or SOLID
    if into != SOLID:
        raise NoAnswer(_NOT_SOLID[into])


def screw_typed(text: str) -> str:
    """A screw number as typed ("#10", "No. 10") as its figures."""
    return text.lower().removeprefix("#").removeprefix("no").removeprefix(".").strip()


SCREW_INPUTS = (
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
INTO_INPUT = Input("into", "choice", False, "what the thread is in; solid wood if left out", INTO)
SOURCE = "National Design Specification for Wood Construction; ASME B18.6.1"
