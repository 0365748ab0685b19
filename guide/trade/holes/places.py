"""The coordinates of a setting-out: the only ones there are, for the drawing and the template.

Inches, exact, from where the two lines cross that are measured from; to the right and upward for the person who faces
the work. The soffit is folded up: out from the leaf is upward there, from the underside of the stop.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from guide.trade.answer import NoAnswer
from guide.trade.holes.layout import FRAME, SOFFIT, ReferencePoint
from guide.trade.holes.placed_hole import PlacedHole
from guide.trade.holes.set_out import SettingOut

Place: TypeAlias = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Places:
    """Where everything is for the person who faces the work."""

    hinges: str
    """The side the hinges are on, "left" or "right"."""
    holes: tuple[tuple[PlacedHole, Place], ...]
    body: Place
    shoe: Place
    outline: tuple[Place, ...]
    """The corners of the body, those of its valve end last; empty if the sheet does not give them."""
    fold: Fraction
    """Where the soffit is folded up: the underside of the stop, above the line that up and down is measured from."""


def places(so: SettingOut) -> Places:
    """The coordinates. NoAnswer if nothing may be marked, or the side of the hinges is not known."""
    layout = so.check()
    hinges = so.hinges
    if hinges is None:
        raise NoAnswer("The side of the hinges is not known: look at the door from its pull side.")
    fold = Fraction(0)
    if layout.datum == "top of the leaf" and so.opening.overlap is not None:
        fold = -so.opening.overlap

    def place(line: ReferencePoint, along: Fraction, across: Fraction) -> Place:
        up = across if line.part in (FRAME, SOFFIT) else -across
        lift = fold if line.part == SOFFIT else Fraction(0)
        return (along if hinges == "left" else -along), up + lift

    return Places(
        hinges,
        tuple((hole, place(hole.line, hole.along, hole.across)) for hole in so.holes),
        place(layout.body, layout.body.along, layout.body.across),
        place(layout.shoe, layout.shoe.along, layout.shoe.across),
        tuple(place(layout.body, along, across) for along, across in _outline(so, layout.body)),
        fold,
    )


def _outline(so: SettingOut, pinion: ReferencePoint) -> tuple[tuple[Fraction, Fraction], ...]:
    body = None if so.sheet is None else so.sheet.body
    if body is None or so.valves_toward is None:
        return ()
    way = 1 if so.valves_toward == "latch" else -1
    other, valves = (
        pinion.along - way * body.other_end.base,
        pinion.along + way * body.valve_end.base,
    )
    half = body.height.base / 2
    low, high = sorted(
        (pinion.across - half, pinion.across + half), reverse=pinion.direction == "down"
    )
    return (other, low), (other, high), (valves, high), (valves, low)
