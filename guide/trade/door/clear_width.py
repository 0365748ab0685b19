"""`clear-width`: the clear width beside an open leaf, for people and wheelchairs.

Plan view as in `hinges`: hinge axis at the origin, closed leaf along +x, pull side toward +y. The width runs from the
latch-side stop to the nearest part on the other side: a corner of the open leaf, or the hinge-side stop if the leaf
swings clear of the opening. A corner (u, v) of the closed leaf, opened by t, is at x = u cos t - v sin t.
"""

import math
from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, in_units, write
from guide.measures.in_text import AT_LEAST, bound_in_units
from guide.measures.units import unit_named
from guide.trade.answer import Answer
from guide.trade.computation import (
    Computation,
    Extent,
    Given,
    Input,
    Output,
    Ranged,
    RangedInput,
    given,
    needed,
)
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
    system = unit_named(width.unit).systems[0]
    step = _STEPS[system]

    def clear_at(angle: Fraction) -> Quantity:
        inches = clear_width(width, hinge, float(angle), thickness, stop, gap)
        steps = math.floor(inches / float(step.base) + _HAIR)
        return Quantity(steps * step.magnitude, step.unit)

    found = clear_at(opening.base)
    judged_at = min(opening.base, Fraction(SQUARE))
    judged = clear_at(judged_at)
    working = [
        (
            f"Leaf {write(width)} wide, {in_units(thickness, system)} thick, on {HINGE_WORDS[hinge]}; stop"
            f" {in_units(stop, system)}, gap {in_units(gap, system)}: {write(found)} clear at {write(opening)}."
        )
    ]
    if opening.base > SQUARE:
        working.append(f"The standard measures at 90 degrees: {write(judged)} clear.")
    enough = judged >= LEAST_CLEAR_WIDTH
    working.append(
        f"{bound_in_units(LEAST_CLEAR_WIDTH, AT_LEAST, system)} is required by the 2010 ADA Standards, 404.2.3:"
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


# --- between which widths it lies ---

_MANY = 1e-6
"""What sines may be out by [in]; far below a step."""


def _extent(inputs: Ranged, _: str) -> Extent:
    """Between which widths the answer lies.

    The clear width is the least of its distances to the four corners of the leaf and to the hinge-side stop. For an
    opening each of them grows with width and gap, falls with the stop and is linear in the thickness; over a range
    of openings a corner's place is a sine.
    """
    hinge = inputs.get("hinge")
    width, opening = (_ends(inputs.get(name)) for name in ("width", "opening"))
    thickness = _ends(inputs.get("thickness", USUAL_THICKNESS))
    stop = _ends(inputs.get("stop", USUAL_STOP))
    gap = _ends(inputs.get("gap", USUAL_GAP))
    if not isinstance(hinge, str) or not (width and opening and thickness and stop and gap):
        return Extent(None, None)
    low = _distances(hinge, width[0], opening, thickness, stop[1] - gap[0])
    high = _distances(hinge, width[1], opening, thickness, stop[0] - gap[1])
    least = max(0.0, min(one for one, _ in low) - _MANY)
    most = max(0.0, min(one for _, one in high) + _MANY)
    return Extent(
        min(_down_to(step, least) for step in _STEPS.values()),
        max(_down_to(step, most) for step in _STEPS.values()),
    )


def _ends(given: "RangedInput | None") -> tuple[float, float] | None:
    """The ends of an input [in or deg]; None where one is open."""
    if isinstance(given, Quantity):
        return float(given.base), float(given.base)
    if not isinstance(given, Extent):
        return None
    if isinstance(given.low, Quantity) and isinstance(given.high, Quantity):
        return float(given.low.base), float(given.high.base)
    return None


def _distances(
    hinge: str,
    width: float,
    opening: tuple[float, float],
    thickness: tuple[float, float],
    overlap: float,
) -> list[tuple[float, float]]:
    """The least and greatest distance [in] to each corner, and to the hinge-side stop."""
    found = [(width - 2 * overlap,) * 2]
    for far in (0.0, width):
        for back in (False, True):
            places = [
                place
                for thick in thickness
                for place in _places(hinge, width, far, back, opening, thick, overlap)
            ]
            found.append((min(places), max(places)))
    return found


def _places(
    hinge: str,
    width: float,
    far: float,
    back: bool,
    opening: tuple[float, float],
    thick: float,
    overlap: float,
) -> list[float]:
    """The distance [in] to one corner at both openings, and where it turns round between them."""
    offset = pivot_offset(hinge, Fraction(thick))
    edge = float(offset.edge)
    u = edge + far
    v = float(offset.face) - (thick if back else 0.0)
    angles = [math.radians(one) for one in opening]
    turned = math.atan2(v, u)
    angles += [
        turn
        for turn in (-turned, math.pi - turned, 2 * math.pi - turned)
        if angles[0] < turn < angles[1]
    ]
    latch_stop = edge + width - overlap
    return [latch_stop - (u * math.cos(one) - v * math.sin(one)) for one in angles]


def _down_to(step: Quantity, inches: float) -> Quantity:
    steps = math.floor(inches / float(step.base) + _HAIR)
    return Quantity(steps * step.magnitude, step.unit)


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
    extent=_extent,
    always_answers=True,
    example="width='36 in' hinge=butt opening='90 deg'",
)
