"""`reveal-limit`: how far a leaf opens before it, or the body on it, meets the corner of a deep reveal.

Plan view as in `hinges`: hinge axis at the origin, closed leaf along +x, pull side toward +y. The wall beside the
hinges stands out past the axis: its corner C is at (-s, r), s from the axis to the wall's side, r from the axis out to
its face. Opened by t, the leaf has its pull face at the distance f from the axis (`hinges`), and so meets C where

    R cos(t - p) = f,   R = sqrt(s^2 + r^2),   p = atan(s / r),   so   t = p + acos(f / R).

For a thin leaf on its axis (f = 0) that is a right angle and p: at s = r, 135 degrees. A body on the pull face reaches
out from it by f + b, and meets C sooner, if C is as far out along the leaf as the body begins.
"""

import math
from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, in_units, write
from guide.trade.answer import Answer, OutOfDomain
from guide.trade.computation import (
    Computation,
    Extent,
    Given,
    Input,
    Output,
    Ranged,
    given,
    given_sheet,
    needed,
)
from guide.trade.door.hinges import HINGE_WORDS, HINGES, pivot_offset
from guide.trade.inputs import optional_length
from guide.trade.mounts import MOUNTS
from guide.trade.shown import system_of

BODY = Quantity(Fraction(5, 2), "in")
"""How far a body stands out from the leaf; common practice, rounded up."""
BODY_BEGINS = Quantity(Fraction(2), "in")
"""From the hinge edge to a body that is mounted near it; common practice, the least."""
CLEAR = 2
"""Kept free before the corner, about a finger at the body [deg]; a figure of ours."""
FLAT = 180


def reveal_limit(
    deep: Fraction,
    beside: Fraction,
    hinge: str,
    thickness: Fraction,
    projection: Fraction = Fraction(0),
    begins: Fraction = BODY_BEGINS.base,
) -> float:
    """The opening [deg] at which leaf or body meets the reveal's corner; at most 180. Lengths in inches.

    `deep` is how far the wall's face is beyond the leaf's pull face, `beside` from the hinge edge to the wall's side,
    `projection` how far a body stands out from the pull face, 0 for none, `begins` from the hinge edge to it.
    """
    offset = pivot_offset(hinge, thickness)
    out = float(offset.face + deep)
    aside = float(beside - offset.edge)
    if out <= 0:
        return FLAT
    corner = math.hypot(aside, out)
    turned = math.atan2(aside, out)
    least = float(FLAT)
    for away, starts in ((Fraction(0), Fraction(0)), (projection, begins)):
        face = float(offset.face + away)
        if abs(face) >= corner or math.sqrt(corner**2 - face**2) < float(offset.edge + starts):
            continue
        least = min(least, math.degrees(turned + math.acos(face / corner)))
    return least


def _reveal_limit(inputs: Mapping[str, Given]) -> Answer:
    deep = needed(inputs, "reveal", Quantity)
    beside = needed(inputs, "beside", Quantity)
    hinge = given(inputs, "hinge", str) or "butt"
    thickness = given(inputs, "thickness", Quantity)
    system = system_of(inputs)
    on_leaf = given(inputs, "mount", str) == "regular"
    sheet = given_sheet(inputs)
    by_sheet = None if sheet is None or sheet.body is None else sheet.body.projects
    body = (given(inputs, "projection", Quantity) or by_sheet or BODY) if on_leaf else None
    found = reveal_limit(
        deep.base,
        beside.base,
        hinge,
        Fraction(7, 4) if thickness is None else thickness.base,
        Fraction(0) if body is None else body.base,
        (given(inputs, "begins", Quantity) or BODY_BEGINS).base,
    )
    kept = FLAT if found >= FLAT else math.floor(found) - CLEAR
    if kept < 1:
        raise OutOfDomain(
            f"reveal {write(deep)} leaves no opening: measure it again, from the leaf's face."
        )
    meets = (
        "The leaf"
        if body is None
        else f"The leaf, or the body {in_units(body, system)} out from it,"
    )
    working = (
        f"Wall {write(deep)} past the leaf and {write(beside)} beside the hinge edge, on {HINGE_WORDS[hinge]}.",
        "Nothing of it is in the leaf's way."
        if kept == FLAT
        else f"{meets} meets the wall's corner at {found:.0f} deg; {CLEAR} deg are kept free.",
    )
    return Answer(
        Quantity(Fraction(kept), "deg"),
        working,
        ("Open the leaf with the body held on it: handles and trim may stop it sooner.",),
    )


def _extent(_: Ranged, __: str) -> Extent:
    """A leaf opens from nothing to flat."""
    return Extent(Quantity(Fraction(0), "deg"), Quantity(Fraction(FLAT), "deg"))


COMPUTATION = Computation(
    name="reveal-limit",
    about="How far a leaf opens in a deep reveal.",
    inputs=(
        Input(
            "reveal",
            "length",
            True,
            "how far the wall stands out past the leaf's pull face",
            low=Quantity(Fraction(0), "in"),
            high=Quantity(Fraction(48), "in"),
        ),
        Input(
            "beside",
            "length",
            True,
            "from the leaf's hinge edge sideways to that wall",
            low=Quantity(Fraction(0), "in"),
            high=Quantity(Fraction(60), "in"),
        ),
        Input("hinge", "choice", False, "what the leaf hangs on; butts if left out", HINGES),
        optional_length(
            "thickness", "thickness of the leaf; 1 3/4 in if left out", Fraction(1), Fraction(3)
        ),
        Input(
            "mount",
            "choice",
            False,
            "how the closer is mounted; without a body on the leaf if left out",
            MOUNTS,
        ),
        optional_length(
            "projection",
            "how far the body stands out; by the sheet, or 2 1/2 in, if left out",
            Fraction(1, 2),
            Fraction(6),
        ),
        Input(
            "sheet",
            "sheet",
            False,
            "the sheet of the closer, which says how far its body stands out",
        ),
        optional_length(
            "begins", "from the hinge edge to the body; 2 in if left out", Fraction(0), Fraction(24)
        ),
    ),
    output=Output("angle"),
    compute=_reveal_limit,
    extent=_extent,
    source="plane geometry with hinge offsets of our own; the body's size is common practice",
    example="reveal='6 in' beside='2 in' hinge=butt",
)
