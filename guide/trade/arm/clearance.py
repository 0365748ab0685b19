"""How far a leaf opens before arm, body or rack stops it, other than by the arm's lock.

Same plan view and inches as `geometry`. The first opening is bracketed degree by degree and then found by bisection
down to `_FINE_DEG`, between the closed door and 180 deg or the lock, whichever is first.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from guide.trade.arm.geometry import Arm, Geometry, Point, Position

RACK_TRAVEL_DEG = 210.0
"""How far a pinion turns before its rack runs out (our assumption; the maker's sheet governs)."""
ARM_CLEAR = 0.25
"""How far the arm's centre line stays from frame and leaf [in] (our choice)."""
_JAMB_GAP = 0.125
"""Between the leaf's hinge edge and the jamb [in] (common practice)."""
_STRAIGHT = 180
_FINE_DEG = 1e-6
_SHORT_OF_LOCK = 1e-3
"""In the lock itself the ratio has no sign [deg]."""


@dataclass(frozen=True, slots=True)
class BodyOutline:
    """The body's reach from the pinion and its depth from the leaf's face [in]."""

    toward_hinge: float = 3.5
    toward_latch: float = 7.0
    projects: float = 2.125


def first_opening(stops: Callable[[float], bool], end: float) -> float | None:
    """The first opening [deg] in (0, end] at which `stops` holds, by bisection; None if there is none."""
    last = 0.0
    while last < end:
        deg = min(last + 1.0, end)
        if stops(deg):
            while deg - last > _FINE_DEG:
                middle = (last + deg) / 2
                last, deg = (last, middle) if stops(middle) else (middle, deg)
            return deg
        last = deg
    return None


def _end(arm: Arm) -> float:
    lock = arm.lock()
    return _STRAIGHT if lock is None else min(_STRAIGHT, lock.deg - _SHORT_OF_LOCK)


def over_centre(arm: Arm) -> float | None:
    """The first opening [deg] past which the spring would open the door; None within reach."""

    def past(deg: float) -> bool:
        at = arm.at(deg)
        return at is not None and at.ratio is not None and at.ratio < 0

    return first_opening(past, _end(arm))


def rack_ends(arm: Arm, preset_deg: float = 0.0) -> float | None:
    """The first opening [deg] at which the pinion has turned `RACK_TRAVEL_DEG`, the preset counted."""

    def ends(deg: float) -> bool:
        at = arm.at(deg)
        return (
            at is not None
            and at.turn_deg is not None
            and at.turn_deg + preset_deg > RACK_TRAVEL_DEG
        )

    return first_opening(ends, _end(arm))


def arm_meets(arm: Arm) -> float | None:
    """The first opening [deg] at which the arm comes within `ARM_CLEAR` of frame or leaf.

    Regular arm: elbow or pinion before the frame's pull face. Top jamb and parallel arm: main arm or
    forearm against the leaf's push face or the hinge jamb, whose pull-side corner they go round.
    """
    test = _arm_meets_frame if arm.geometry.mount == "regular" else _arm_meets_leaf_or_jamb

    def meets(deg: float) -> bool:
        at = arm.at(deg)
        return at is not None and test(arm.geometry, at, deg)

    return first_opening(meets, _end(arm))


def body_meets_wall(
    geometry: Geometry, outline: BodyOutline | None = None, wall_back: float = 0.0
) -> float | None:
    """The opening [deg] at which a body on the pull side meets the wall beside the opening.

    `wall_back` is how far the wall is behind the frame's pull face [in]; 0 is flush. None for
    bodies on the push side, and where 180 deg is free.
    """
    if geometry.mount != "regular":
        return None
    outline = outline or BodyOutline()
    out = geometry.face_offset + outline.projects
    wall = geometry.face_offset + geometry.frame_proud - wall_back
    ends = (
        geometry.pinion_along - outline.toward_hinge,
        geometry.pinion_along + outline.toward_latch,
    )

    def meets(deg: float) -> bool:
        cos, sin = math.cos(math.radians(deg)), math.sin(math.radians(deg))
        # Only what has come round past the hinge axis can meet the wall; the rest faces the opening.
        return any(
            sin * along + cos * out < wall and cos * along - sin * out < geometry.edge_offset
            for along in ends
        )

    return first_opening(meets, _STRAIGHT)


def _arm_meets_frame(geometry: Geometry, at: Position, _: float) -> bool:
    return min(at.elbow[1], at.pinion[1]) < geometry.face_offset + geometry.frame_proud + ARM_CLEAR


def _arm_meets_leaf_or_jamb(geometry: Geometry, at: Position, deg: float) -> bool:
    cos, sin = math.cos(math.radians(deg)), math.sin(math.radians(deg))

    def from_leaf(point: Point) -> Point:
        x, y = point
        return cos * x + sin * y, cos * y - sin * x

    links = ((at.pinion, at.elbow), (at.elbow, at.shoe))
    jamb = (geometry.edge_offset - _JAMB_GAP + ARM_CLEAR, geometry.face_offset + ARM_CLEAR)
    leaf = geometry.push_face - ARM_CLEAR
    for start, end in links:
        if _enters_corner(start, end, jamb):
            return True
        (u0, v0), (u1, v1) = from_leaf(start), from_leaf(end)
        if _passes_above((u0, v0), (u1, v1), geometry.edge_offset - ARM_CLEAR, leaf):
            return True
    return False


def _enters_corner(start: Point, end: Point, corner: Point) -> bool:
    """Whether a link has a point left of and below the corner."""
    x, y = corner
    clipped = _clip(start, end, lambda p: x - p[0])
    return clipped is not None and min(clipped[0][1], clipped[1][1]) < y


def _passes_above(start: Point, end: Point, u: float, v: float) -> bool:
    """Whether a link has a point beyond `u` along the leaf and above `v`."""
    clipped = _clip(start, end, lambda p: p[0] - u)
    return clipped is not None and max(clipped[0][1], clipped[1][1]) > v


def _clip(start: Point, end: Point, inside: Callable[[Point], float]) -> tuple[Point, Point] | None:
    """The part of a link where the linear function `inside` is above zero; None if it never is."""
    first, last = inside(start), inside(end)
    if first <= 0 and last <= 0:
        return None
    if first > 0 and last > 0:
        return start, end
    share = first / (first - last)
    crossing = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
    return (start, crossing) if first > 0 else (crossing, end)
