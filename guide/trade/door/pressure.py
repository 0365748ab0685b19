"""Air pressure on a leaf: the force it takes to open it, and the pressure a force allows.

International Building Code 909.6.2, equation 9-1, both ways round:

    F = Fdc + K W A dP / (2 (W - d))

F in all at the handle, Fdc for the closer alone, W width and A area of the leaf, dP pressure
difference across it, d from the handle to the latch edge. K = 5.2 for lbf, ft and inches of water
(rounded: 5.202), 1 for N, m and Pa. The unit of the forces decides; everything is exact.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from guide.measures import Quantity, write
from guide.trade.answer import Answer, NoAnswer, OutOfDomain, about
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.inputs import HEIGHT_INPUT, WIDTH_INPUT

ACCESS_LIMIT = Quantity(Fraction(5), "lbf")
"""To open an interior hinged door that is no fire door: 2010 ADA Standards, 404.2.9."""

EXIT_LIMIT = Quantity(Fraction(30), "lbf")
"""To set an exit or fire door in motion: IBC 1010 and NFPA 101, 7.2.1.4.5 (from memory; the edition
matters)."""


class _Units(NamedTuple):
    """The units equation 9-1 is worked in, with the K that belongs to them."""

    force: str
    length: str
    pressure: str
    k: Fraction


_INCH = _Units("lbf", "ft", "inH2O", Fraction("5.2"))
_METRIC = _Units("N", "m", "Pa", Fraction(1))


def _units_of(force: Quantity) -> _Units:
    return _INCH if force.unit == "lbf" else _METRIC


class Leaf(NamedTuple):
    """The leaf as equation 9-1 sees it."""

    width: Quantity
    """[length]"""
    height: Quantity
    """[length]"""
    handle: Quantity
    """From the handle to the latch edge [length]; less than the width."""

    def force_a_pressure(self, units: _Units) -> Fraction:
        """K W A / (2 (W - d)): force at the handle for one unit of pressure."""
        width, height, handle = (
            one.to(units.length).magnitude for one in (self.width, self.height, self.handle)
        )
        return units.k * width * width * height / (2 * (width - handle))


def opening_force(closer_force: Quantity, leaf: Leaf, pressure: Quantity) -> Quantity:
    """Force in all at the handle, in the unit of `closer_force`; exact.

    `pressure` [pressure] is the difference that holds the leaf shut.
    """
    units = _units_of(closer_force)
    air = leaf.force_a_pressure(units) * pressure.to(units.pressure).magnitude
    return Quantity(closer_force.magnitude + air, units.force)


def pressure_allowed(total_force: Quantity, closer_force: Quantity, leaf: Leaf) -> Quantity:
    """The pressure difference at which `total_force` opens the leaf; exact.

    In inches of water where `total_force` is in lbf, else in Pa. Below zero where the closer alone
    takes more than the total.
    """
    units = _units_of(total_force)
    left = total_force.magnitude - closer_force.to(units.force).magnitude
    return Quantity(left / leaf.force_a_pressure(units), units.pressure)


def _leaf(inputs: Mapping[str, Given]) -> Leaf:
    leaf = Leaf(*(needed(inputs, name, Quantity) for name in ("width", "height", "handle")))
    middle = Quantity(leaf.width.magnitude / 2, leaf.width.unit)
    if leaf.handle > middle:
        raise OutOfDomain(
            f"handle {write(leaf.handle)} is outside what is worked here: 0 to {write(middle)} from"
            " the latch edge, the middle of the leaf; measure to the latch edge, not the hinge"
            " edge."
        )
    return leaf


def _pressure_force(inputs: Mapping[str, Given]) -> Answer:
    closer_force = needed(inputs, "closer_force", Quantity)
    pressure = needed(inputs, "pressure", Quantity)
    leaf = _leaf(inputs)
    total = opening_force(closer_force, leaf, pressure)
    air = Quantity(total.magnitude - closer_force.magnitude, total.unit)
    working = (
        _factor_line(leaf, _units_of(closer_force)),
        (
            f"{_shown(closer_force)} for the closer and {_shown(air)} for the air:"
            f" {_shown(total)} at the handle."
        ),
    )
    cautions = []
    if total > EXIT_LIMIT:
        cautions.append(
            f"Over {write(EXIT_LIMIT)}, the usual limit to set an exit or fire door in motion: call"
            " the foreman, the pressure has to come down."
        )
    elif total > ACCESS_LIMIT:
        cautions.append(
            f"Over {write(ACCESS_LIMIT)}, the limit for an interior door that is no fire door"
            " (2010 ADA Standards, 404.2.9)."
        )
    return Answer(total, working, (*cautions, _WHO_GOVERNS))


def _pressure_limit(inputs: Mapping[str, Given]) -> Answer:
    total_force = needed(inputs, "total_force", Quantity)
    closer_force = needed(inputs, "closer_force", Quantity)
    leaf = _leaf(inputs)
    if total_force < closer_force:
        raise NoAnswer(
            f"The closer alone takes {write(closer_force)} of the {write(total_force)} in all: no"
            " pressure is allowed; set the closer weaker or choose another way to close the door."
        )
    allowed = pressure_allowed(total_force, closer_force, leaf)
    working = (
        _factor_line(leaf, _units_of(total_force)),
        (
            f"{write(total_force)} in all less {write(closer_force)} for the closer:"
            f" {_shown(allowed)} across the leaf."
        ),
    )
    return Answer(allowed, working, (_WHO_GOVERNS,))


_WHO_GOVERNS = "The local code and the smoke-control design govern; judge with the fans running."


def _factor_line(leaf: Leaf, units: _Units) -> str:
    factor = about(leaf.force_a_pressure(units), 3)
    return (
        f"Leaf {write(leaf.width)} by {write(leaf.height)}, handle {write(leaf.handle)} from the"
        f" latch edge: {factor} {units.force} at the handle for each {units.pressure}."
    )


def _shown(quantity: Quantity) -> str:
    return f"{about(quantity.magnitude, 3)} {quantity.unit}"


def _force_input(name: str, about_it: str) -> Input:
    return Input(
        name,
        "force",
        True,
        about_it,
        low=Quantity(Fraction(0), "lbf"),
        high=Quantity(Fraction(200), "lbf"),
    )


PRESSURE_LOW, PRESSURE_HIGH = Quantity(Fraction(0), "Pa"), Quantity(Fraction(4), "inH2O")

_CLOSER_FORCE = _force_input("closer_force", "force at the handle to overcome the closer alone")
_LEAF_INPUTS = (
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
_SOURCE = "International Building Code 909.6.2, equation 9-1"

COMPUTATIONS = (
    Computation(
        name="pressure-force",
        about="The force at the handle to open a door against its closer and air pressure.",
        inputs=(
            _CLOSER_FORCE,
            *_LEAF_INPUTS,
            Input(
                "pressure",
                "pressure",
                True,
                "pressure difference holding the leaf shut",
                low=PRESSURE_LOW,
                high=PRESSURE_HIGH,
            ),
        ),
        output=Output("force"),
        compute=_pressure_force,
        source=_SOURCE,
    ),
    Computation(
        name="pressure-limit",
        about="The pressure difference across a door that a force at the handle allows.",
        inputs=(
            _force_input("total_force", "the most force in all at the handle"),
            _CLOSER_FORCE,
            *_LEAF_INPUTS,
        ),
        output=Output("pressure"),
        compute=_pressure_limit,
        source=_SOURCE,
    ),
)
