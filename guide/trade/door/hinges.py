"""Where a leaf's pivot is, by the kind of hinge: the two offsets that the linkage needs.

Plan view with the hinge axis at the origin, the closed leaf along +x and the pull side toward +y.
`edge` (ex) is where the hinge edge of the leaf is along x, `face` (ey) where its pull face is
along y; either may be below zero. In inches.

The offsets are assumptions of ours, each explained below: real hinges differ, and for anything but butt
and continuous hinges the maker's special template governs.
"""

from dataclasses import dataclass
from fractions import Fraction

HINGES = ("butt", "continuous", "swing-clear", "centre-pivot", "offset-pivot")

HINGE_WORDS = {
    "butt": "butt hinges",
    "continuous": "a continuous hinge",
    "swing-clear": "swing-clear hinges",
    "centre-pivot": "centre-hung pivots",
    "offset-pivot": "offset pivots",
}
"""What a fitter calls each."""

STANDARD_TEMPLATE = ("butt", "continuous")
"""The hinges a paper template suits (common practice); the others turn about another axis."""

USUAL_THICKNESS = Fraction(7, 4)
"""A usual leaf, 1 3/4 in (common practice)."""

_BUTT_EDGE = Fraction(1, 16)
"""Pin centre to hinge edge of a butt, along the leaf (common practice)."""
_BUTT_FACE = Fraction(-5, 16)
"""A butt's pin is in front of the pull face, 1/4 to 3/8 in (common practice)."""
_JAMB_GAP = Fraction(1, 8)
"""Between hinge edge and jamb (common practice)."""


@dataclass(frozen=True, slots=True)
class PivotOffset:
    """Hinge edge and pull face of the closed leaf, from the hinge axis [in]."""

    edge: Fraction
    face: Fraction


def pivot_offset(hinge: str, thickness: Fraction = USUAL_THICKNESS) -> PivotOffset:
    """The offsets of one of `HINGES` on a leaf of that thickness [in]. KeyError for another word.

    Swing-clear: cranked so far that at 90 deg the push face just clears the jamb. Centre pivot: at
    mid thickness, 2 3/4 in from the edge (common practice). Offset pivot: 3/4 in each way (from
    memory, unconfirmed).
    """
    return {
        "butt": PivotOffset(_BUTT_EDGE, _BUTT_FACE),
        "continuous": PivotOffset(Fraction(5, 32), Fraction(-1, 4)),
        "swing-clear": PivotOffset(thickness - _BUTT_FACE + _JAMB_GAP, _BUTT_FACE),
        "centre-pivot": PivotOffset(Fraction(-11, 4), thickness / 2),
        "offset-pivot": PivotOffset(Fraction(-3, 4), Fraction(-3, 4)),
    }[hinge]
