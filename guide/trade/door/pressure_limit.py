"""`pressure-limit`: the pressure difference across a door that a force at the handle allows.

International Building Code 909.6.2, equation 9-1 (`pressure`), solved for dP: dP = 2 (W - d) (F - Fdc) / (K W A).
"""

from collections.abc import Mapping

from guide.measures import Quantity, write
from guide.trade.answer import Answer, NoAnswer
from guide.trade.computation import Computation, Given, Output, needed
from guide.trade.door.pressure import (
    CLOSER_FORCE_INPUT,
    LEAF_INPUTS,
    SOURCE,
    WHO_GOVERNS,
    PressedLeaf,
    factor_sentence,
    force_input,
    read_leaf,
    shown,
    units_of,
)


def pressure_allowed(total_force: Quantity, closer_force: Quantity, leaf: PressedLeaf) -> Quantity:
    """The pressure difference at which `total_force` opens the leaf; exact.

    In inches of water where `total_force` is in lbf, else in Pa. Below zero where the closer alone
    takes more than the total.
    """
    units = units_of(total_force)
    left = total_force.magnitude - closer_force.to(units.force).magnitude
    return Quantity(left / leaf.force_a_pressure(units), units.pressure)


def _pressure_limit(inputs: Mapping[str, Given]) -> Answer:
    total_force = needed(inputs, "total_force", Quantity)
    closer_force = needed(inputs, "closer_force", Quantity)
    leaf = read_leaf(inputs)
    if total_force < closer_force:
        raise NoAnswer(
            f"The closer alone takes {write(closer_force)} of the {write(total_force)} in all: no"
            " pressure is allowed; set the closer weaker or choose another way to close the door."
        )
    allowed = pressure_allowed(total_force, closer_force, leaf)
    working = (
        factor_sentence(leaf, units_of(total_force)),
        (
            f"{write(total_force)} in all less {write(closer_force)} for the closer:"
            f" {shown(allowed)} across the leaf."
        ),
    )
    return Answer(allowed, working, (WHO_GOVERNS,))


COMPUTATION = Computation(
    name="pressure-limit",
    about="The pressure difference across a door that a force at the handle allows.",
    inputs=(
        force_input("total_force", "the most force in all at the handle"),
        CLOSER_FORCE_INPUT,
        *LEAF_INPUTS,
    ),
    output=Output("pressure"),
    compute=_pressure_limit,
    source=SOURCE,
    example="total_force='15 lbf' closer_force='5 lbf' width='36 in' height='84 in' handle='2 3/4 in'",
)
