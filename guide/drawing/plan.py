"""The plan of one opening from above: frame, leaf, hinge, swing, body and arm at the current opening."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from guide.drawing.facing import ON, Facing, facing_for, other_side
from guide.drawing.scene import Arc, Area, Circle, Label, Point, Polyline, Scene, Shape
from guide.trade.arm.clearance import BodyOutline
from guide.trade.arm.geometry import Arm, Geometry, Position
from guide.trade.door.hinges import HINGE_WORDS
from guide.trade.mounts import BODY_INTO, MOUNT_WORDS, SHOE_INTO
from guide.trade.shown import length

_GAP = 0.125
"""Between leaf and jamb (common practice)."""
_STOP = 0.625
"""How far a stop stands out from its jamb (common practice)."""
_FACE = 2.0
"""Width of a frame's face (common practice)."""
_SOFFIT = 2.0
"""How far the frame extends past the leaf's push face if nothing says so."""
_SHOE_HALF = 1.0
"""Half a shoe along the door; what is drawn, not a dimension."""
_VALVE_END = 1.25
"""How much of the body is marked as its valve end; what is drawn, not a dimension."""
_BREAK = 0.6
"""Half the gap in a leaf that is drawn shortened."""

_NO_ARM = ": the arm does not reach here"

_USUAL_OUTLINE = BodyOutline()


@dataclass(frozen=True, slots=True)
class PlanOf:
    """Everything a plan is drawn from. Lengths in inches."""

    geometry: Geometry
    knuckles: str
    """The side the hinge knuckles are on, seen from the pull side."""
    hinge: str = "butt"
    width: float = 36.0
    outline: BodyOutline = _USUAL_OUTLINE
    valves_toward: str | None = None
    """"hinge" or "latch"; None if no sheet says so."""
    drawn_width: float | None = None
    """If less than `width`, the leaf is drawn that long with a break in it."""
    units: str = "inch"
    """The units of the sentence, "inch" or "metric"."""
    placed: bool = True
    """Whether the shoe's place is the sheet's for this opening; otherwise the sentence says no number."""

    @property
    def shown_width(self) -> float:
        """How long the leaf is in the drawing."""
        return self.width if self.drawn_width is None else min(self.width, self.drawn_width)


def least_width(geometry: Geometry, outline: BodyOutline, degrees: Iterable[float]) -> float:
    """How much of the leaf must be drawn to show the whole closer at all these openings [in]."""
    arm = Arm(geometry)
    reach = [
        geometry.pinion_along + outline.toward_latch,
        geometry.shoe_along + _SHOE_HALF,
    ]
    for deg in degrees:
        at = arm.at(deg)
        if at is not None:
            reach += [at.elbow[0], _turned(at.elbow, -deg)[0]]
    return math.ceil(max(reach) - geometry.edge_offset + 4.0)


def plan(of: PlanOf, deg: float) -> Scene:
    """The plan with the leaf open by `deg`, 0 to 180.

    If the arm cannot reach there, the drawing shows the door without it and says so.
    """
    facing = facing_for(of.geometry.mount, of.knuckles)
    at = Arm(of.geometry).at(deg)
    shapes: list[Shape] = [
        *_frame(of, facing),
        *_swing(of, facing, deg),
        *_leaf(of, facing, deg),
        *_body(of, facing, deg),
    ]
    if at is not None:
        shapes += _arm(of, facing, at, deg)
    return Scene(
        says=_says(of, facing, deg, at),
        shapes=tuple(shapes),
        above=f"{other_side(facing.stands)} side" + (_NO_ARM if at is None else ""),
        below=f"{facing.stands.upper()} SIDE: you stand here",
    )


def _turned(point: Point, deg: float) -> Point:
    cos, sin = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    x, y = point
    return cos * x - sin * y, sin * x + cos * y


def _on_leaf(of: PlanOf, facing: Facing, deg: float, points: list[Point]) -> tuple[Point, ...]:
    """Places on the closed leaf, turned with it by `deg` about the hinge pin."""
    return tuple(facing.point(_turned(point, deg)) for point in points)


def _frame(of: PlanOf, facing: Facing) -> list[Shape]:
    geometry = of.geometry
    pull = geometry.face_offset + geometry.frame_proud
    back = geometry.push_face - _depth(geometry)
    shapes: list[Shape] = []
    hinge = geometry.edge_offset - _GAP
    latch = geometry.edge_offset + of.shown_width + _GAP
    for rabbet, way in ((hinge, 1.0), (latch, -1.0)):
        outer, stop = rabbet - way * _FACE, rabbet + way * _STOP
        section = [(outer, pull), (rabbet, pull), (rabbet, geometry.push_face)]
        if back < geometry.push_face:
            section += [(stop, geometry.push_face), (stop, back)]
        else:
            section += [(rabbet, back)]
        section.append((outer, back))
        shapes.append(Area("frame", tuple(facing.point(point) for point in section)))
    jamb = [
        (latch + 1.0, back),
        (latch + _FACE, back),
        (latch + _FACE, pull),
        (latch - _STOP, back),
    ]
    shapes.append(Label(tuple(facing.point(place) for place in jamb), ("latch",), "frame", "L"))
    for y in (pull, back):
        ends = ((hinge, y), (latch, y))
        shapes.append(Polyline("head", tuple(facing.point(point) for point in ends)))
    return shapes


def _depth(geometry: Geometry) -> float:
    """How far the frame goes on past the leaf's push face."""
    if geometry.mount == "top-jamb":
        return geometry.stop_depth
    if geometry.mount == "parallel":
        return max(_SOFFIT, geometry.shoe_out + _SHOE_HALF)
    return _SOFFIT


def _swing(of: PlanOf, facing: Facing, deg: float) -> list[Shape]:
    geometry = of.geometry
    far = geometry.edge_offset + of.shown_width
    radius = math.hypot(far, geometry.face_offset)
    closed_at = math.degrees(math.atan2(geometry.face_offset, far))
    shapes: list[Shape] = [
        Circle("hinge", facing.point((0.0, 0.0)), 0.55),
        Label((facing.point((0.0, 0.0)),), (HINGE_WORDS[of.hinge], "hinges"), "hinge", "H"),
    ]
    if deg > 0:
        start, sweep = facing.arc(closed_at, deg)
        shapes.append(Arc("swing", facing.point((0.0, 0.0)), radius, start, sweep))
        shapes.append(Polyline("closed", tuple(facing.point(p) for p in _corners(of)), closed=True))
    return shapes


def _corners(of: PlanOf) -> list[Point]:
    geometry = of.geometry
    near, far = geometry.edge_offset, geometry.edge_offset + of.shown_width
    pull, push = geometry.face_offset, geometry.push_face
    return [(near, pull), (far, pull), (far, push), (near, push)]


def _leaf(of: PlanOf, facing: Facing, deg: float) -> list[Shape]:
    corners = _corners(of)
    if of.shown_width >= of.width:
        return [Polyline("leaf", _on_leaf(of, facing, deg, corners), closed=True)]
    (near, pull), (far, _), (_, push), _ = corners
    cut = far - 2.5
    hinge_part = [
        (cut - _BREAK / 2, pull),
        (near, pull),
        (near, push),
        (cut - 1.5 * _BREAK, push),
    ]
    latch_part = [(cut + 1.5 * _BREAK, pull), (far, pull), (far, push), (cut + _BREAK / 2, push)]
    return [
        Polyline("leaf", _on_leaf(of, facing, deg, part), closed=True)
        for part in (hinge_part, latch_part)
    ]


def _body(of: PlanOf, facing: Facing, deg: float) -> list[Shape]:
    geometry, outline = of.geometry, of.outline
    x, y = geometry.pinion
    away = 1.0 if geometry.mount == "regular" else -1.0
    face = y - away * geometry.pinion_out
    front = face + away * outline.projects
    near, far = x - outline.toward_hinge, x + outline.toward_latch
    turn = deg if geometry.body_on_door else 0.0

    def box(left: float, right: float) -> tuple[Point, ...]:
        corners = [(left, face), (right, face), (right, front), (left, front)]
        return _on_leaf(of, facing, turn, corners)

    on = ON[BODY_INTO[geometry.mount]]
    tail = far if of.valves_toward == "hinge" else near
    places = [((near + 3 * far) / 4, front), ((3 * near + far) / 4, front), (tail, front)]
    shapes: list[Shape] = [Area("body", box(near, far))]
    if of.valves_toward is not None:
        end = (near, near + _VALVE_END) if of.valves_toward == "hinge" else (far - _VALVE_END, far)
        shapes.append(Area("valves", box(*end)))
        place = _on_leaf(of, facing, turn, [(sum(end) / 2, front)])[0]
        shapes.append(Label((place,), ("valves",), "valves", "V"))
    shapes.append(Label(_on_leaf(of, facing, turn, places), (f"body {on}", "body"), "body", "B"))
    return shapes


def _arm(of: PlanOf, facing: Facing, at: Position, deg: float) -> list[Shape]:
    geometry = of.geometry
    pinion, elbow, shoe = (facing.point(p) for p in (at.pinion, at.elbow, at.shoe))
    x, y = geometry.shoe
    if geometry.mount == "regular":
        face = y - geometry.shoe_out
    elif geometry.mount == "top-jamb":
        face = y + geometry.shoe_out
    else:
        face = y + _SHOE_HALF
    past = y + (y - face) * (1.0 if geometry.mount == "parallel" else 0.4)
    plate = [(x - _SHOE_HALF, face), (x + _SHOE_HALF, face), (x + _SHOE_HALF, past)]
    plate.append((x - _SHOE_HALF, past))
    turn = 0.0 if geometry.body_on_door else deg
    return [
        Area("shoe", _on_leaf(of, facing, turn, plate)),
        Polyline("arm", (pinion, elbow)),
        Polyline("arm", (elbow, shoe)),
        Circle("arm", elbow, 0.35),
        Circle("arm", pinion, 0.5),
        Label((shoe,), (f"shoe {ON[SHOE_INTO[geometry.mount]]}", "shoe"), "shoe", "S"),
        Label(_along(pinion, elbow), ("main arm",), "arm"),
        Label(_along(shoe, elbow), ("forearm",), "arm"),
    ]


def _along(start: Point, end: Point) -> tuple[Point, ...]:
    """Places on a link, its middle first, then nearer and nearer to its end."""
    (x0, y0), (x1, y1) = start, end
    return tuple((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share) for share in (0.5, 0.7, 0.9))


def _says(of: PlanOf, facing: Facing, deg: float, at: Position | None) -> str:
    geometry = of.geometry
    opened = "closed" if deg == 0 else f"open {deg:.0f} degrees"
    valves = ""
    if of.valves_toward is not None:
        valves = (
            f", its valves toward the {of.valves_toward} on your {facing.side(of.valves_toward)}"
        )
    shoe = f"the shoe is {ON[SHOE_INTO[geometry.mount]]}"
    if at is None:
        shoe = "the arm cannot be put together here"
    elif deg == 0 and of.placed:
        shoe += f" {length(geometry.shoe_along, of.units)} from the hinge axis"
    return (
        f"{MOUNT_WORDS[geometry.mount].capitalize()} from above, the leaf {opened}: you stand on the"
        f" {facing.stands} side with the hinges on your {facing.hinges}; the body is"
        f" {ON[BODY_INTO[geometry.mount]]}{valves}; {shoe}."
    )
