"""`chord`: an opening angle as a distance for a tape measure.

The chord is the straight line from the latch edge of the open leaf to where that edge is when closed, for a leaf of
width W that turns about its hinge edge:

    c = 2 W sin(angle / 2)
"""

import math
from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.inputs import WIDTH_INPUT

_MARKS = {"inch": Quantity(Fraction(1, 16), "in"), "metric": Quantity(Fraction(1), "mm")}
"""What is read on a tape, by the units of the leaf's width."""

# A chord that is exactly on a mark must not fall to the mark below by the sine's last digit.
_HAIR = 1e-9


def chord(width: Quantity, angle: Quantity) -> Quantity:
    """The chord at the latch edge, down to the 1/16 in mark at or below it, or the millimetre for a leaf
    whose width is metric.

    `width` is the leaf's [length], `angle` its opening from closed [angle], up to 180 deg.
    Rounding down never shows the door wider open than it is.
    """
    mark = _MARKS["inch" if width.unit in ("in", "ft") else "metric"]
    wide = width.to(mark.unit).magnitude / mark.magnitude
    marks = 2 * float(wide) * math.sin(math.radians(float(angle.base)) / 2)
    return Quantity(math.floor(marks + _HAIR) * mark.magnitude, mark.unit)


def _chord(inputs: Mapping[str, Given]) -> Answer:
    width = needed(inputs, "width", Quantity)
    angle = needed(inputs, "angle", Quantity)
    found = chord(width, angle)
    working = (
        f"2 x {write(width)} x the sine of half of {write(angle)}: {write(found)} from the latch"
        " edge to where it stands when closed."
    )
    return Answer(found, (working,))


COMPUTATION = Computation(
    name="chord",
    about="An opening angle as a distance at the latch edge, for a tape measure.",
    inputs=(
        WIDTH_INPUT,
        Input(
            "angle",
            "angle",
            True,
            "how far the door is open, from closed",
            low=Quantity(Fraction(1), "deg"),
            high=Quantity(Fraction(180), "deg"),
        ),
    ),
    output=Output("length"),
    compute=_chord,
    source="geometry; common practice",
    grows_with=("width", "angle"),
    always_answers=True,
    example="width='36 in' angle='12 deg'",
)
