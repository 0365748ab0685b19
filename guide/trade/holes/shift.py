"""What a shift of the marks does to the arm: its reach and its power at the latch, by the linkage.

Reach is the opening at which the arm locks. Power is the least closing moment from 0 to 4 deg, with
the spring in the middle of its sizes; shares of it hardly depend on the size.
"""

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from guide.trade.arm.geometry import Arm, Geometry
from guide.trade.arm.moments import least_closing, moments
from guide.trade.arm.sheet_geometry import Opening, arm_of, sheet_geometry
from guide.trade.arm.spring import Spring, spring_of
from guide.trade.door.hinges import pivot_offset
from guide.trade.sheet.parts import OpeningRange
from guide.trade.sheet.sheet import Sheet

SIXTEENTH = 1 / 16
"""To which marks are placed [in] (common practice)."""
_NEAR_LATCH = range(5)


@dataclass(frozen=True, slots=True)
class Effect:
    """What an arm does at one place of its marks."""

    power: float | None
    """Least closing moment from 0 to 4 deg [N m]; None if the arm does not go together."""
    reach: float | None
    """Where the arm locks [deg]; None if it never does."""


@dataclass(frozen=True, slots=True)
class Shift:
    """One part's marks a sixteenth off, the worse way."""

    part: str
    """"body" or "shoe"."""
    way: str
    """"along the door" or "out from the leaf"."""
    percent: float
    """Greatest change of the latch power, without sign [percent]; 100 where the arm does not join."""
    reach: tuple[float | None, float | None]
    """Where the arm locks with the marks a sixteenth nearer to hinge or leaf, and as much farther."""


def effect(geometry: Geometry, spring: Spring, preset_deg: float) -> Effect:
    """Power and reach of that arm."""
    arm = Arm(geometry)
    lock = arm.lock()
    curve = moments(arm, spring, _NEAR_LATCH, math.radians(preset_deg))
    return Effect(least_closing(curve, 0, 4), None if lock is None else lock.deg)


def middle_spring(sheet: Sheet) -> Spring:
    """The spring in the middle of the sheet's sizes."""
    return spring_of(sum(sheet.sizes) / 2)


def shifts(
    sheet: Sheet, mount: str, found: OpeningRange, opening: Opening
) -> tuple[Effect, tuple[Shift, ...]]:
    """The arm as the sheet has it, and what a sixteenth does to it with the rod left as it is.

    NoAnswer if the sheet gives no arm lengths.
    """
    _, arm = arm_of(sheet, mount)
    geometry = sheet_geometry(sheet, mount, found, opening)
    spring, preset = middle_spring(sheet), float(arm.preset_turn.base)
    right = effect(geometry, spring, preset)
    moved = [("body", "along the door", "pinion_along"), ("shoe", "along the door", "shoe_along")]
    if mount == "parallel":
        moved.append(("shoe", "out from the leaf", "shoe_out"))
    rows = []
    for part, way, key in moved:
        here = getattr(geometry, key)
        sides = [
            effect(replace(geometry, **{key: here + by}), spring, preset)
            for by in (-SIXTEENTH, SIXTEENTH)
        ]
        change = max(abs(percent_change(right, one)) for one in sides)
        rows.append(Shift(part, way, change, (sides[0].reach, sides[1].reach)))
    return right, tuple(rows)


def percent_change(right: Effect, other: Effect) -> float:
    """How much more power the other arm has near the latch, below zero for less [percent]."""
    if not right.power or other.power is None:
        return -100.0
    return 100 * (other.power / right.power - 1)


def template_effect(
    sheet: Sheet, mount: str, found: OpeningRange, opening: Opening
) -> tuple[Effect, Effect]:
    """The arm on butt hinges, and with the same paper laid to the hinge edge of this leaf.

    NoAnswer if the sheet gives no arm lengths.
    """
    _, arm = arm_of(sheet, mount)
    spring, preset = middle_spring(sheet), float(arm.preset_turn.base)
    butt = sheet_geometry(sheet, mount, found, replace(opening, hinge="butt"))
    here = pivot_offset(opening.hinge, opening.thickness)
    farther = template_shift(opening.hinge, opening.thickness)
    laid = replace(
        butt,
        pinion_along=butt.pinion_along + float(farther),
        shoe_along=butt.shoe_along + float(farther),
        edge_offset=float(here.edge),
        face_offset=float(here.face),
    )
    return effect(butt, spring, preset), effect(laid, spring, preset)


def template_shift(hinge: str, thickness: Fraction) -> Fraction:
    """How much farther from the pivot a paper for butts, laid to the hinge edge, puts its marks [in]."""
    return pivot_offset(hinge, thickness).edge - pivot_offset("butt", thickness).edge


def reach_words(reach: float | None) -> str:
    """Where an arm locks, as a phrase."""
    return "never locks" if reach is None else f"locks at {reach:.0f} deg"


def power_words(percent: float) -> str:
    """A change of the latch power, as a phrase."""
    if round(abs(percent)) == 0:
        return "the same power at the latch"
    return f"{abs(percent):.0f} percent {'more' if percent > 0 else 'less'} power at the latch"
