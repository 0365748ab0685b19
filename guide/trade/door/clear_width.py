"""`clear-width`: the clear width beside an open leaf, for people and wheelchairs.

Plan view as in `hinges`: hinge axis at the origin, closed leaf along +x, pull side toward +y. The width runs from the
latch-side stop to the nearest part on the other side: a corner of the open leaf, or the hinge-side stop if the leaf
swings clear of the opening. A corner (u, v) of the closed leaf, opened by t, is at x = u cos t - v sin t.
"""

import math
from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.hinges import HINGE_WORDS, HINGES, STANDARD_TEMPLATE, pivot_offset
from guide.trade.inputs import WIDTH_INPUT, optional_length

LEAST_CLEAR_WIDTH = Quantity(Fraction(32), "in")
"""Face of the door to the stop, door open 90 degrees: 2010 ADA Standards, 404.2.3."""

USUAL_THICKNESS = Quantity(Fraction(7, 4), "in")
USUAL_STOP = Quantity(Fraction(5, 8), "in")
"""How far a stop stands out from its jamb; common practice."""
USUAL_GAP = Quantity(Fraction(1, 8), "in")
"""Between leaf and jamb; common practice."""

SQUARE = 90
"""The opening at which the standard measures [deg]."""

_STEPS = {"inch": Quantity(Fraction(1, 16), "in"), "metric": Quantity(Fraction(1), "mm")}
_HAIR = 1e-9
"""Tolerance: a width exactly on a mark must not fall to the mark below by the sine's last digit [steps]."""


def clear_width(
    width: Quantity,
    hinge: str,
    opening: float,
    thickness: Quantity = USUAL_THICKNESS,
    stop: Quantity = USUAL_STOP,
    gap: Quantity = USUAL_GAP,
) -> float:
    """Clear width [in] of a leaf `width` wide on `hinge` (one of `HINGES`), open `opening` [deg].

    `stop` is how far the stop stands out from the jamb, `gap` the space between leaf and jamb.
    Never below zero. The hinge offsets are those of `hinges`, assumptions of ours.
    """
    offset = pivot_offset(hinge, thickness.base)
    overlap = stop.base - gap.base
    latch_stop = offset.edge + width.base - overlap
    hinge_stop = offset.edge + overlap
    if opening == SQUARE:
        sine, cosine = 1.0, 0.0
    else:
        sine, cosine = math.sin(math.radians(opening)), math.cos(math.radians(opening))
    along = (float(offset.edge), float(offset.edge + width.base))
    across = (float(offset.face), float(offset.face - thickness.base))
    leaf = max(u * cosine - v * sine for u in along for v in across)
    return max(0.0, float(latch_stop) - max(leaf, float(hinge_stop)))


def _clear_width(inputs: Mapping[str, Given]) -> Answer:
    width = needed(inputs, "width", Quantity)
    hinge = needed(inputs, "hinge", str)
    opening = needed(inputs, "opening", Quantity)
    thickness = given(inputs, "thickness", Quantity) or USUAL_THICKNESS
    stop = given(inputs, "stop", Quantity) or USUAL_STOP
    gap = given(inputs, "gap", Quantity) or USUAL_GAP
    step = _STEPS["inch" if width.unit in ("in", "ft") else "metric"]

    def clear_at(angle: Fraction) -> Quantity:
        inches = clear_width(width, hinge, float(angle), thickness, stop, gap)
        steps = math.floor(inches / float(step.base) + _HAIR)
        return Quantity(steps * step.magnitude, step.unit)

    found = clear_at(opening.base)
    judged_at = min(opening.base, Fraction(SQUARE))
    judged = clear_at(judged_at)
    working = [
        (
            f"Leaf {write(width)} wide, {write(thickness)} thick, on {HINGE_WORDS[hinge]}; stop"
            f" {write(stop)}, gap {write(gap)}: {write(found)} clear at {write(opening)}."
        )
    ]
    if opening.base > SQUARE:
        working.append(f"The standard measures at 90 degrees: {write(judged)} clear.")
    enough = judged >= LEAST_CLEAR_WIDTH
    working.append(
        f"{write(LEAST_CLEAR_WIDTH)} is required by the 2010 ADA Standards, 404.2.3:"
        f" {'met' if enough else 'not met'}."
    )
    return Answer(found, tuple(working), tuple(_cautions(hinge, judged_at, enough)))


def _cautions(hinge: str, judged_at: Fraction, enough: bool) -> list[str]:
    cautions = ["Tape the opening itself, face of the door to the stop: hardware narrows it."]
    if judged_at < SQUARE:
        cautions.append(
            "The leaf stops short of 90 degrees, where the standard measures: ask the foreman."
        )
    if not enough and hinge in STANDARD_TEMPLATE:
        cautions.append(
            "Swing-clear hinges take the leaf out of the way; they need a special template."
        )
    if hinge not in STANDARD_TEMPLATE:
        cautions.append("Where this hinge turns is assumed; its maker's sheet governs.")
    return cautions


COMPUTATION = Computation(
    name="clear-width",
    about="The clear width between the open leaf and the stop, against 32 in.",
    inputs=(
        WIDTH_INPUT,
        Input("hinge", "choice", True, "what the leaf hangs on", HINGES),
        Input(
            "opening",
            "angle",
            True,
            "how far the door opens, from closed",
            low=Quantity(Fraction(10), "deg"),
            high=Quantity(Fraction(180), "deg"),
        ),
        optional_length(
            "thickness", "thickness of the leaf; 1 3/4 in if left out", Fraction(1), Fraction(3)
        ),
        optional_length(
            "stop",
            "how far the stop stands out from the jamb; 5/8 in if left out",
            Fraction(1, 4),
            Fraction(2),
        ),
        optional_length(
            "gap",
            "space between leaf and jamb; 1/8 in if left out",
            Fraction(1, 32),
            Fraction(1, 4),
        ),
    ),
    output=Output("length"),
    compute=_clear_width,
    source="2010 ADA Standards, 404.2.3; geometry with hinge offsets of our own",
)
