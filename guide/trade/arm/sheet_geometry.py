"""From a closer's sheet to the linkage it makes on one opening.

The sheet says where pinion and shoe go and how the arm rests; kind of hinge, thickness, stop depth
and how proud the frame stands come from the opening.
"""

import math
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from guide.measures import Quantity
from guide.trade.answer import NoAnswer
from guide.trade.arm.geometry import Geometry
from guide.trade.door.hinges import USUAL_THICKNESS, pivot_offset
from guide.trade.mounts import MOUNT_WORDS

if TYPE_CHECKING:
    from guide.trade.sheet.parts import OpeningRange, SheetArm, SheetBody
    from guide.trade.sheet.sheet import Sheet

_STEP = {"inch": Fraction(1, 16), "metric": Quantity(Fraction(1), "mm").base}
"""What a forearm is set to [in]: 1/16 in or 1 mm."""


@dataclass(frozen=True, slots=True)
class Opening:
    """What of an opening counts for the arm. Lengths in inches."""

    hinge: str = "butt"
    thickness: Fraction = USUAL_THICKNESS
    stop_depth: Fraction = Fraction(0)
    frame_proud: Fraction = Fraction(0)


def arm_of(sheet: "Sheet", mount: str) -> "tuple[SheetBody, SheetArm]":
    """The body and the arm of that mount; NoAnswer if the sheet does not give them."""
    arm = sheet.mount(mount).arm
    if arm is None or sheet.body is None:
        raise NoAnswer(
            f"The sheet {sheet.sheet} does not give the body and the arm of a"
            f" {MOUNT_WORDS[mount]}: copy them from the maker's sheet, or give the lengths."
        )
    return sheet.body, arm


def sheet_geometry(
    sheet: "Sheet", mount: str, found: "OpeningRange", opening: Opening | None = None
) -> Geometry:
    """The linkage one range of the sheet makes. NoAnswer if the sheet gives no arm lengths.

    The forearm is the sheet's own for the range, longer by the stop depth on a top jamb and shorter
    by what the frame stands proud on a regular arm; where the range gives none, it is set so that
    the arm rests as the sheet says. NoAnswer if the main arm is too short for that, or if the sheet neither says how
    far out the shoe is nor gives what it can be worked out from (`worked_shoe_out`).
    """
    opening = opening or Opening()
    body, arm = arm_of(sheet, mount)
    offset = pivot_offset(opening.hinge, opening.thickness)
    start = float(offset.edge) if sheet.mount(mount).along_from == "hinge edge" else 0.0
    shoe_out = _shoe_out(sheet, mount, found)
    without = Geometry(
        mount=mount,
        pinion_along=start + float(found.body_along.base),
        pinion_out=float(body.pinion_out.base),
        shoe_along=start + float(found.shoe_along.base),
        shoe_out=shoe_out,
        main_arm=float(arm.main.base),
        forearm=0.0,
        thickness=float(opening.thickness),
        edge_offset=float(offset.edge),
        face_offset=float(offset.face),
        stop_depth=float(opening.stop_depth) if mount == "top-jamb" else 0.0,
        frame_proud=float(opening.frame_proud) if mount == "regular" else 0.0,
    )
    if found.forearm is not None:
        forearm = float(found.forearm.base) + without.stop_depth - without.frame_proud
    else:
        resting = resting_forearm(without, arm.rests)
        if resting is None:
            raise NoAnswer(
                f"The main arm of {sheet.sheet}, {arm.main}, is too short to rest with the"
                f" {arm.rests} on a {MOUNT_WORDS[mount]} opening to {found.up_to}: compare the"
                " sheet with the maker's own."
            )
        step = float(_STEP[sheet.units])
        forearm = round(resting / step) * step
    return with_forearm(without, forearm)


def _shoe_out(sheet: "Sheet", mount: str, found: "OpeningRange") -> float:
    """The shoe's pivot from the face under it, on a parallel arm from the leaf's push face [in]."""
    _, arm = arm_of(sheet, mount)
    if mount == "parallel":
        return float(found.shoe_datum.base)
    if arm.shoe_out is not None:
        return float(arm.shoe_out.base)
    worked = worked_shoe_out(sheet, mount)
    if worked is None:
        raise NoAnswer(
            f"The sheet {sheet.sheet} does not say how far out the shoe of a {MOUNT_WORDS[mount]} is, and it"
            " cannot be worked out without a forearm in a row: measure it on the shoe."
        )
    return worked


def worked_shoe_out(sheet: "Sheet", mount: str) -> float | None:
    """How far out the shoe must be for the arm to rest as the sheet says with the forearms of its rows, on the average
    [in]; None if no row has a forearm, the arm does not rest square to the frame, or the sheet leaves the arm out.

    Of a regular arm or top jamb whose sheet gives no `shoe_out`.
    """
    on = sheet.mount(mount)
    if on.arm is None or sheet.body is None or on.arm.rests != "forearm square to the frame":
        return None
    main, pinion_out = float(on.arm.main.base), float(sheet.body.pinion_out.base)
    found = []
    for row in on.ranges:
        apart = float(row.shoe_along.base - row.body_along.base)
        if row.forearm is not None and abs(apart) <= main:
            elbow_out = pinion_out + math.sqrt(main**2 - apart**2)
            found.append(elbow_out - float(row.forearm.base))
    mean = sum(found) / len(found) if found else 0.0
    return mean if mean > 0 else None


def with_forearm(geometry: Geometry, forearm: float) -> Geometry:
    """The same geometry with another forearm [in]."""
    return replace(geometry, forearm=forearm)


def resting_elbow(geometry: Geometry, rests: str) -> tuple[float, float] | None:
    """Where the elbow is on a closed door if the arm rests as said (one of `RESTS`); None if the
    main arm is too short. Inches, hinge axis at the origin. The forearm's length does not count."""
    x, y = geometry.pinion
    if rests == "main arm along the door":
        return x + geometry.main_arm, y
    shoe = geometry.shoe[0]
    square = geometry.main_arm**2 - (shoe - x) ** 2
    if square < 0:
        return None
    away = 1 if geometry.mount == "regular" else -1
    return shoe, y + away * math.sqrt(square)


def resting_forearm(geometry: Geometry, rests: str) -> float | None:
    """The forearm [in] with which the arm rests as said; None if the main arm is too short."""
    elbow = resting_elbow(geometry, rests)
    return None if elbow is None else math.dist(elbow, geometry.shoe)
