"""Air pressure on a leaf: what `pressure-force` and `pressure-limit` share.

International Building Code 909.6.2, equation 9-1:

    F = Fdc + K W A dP / (2 (W - d))

F in all at the handle, Fdc for the closer alone, W width and A area of the leaf, dP pressure
difference across it, d from the handle to the latch edge. K = 5.2 for lbf, ft and inches of water
(rounded: 5.202), 1 for N, m and Pa. The unit of the forces decides; everything is exact.

One sign everywhere, that of the equation: a pressure above zero holds the leaf shut, one below zero pushes it open.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from guide.measures import Quantity, write
from guide.trade.answer import OutOfDomain
from guide.trade.computation import Given, Input, needed
from guide.trade.inputs import HEIGHT_INPUT, WIDTH_INPUT
from guide.trade.shown import rounded


class UnitSystem(NamedTuple):
    """The units for equation 9-1, with the K that belongs to them."""

    force: str
    length: str
    pressure: str
    k: Fraction


_INCH = UnitSystem("lbf", "ft", "inH2O", Fraction("5.2"))
_METRIC = UnitSystem("N", "m", "Pa", Fraction(1))


def units_of(force: Quantity) -> UnitSystem:
    """Inch units for a force in lbf, else SI units."""
    return _INCH if force.unit == "lbf" else _METRIC


class PressedLeaf(NamedTuple):
    """The leaf as equation 9-1 sees it."""

    width: Quantity
    """[length]"""
    height: Quantity
    """[length]"""
    handle: Quantity
    """From the handle to the latch edge [length]; less than the width."""

    def force_a_pressure(self, units: UnitSystem) -> Fraction:
        """K W A / (2 (W - d)): force at the handle for one unit of pressure."""
        width, height, handle = (
            one.to(units.length).magnitude for one in (self.width, self.height, self.handle)
        )
        return units.k * width * width * height / (2 * (width - handle))


def read_leaf(inputs: Mapping[str, Given]) -> PressedLeaf:
    """The leaf of the inputs; OutOfDomain if the handle is beyond the middle of the leaf."""
    leaf = PressedLeaf(*(needed(inputs, name, Quantity) for name in ("width", "height", "handle")))
    middle = Quantity(leaf.width.magnitude / 2, leaf.width.unit)
    if leaf.handle > middle:
        raise OutOfDomain(
            f"handle {write(leaf.handle)} is outside what is worked here: 0 to {write(middle)} from"
            " the latch edge, the middle of the leaf; measure to the latch edge, not the hinge"
            " edge."
        )
    return leaf


WHO_GOVERNS = "The local code and the smoke-control design govern; judge with the fans running."


def factor_sentence(leaf: PressedLeaf, units: UnitSystem) -> str:
    """The leaf, and the force at the handle for one unit of pressure."""
    tenth = Quantity(leaf.force_a_pressure(units) * _EACH[units.pressure].magnitude, units.force)
    return (
        f"Leaf {write(leaf.width)} by {write(leaf.height)}, handle {write(leaf.handle)} from the"
        f" latch edge: {shown(tenth)} at the handle for each {_EACH[units.pressure]}."
    )


_EACH = {
    "inH2O": Quantity(Fraction(1, 10), "inH2O"),
    "Pa": Quantity(Fraction(10), "Pa"),
}
"""The pressure for which the force is given: about what a door sees."""


def shown(quantity: Quantity) -> str:
    """Rounded to what can be measured, "about" before it if that changed it."""
    said = rounded(quantity)
    return said if said == write(quantity) else f"about {said}"


def force_input(name: str, about_it: str) -> Input:
    """A required force, 0 to 200 lbf."""
    return Input(
        name,
        "force",
        True,
        about_it,
        low=Quantity(Fraction(0), "lbf"),
        high=Quantity(Fraction(200), "lbf"),
    )


PRESSURE_LOW, PRESSURE_HIGH = Quantity(Fraction(0), "Pa"), Quantity(Fraction(4), "inH2O")
PRESSURE_SIGN = "air pressure that holds the leaf shut; below zero, pushes it open"
"""The sign of a pressure, in the words of an input."""

CLOSER_FORCE_INPUT = force_input("closer_force", "force at the handle to overcome the closer alone")
LEAF_INPUTS = (
    WIDTH_INPUT,
    HEIGHT_INPUT,
    Input(
        "handle",
        "length",
        True,
        "from the handle to the latch edge",
        low=Quantity(Fraction(0), "in"),
        high=Quantity(Fraction(5), "ft"),
    ),
)
SOURCE = "International Building Code 909.6.2, equation 9-1"
