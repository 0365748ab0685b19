"""`pressure-force`: the force at the handle that opens a door against its closer and air pressure.

International Building Code 909.6.2, equation 9-1 (`pressure`): F = Fdc + K W A dP / (2 (W - d)).
"""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity
from guide.measures.in_text import AT_MOST, bound_in_units
from guide.measures.units import unit_named
from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.pressure import (
    CLOSER_FORCE_INPUT,
    LEAF_INPUTS,
    PRESSURE_HIGH,
    PRESSURE_LOW,
    SOURCE,
    WHO_GOVERNS,
    PressedLeaf,
    factor_sentence,
    read_leaf,
    shown,
    units_of,
)
from guide.trade.inputs import RULES_INPUT, USUAL_CODE

ACCESS_LIMIT = Quantity(Fraction(5), "lbf")
"""To open an interior hinged door that is not a fire door: 2010 ADA Standards, 404.2.9."""

EXIT_LIMIT = Quantity(Fraction(30), "lbf")
"""To set a door of a way out in motion: IBC 1010.1.3 (2009 to 2021) and NFPA 101 7.2.1.4.5 (2000)."""


def opening_force(closer_force: Quantity, leaf: PressedLeaf, pressure: Quantity) -> Quantity:
    """Force in all at the handle, in the unit of `closer_force`; exact.

    `pressure` [pressure] is the difference that holds the leaf shut.
    """
    units = units_of(closer_force)
    air = leaf.force_a_pressure(units) * pressure.to(units.pressure).magnitude
    return Quantity(closer_force.magnitude + air, units.force)


def _pressure_force(inputs: Mapping[str, Given]) -> Answer:
    closer_force = needed(inputs, "closer_force", Quantity)
    pressure = needed(inputs, "pressure", Quantity)
    leaf = read_leaf(inputs)
    total = opening_force(closer_force, leaf, pressure)
    air = Quantity(total.magnitude - closer_force.magnitude, total.unit)
    working = (
        factor_sentence(leaf, units_of(closer_force)),
        (
            f"{shown(closer_force)} for the closer and {shown(air)} for the air:"
            f" {shown(total)} at the handle."
        ),
    )
    cautions = []
    if total > EXIT_LIMIT:
        cautions.append(
            f"Over {_limit(EXIT_LIMIT, total)}, the usual limit to set an exit or fire door in motion: call"
            " the foreman, the pressure has to come down."
        )
    elif total > ACCESS_LIMIT and (given(inputs, "rules", str) or USUAL_CODE) == "us":
        cautions.append(
            f"Over {_limit(ACCESS_LIMIT, total)}, the limit for an interior door that is not a fire door"
            " (2010 ADA Standards, 404.2.9)."
        )
    return Answer(total, working, (*cautions, WHO_GOVERNS))


def _limit(limit: Quantity, force: Quantity) -> str:
    """A limit in its own unit, and in that of the force."""
    return bound_in_units(limit, AT_MOST, unit_named(force.unit).systems[0])


COMPUTATION = Computation(
    name="pressure-force",
    about="The force at the handle to open a door against its closer and air pressure.",
    inputs=(
        CLOSER_FORCE_INPUT,
        *LEAF_INPUTS,
        Input(
            "pressure",
            "pressure",
            True,
            "air pressure that holds the leaf shut",
            low=PRESSURE_LOW,
            high=PRESSURE_HIGH,
        ),
        RULES_INPUT,
    ),
    output=Output("force"),
    compute=_pressure_force,
    source=SOURCE,
    # With the width too: the handle is at most half of it (`read_leaf`), and from there on W W / (W - d) grows.
    grows_with=("closer_force", "width", "height", "handle", "pressure"),
    example="closer_force='5 lbf' width='36 in' height='84 in' handle='2 3/4 in' pressure='0.05 inH2O'",
)
