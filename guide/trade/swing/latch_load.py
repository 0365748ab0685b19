"""`latch-load`: what the closer must overcome in the last inch to latch: air, seal, latch bolt and hinges.

Statics, moment = force x arm about the hinge, with the leaf almost closed:

    M = -dP W² H / 2 + M(seal) + F(bolt) W + M(hinges)

A pressure difference dP below zero pushes the leaf open, one above zero helps to shut it. It acts at the middle of the
width W, over the height H; the latch bolt at the latch edge, with an arm of the whole width. Common practice.
"""

import math
from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import Answer, decimal
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.pressure import PRESSURE_HIGH, PRESSURE_LOW, PRESSURE_SIGN
from guide.trade.inputs import HEIGHT_INPUT, WIDTH_INPUT

_NO_FORCE, _NO_MOMENT = Quantity(Fraction(0), "N"), Quantity(Fraction(0), "N m")


def air_moment(width: Quantity, height: Quantity, pressure: Quantity) -> Quantity:
    """Moment about the hinge [N m] with which a pressure difference over the whole leaf pushes it open; exact, and
    below zero where it holds the leaf shut."""
    wide, high = (one.to("m").magnitude for one in (width, height))
    return Quantity(-pressure.base * wide**2 * high / 2, "N m")


def latch_bolt_moment(width: Quantity, force: Quantity) -> Quantity:
    """Moment about the hinge [N m] of a force at the latch edge; exact."""
    return Quantity(force.base * width.to("m").magnitude, "N m")


def _latch_load(inputs: Mapping[str, Given]) -> Answer:
    width = needed(inputs, "width", Quantity)
    height = needed(inputs, "height", Quantity)
    pressure = given(inputs, "pressure", Quantity) or PRESSURE_LOW
    bolt = given(inputs, "latch_force", Quantity) or _NO_FORCE
    parts = {
        "air": air_moment(width, height, pressure),
        "seal": given(inputs, "seal", Quantity) or _NO_MOMENT,
        "latch bolt": latch_bolt_moment(width, bolt),
        "hinges": given(inputs, "hinge_drag", Quantity) or _NO_MOMENT,
    }
    unit = "lbf ft" if width.unit in ("in", "ft") else "N m"
    resists = sum((part.base for part in parts.values()), Fraction(0))
    total = Quantity(max(Fraction(0), resists), "N m")
    # Up to the next tenth: a load must never be told smaller than it is.
    load = Quantity(Fraction(math.ceil(total.to(unit).magnitude * 10), 10), unit)
    named = ", ".join(f"{name} {_one_place(part, unit)}" for name, part in parts.items())
    working = [f"{named}: {write(load)} to overcome at the latch."]
    cautions = ["Seal, latch bolt and hinge drag differ from door to door: the swing decides."]
    closing = given(inputs, "closing", Quantity)
    if closing is not None:
        gives = _one_place(closing, unit)
        spare = Quantity(closing.to(unit).magnitude - load.magnitude, unit)
        if spare.magnitude > 0:
            working.append(f"The closer gives {gives}: {_one_place(spare, unit)} spare.")
        else:
            working.append(f"The closer gives {gives}: not enough.")
            cautions.insert(
                0,
                "The door will not latch by the closer alone: lessen the air, the seal or the"
                " latch, or set the closer stronger.",
            )
    return Answer(load, tuple(working), tuple(cautions))


def _one_place(moment: Quantity, unit: str) -> str:
    return f"{decimal(moment.to(unit).magnitude, 1)} {unit}"


def _moment(name: str, about: str) -> Input:
    return Input(name, "moment", False, about, low=_NO_MOMENT, high=Quantity(Fraction(300), "N m"))


COMPUTATION = Computation(
    name="latch-load",
    about="The moment about the hinge a closer must overcome to latch the door.",
    inputs=(
        WIDTH_INPUT,
        HEIGHT_INPUT,
        Input(
            "pressure",
            "pressure",
            False,
            f"{PRESSURE_SIGN}; none if left out",
            low=Quantity(-PRESSURE_HIGH.magnitude, PRESSURE_HIGH.unit),
            high=PRESSURE_HIGH,
            signed=True,
        ),
        _moment("seal", "moment about the hinge to press the seals; none if left out"),
        Input(
            "latch_force",
            "force",
            False,
            "push at the latch edge to drive the bolt in; none if left out",
            low=_NO_FORCE,
            high=Quantity(Fraction(300), "N"),
        ),
        _moment("hinge_drag", "moment to turn the leaf on its hinges; none if left out"),
        _moment("closing", "moment the closer gives near closed, to compare the load with"),
    ),
    output=Output("moment"),
    compute=_latch_load,
    source="statics; common practice",
    example="width='36 in' height='84 in' pressure='-0.05 inH2O'",
)
