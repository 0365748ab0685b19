"""`door-mass`: the mass of a leaf from its size and how it is built, to choose a closer before it is weighed.

    m = W H (faces + core t)

W, H and t are width, height and thickness [m], `faces` the mass of both faces [kg/m²] and `core` the density of what is
between, over the whole thickness [kg/m³]. The densities are round figures of common practice, not published ones: real
leaves differ by a tenth and more.
"""

import math
from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from guide.measures import Quantity, write
from guide.trade.answer import Answer, decimal
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.sheet_steel import GAUGES
from guide.trade.inputs import HEIGHT_INPUT, THICKNESS_INPUT, WIDTH_INPUT


class Construction(NamedTuple):
    """How a leaf is built."""

    words: str
    faces: Fraction
    """Both faces together [kg/m2]."""
    core: Fraction
    """Everything between, spread over the whole thickness [kg/m3]."""


STEEL_DENSITY = 7850
"""[kg/m3]"""

EDGES_AND_REINFORCEMENT = Fraction(23, 20)
"""What channels, edges and hinge and lock reinforcement add to the steel of two faces; common
practice."""

_STEEL_CORES = {
    "honeycomb": ("paper honeycomb", 15),
    "foam": ("foam", 25),
    "mineral": ("a mineral core", 170),
    "stiffened": ("steel stiffeners", 330),
}
"""Core to its words and density [kg/m3]; common practice."""


def _steel(gauge: int, core: str) -> Construction:
    words, density = _STEEL_CORES[core]
    metres = GAUGES[gauge].to("m").magnitude
    faces = 2 * metres * STEEL_DENSITY * EDGES_AND_REINFORCEMENT
    return Construction(f"{gauge} gauge steel over {words}", faces, Fraction(density))


CONSTRUCTIONS = {
    "softwood": Construction("solid softwood", Fraction(0), Fraction(500)),
    "hardwood": Construction("solid hardwood", Fraction(0), Fraction(700)),
    "particleboard": Construction("a particleboard core", Fraction(0), Fraction(550)),
    "mineral-core": Construction("a mineral core in wood", Fraction(0), Fraction(570)),
    "hollow-core": Construction("a hollow core in wood", Fraction(6), Fraction(60)),
    "aluminium-glass": Construction("aluminium with one pane", Fraction(20), Fraction(0)),
    "aluminium-double-glass": Construction("aluminium with two panes", Fraction(35), Fraction(0)),
    **{f"steel-{gauge}-{core}": _steel(gauge, core) for gauge in GAUGES for core in _STEEL_CORES},
}
"""By the name that is typed. Densities: common practice. Steel by gauge: 2 sheets of its thickness,
`EDGES_AND_REINFORCEMENT` and a core."""


def leaf_mass(width: Quantity, height: Quantity, thickness: Quantity, built: str) -> Quantity:
    """Mass of the bare leaf [kg]; `built` is a key of `CONSTRUCTIONS`. An estimate, never rounded."""
    wide, high, thick = (one.to("m").magnitude for one in (width, height, thickness))
    construction = CONSTRUCTIONS[built]
    return Quantity(wide * high * (construction.faces + construction.core * thick), "kg")


_AREA = {"lb": "each square foot", "kg": "each square metre"}
_SQUARE_METRES_PER_FOOT = Fraction("0.3048") ** 2


def _by_area(kilograms: Fraction, unit: str) -> str:
    """A mass for each square metre [kg], as it is written: for a square foot in pounds."""
    if unit == "kg":
        return f"{decimal(kilograms, 1)} kg"
    a_foot = Quantity(kilograms * _SQUARE_METRES_PER_FOOT, "kg").to("lb")
    return f"{decimal(a_foot.magnitude, 1)} lb"


def _door_mass(inputs: Mapping[str, Given]) -> Answer:
    width, height, thickness = (
        needed(inputs, name, Quantity) for name in ("width", "height", "thickness")
    )
    built = needed(inputs, "construction", str)
    hardware = given(inputs, "hardware", Quantity) or Quantity(Fraction(0), "kg")
    construction = CONSTRUCTIONS[built]
    bare = leaf_mass(width, height, thickness, built)
    unit = "lb" if width.unit in ("in", "ft") else "kg"
    # Up to the next whole one: a lighter guess would choose a weaker closer.
    whole = math.ceil(Quantity(bare.base + hardware.base, "kg").to(unit).magnitude)
    mass = Quantity(Fraction(whole), unit)
    by_thickness = construction.core * thickness.to("m").magnitude
    faces, core = (_by_area(one, unit) for one in (construction.faces, by_thickness))
    working = [
        (
            f"{write(width)} by {write(height)} of {construction.words}, {write(thickness)} thick:"
            f" faces {faces} and core {core} for {_AREA[unit]}, {decimal(bare.to(unit).magnitude, 1)} {unit}."
        )
    ]
    if hardware.magnitude:
        working.append(f"With {write(hardware)} of hardware: {write(mass)}.")
    working.append(f"Rounded up: {write(mass)}.")
    cautions = (
        "An estimate, a tenth or more out: the door schedule or a scale decides.",
        "Glass lights, lead, exit devices and cladding come on top.",
    )
    return Answer(mass, tuple(working), cautions)


COMPUTATION = Computation(
    name="door-mass",
    about="An estimate of the mass of a leaf from its size and how it is built.",
    inputs=(
        WIDTH_INPUT,
        HEIGHT_INPUT,
        THICKNESS_INPUT,
        Input("construction", "choice", True, "how the leaf is built", tuple(CONSTRUCTIONS)),
        Input(
            "hardware",
            "mass",
            False,
            "hardware on the leaf; none if left out",
            low=Quantity(Fraction(0), "kg"),
            high=Quantity(Fraction(200), "kg"),
        ),
    ),
    output=Output("mass"),
    compute=_door_mass,
    source="densities of common practice",
    grows_with=("width", "height", "thickness", "hardware"),
    always_answers=True,
    example="width='36 in' height='84 in' thickness='1 3/4 in' construction=particleboard",
)
