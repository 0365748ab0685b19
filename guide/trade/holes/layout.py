"""The reference points of body and shoe on one opening, from datums named in words.

Lengths in inches, exact; nothing is rounded here. Along the door is counted from the hinge side toward
the latch; the second number down a leaf, up a frame's face, or out from the leaf under a soffit. So
both hands have the same numbers, and `places` turns them to left and right.

The body is turned end for end for the other hand, which puts its valves on the same side of the
pinion and its pattern upside down; `check_holes` of a sheet sees to it that the pattern is the same
either way up. The shoe is not turned. Down on a sheet is down as the part hangs, on every mount.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from guide.measures import Quantity, nearest
from guide.trade.answer import BadInput
from guide.trade.mounts import BODY_INTO, SHOE_INTO
from guide.trade.sheet.parts import OpeningRange, SheetBody

LEAF, FRAME, SOFFIT = "leaf", "frame face", "soffit"
PARTS = (LEAF, FRAME, SOFFIT)
"""What a hole goes into; the frame's face is that of its head."""

DIRECTIONS = {LEAF: "down", FRAME: "up", SOFFIT: "out"}
"""Which way the second number runs, by what the hole goes into."""

PUSH_FACE = "push face of the leaf"
"""From where the second number of a hole in the soffit is measured."""


_MARK = {"inch": Quantity(Fraction(1, 32), "in"), "metric": Quantity(Fraction(1, 2), "mm")}
"""What a mark is given to."""


_SAME_PLACE = Fraction(1, 64)
"""How far two holes may be apart and still be one place [in]: half of what a pattern may be out."""


@dataclass(frozen=True, slots=True)
class ReferencePoint:
    """The reference point of one part, where its two lines cross: the body's pinion and middle row of
    screws, or the shoe's pivot and screws."""

    of: str
    """"body" or "shoe"."""
    part: str
    """One of `PARTS`."""
    along: Fraction
    across: Fraction
    across_from: str
    """The datum the second number is measured from."""

    @property
    def direction(self) -> str:
        """Which way the second number runs: "down", "up" or "out"."""
        return DIRECTIONS[self.part]


@dataclass(frozen=True, slots=True)
class Layout:
    """The reference points of body and shoe, for one mount and opening range."""

    mount: str
    along_from: str
    """"hinge edge" or "hinge pin centre"."""
    datum: str
    """"underside of the stop" or "top of the leaf"."""
    body: ReferencePoint
    shoe: ReferencePoint


def lines_of(
    mount: str, along_from: str, datum: str, numbers: tuple[Fraction, Fraction, Fraction, Fraction]
) -> Layout:
    """The reference points from body along and across, shoe along and across [in]."""
    body_along, body_across, shoe_along, shoe_across = numbers
    shoe_on = SHOE_INTO[mount]
    return Layout(
        mount,
        along_from,
        datum,
        ReferencePoint("body", BODY_INTO[mount], body_along, body_across, datum),
        ReferencePoint(
            "shoe", shoe_on, shoe_along, shoe_across, PUSH_FACE if shoe_on == SOFFIT else datum
        ),
    )


def numbers_of(found: OpeningRange) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """A range's four numbers in the order of `lines_of` [in]."""
    return (
        found.body_along.base,
        found.body_datum.base,
        found.shoe_along.base,
        found.shoe_datum.base,
    )


def measured_from(
    layout: Layout, along_from: str, datum: str, edge: Fraction, overlap: Fraction | None = None
) -> Layout:
    """The same places, measured from other datums.

    `edge` is the hinge edge from the hinge pin centre, along, above zero toward the latch [in];
    `overlap` the top of the leaf above the underside of the stop [in], needed to change the datum:
    BadInput without it.
    """
    along = Fraction(0)
    if along_from != layout.along_from:
        along = edge if along_from == "hinge pin centre" else -edge
    up = Fraction(0)
    if datum != layout.datum:
        if overlap is None:
            raise BadInput(
                f"The sheet measures from the {layout.datum}; to measure from the {datum} give"
                " overlap=, how far the top of the leaf is above the underside of the stop."
            )
        up = overlap if datum == "underside of the stop" else -overlap

    def moved(line: ReferencePoint) -> ReferencePoint:
        if line.direction == "out":
            return replace(line, along=line.along + along)
        return replace(
            line,
            along=line.along + along,
            across=line.across + _sense(line) * up,
            across_from=datum,
        )

    return Layout(layout.mount, along_from, datum, moved(layout.body), moved(layout.shoe))


def _sense(line: ReferencePoint) -> int:
    return 1 if line.direction == "up" else -1


def other_way_up(body: SheetBody) -> str | None:
    """The first hole that has no other in its place once the body is turned end for end; None if the
    pattern is the same either way up."""

    def same(one: Fraction, other: Fraction) -> bool:
        return abs(one - other) <= _SAME_PLACE

    for hole in body.holes:
        if not any(
            same(one.along.base, hole.along.base) and same(one.down.base, -hole.down.base)
            for one in body.holes
        ):
            return hole.name
    return None


def hinges_in_front(mount: str, knuckles: str) -> str:
    """The side the hinges are on for someone facing the body's place, "left" or "right".

    `knuckles` is the side they show on seen from the pull side; only a regular arm is fitted there.
    """
    if mount == "regular":
        return knuckles
    return "left" if knuckles == "right" else "right"


def to_mark(inches: Fraction, system: str) -> Quantity:
    """A length [in] to the nearest 1/32 in, or 0.5 mm in the metric system."""
    return nearest(Quantity(inches, "in"), _MARK[system])
