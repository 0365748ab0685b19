"""The arm of a closer in plan, a four-bar linkage: elbow, arm angle, turn of the pinion, ratio, lock.

Plan view in inches, hinge axis at the origin, closed leaf along +x, pull side toward +y, opening
turns the leaf toward +y (anticlockwise). The other hand is the mirror image in x: every length,
turn and ratio is the same, only x changes its sign (`Position.mirrored`).

The four bars are frame, leaf, main arm and forearm. The main arm turns about the pinion P, the forearm about the shoe
Q; they meet at the elbow E, the intersection of two circles: |E - P| = a (main arm) and |E - Q| = b (forearm). With
d = |Q - P| and the unit vectors u from P to Q and n square to it:

    E = P + u (a² - b² + d²) / (2 d) ± n sqrt(a² - ((a² - b² + d²) / (2 d))²)

Which side of the line from P to Q the elbow is on cannot change unless the arm locks, so the mount fixes the sign. The
arm locks where d = a + b (stretched) or d = |a - b| (folded). All of it is closed form.

Virtual work: if the pinion turns by d(phi) for an opening d(theta) of the leaf, the leaf's closing moment is the
pinion's moment times the ratio d(phi)/d(theta).
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]
"""(x, y) in inches, hinge axis at the origin."""

RESERVE_DEG = 8.0
"""How far from the lock an opening must stay: the ratio grows without bound there (our choice)."""

_ELBOW_SIDE = {"regular": 1, "parallel": 1, "top-jamb": -1}
"""+1 where the elbow is to the left of the way from pinion to shoe, -1 to the right."""


@dataclass(frozen=True, slots=True)
class Geometry:
    """One closer on one opening. Lengths in inches, along the leaf from the hinge axis."""

    mount: str
    """"regular" (body on the pull face, shoe on the frame), "top-jamb" (body on the frame's push
    face, shoe on the leaf) or "parallel" (body on the push face, shoe under the soffit)."""
    pinion_along: float
    pinion_out: float
    """Pinion axis from the face the body is screwed to."""
    shoe_along: float
    shoe_out: float
    """Shoe pivot from the frame's pull face (regular) or the leaf's push face (the other two)."""
    main_arm: float
    """Pinion to elbow."""
    forearm: float
    """Elbow to shoe."""
    thickness: float
    edge_offset: float
    """Hinge edge of the leaf from the hinge axis, along; may be below zero."""
    face_offset: float
    """Pull face of the leaf from the hinge axis, toward the pull side; may be below zero."""
    stop_depth: float = 0.0
    """How far the frame's push face stands beyond the leaf's; counts for a top jamb only."""
    frame_proud: float = 0.0
    """How far the frame's pull face stands proud of the leaf's; counts for a regular arm only."""

    @property
    def body_on_door(self) -> bool:
        """Whether the pinion moves with the leaf and the shoe does not move."""
        return self.mount != "top-jamb"

    @property
    def push_face(self) -> float:
        """The leaf's push face along y, door closed."""
        return self.face_offset - self.thickness

    @property
    def pinion(self) -> Point:
        """The pinion with the door closed."""
        if self.mount == "regular":
            return self.pinion_along, self.face_offset + self.pinion_out
        stop = self.stop_depth if self.mount == "top-jamb" else 0.0
        return self.pinion_along, self.push_face - stop - self.pinion_out

    @property
    def shoe(self) -> Point:
        """The shoe's pivot with the door closed."""
        if self.mount == "regular":
            return self.shoe_along, self.face_offset + self.frame_proud + self.shoe_out
        return self.shoe_along, self.push_face - self.shoe_out


@dataclass(frozen=True, slots=True)
class Position:
    """The arm at one opening."""

    pinion: Point
    elbow: Point
    shoe: Point
    arm_deg: float
    """The main arm from the leaf's length (body on the door) or the frame's; +90 points to the pull
    side. Followed without jumps from the closed door, where it lies within (-180, 180]."""
    turn_deg: float | None
    """How far opening has turned the pinion; None if the arm fits at no closed door."""
    ratio: float | None
    """Degrees of the pinion for a degree of the leaf; below zero past centre, where the spring opens
    the door; None if the arm is stretched or folded to a line."""

    def mirrored(self) -> "Position":
        """The same arm on a door of the other hand; only positions and the arm's angle change."""
        pinion, elbow, shoe = ((-x, y) for x, y in (self.pinion, self.elbow, self.shoe))
        return Position(pinion, elbow, shoe, 180.0 - self.arm_deg, self.turn_deg, self.ratio)


@dataclass(frozen=True, slots=True)
class Lock:
    """Where the arm can go no further."""

    deg: float
    """The opening, in (0, 360]."""
    how: str
    """"stretched" to a line, or "folded" on itself."""


class Arm:
    """One geometry, prepared to be solved at many openings.

    Works in the frame of the part that carries the pinion: there the pinion P does not move and the
    shoe Q goes round the hinge axis, by -theta where the body is on the door and +theta where it
    is on the frame.
    """

    def __init__(self, geometry: Geometry) -> None:
        self.geometry = geometry
        self._px, self._py = geometry.pinion
        self._qx, self._qy = geometry.shoe
        self._way = -1.0 if geometry.body_on_door else 1.0
        self._side = float(_ELBOW_SIDE[geometry.mount])
        self._main_sq = geometry.main_arm**2
        self._difference = self._main_sq - geometry.forearm**2
        self._shoe_goes_round = math.hypot(self._px, self._py) < math.hypot(self._qx, self._qy)
        self._shoe_bearing = math.atan2(self._qy, self._qx)
        self._back_bearing = math.atan2(-self._py, -self._px)
        self._closed, self._sense = 0.0, 1.0
        self._whole_turns = 0.0
        closed = self._solve(0.0)
        self.assembles_closed = closed is not None
        """Whether the arm can be put together with the door closed."""
        if closed is not None:
            self._whole_turns = _whole_turns(closed[2])
            self._closed = closed[2] - self._whole_turns
            self._sense = -1.0 if closed[3] < 0 else 1.0

    def at(self, deg: float) -> Position | None:
        """The arm with the leaf open by `deg`; None if it cannot be put together there."""
        theta = math.radians(deg)
        found = self._solve(theta)
        if found is None:
            return None
        ex, ey, psi, rate = found
        psi -= self._whole_turns if self.assembles_closed else _whole_turns(psi)
        cos, sin = math.cos(theta), math.sin(theta)
        pinion, shoe, elbow = (self._px, self._py), (self._qx, self._qy), (ex, ey)
        if self.geometry.body_on_door:
            pinion, elbow = _turned(pinion, cos, sin), _turned(elbow, cos, sin)
        else:
            shoe = _turned(shoe, cos, sin)
        turn = self._sense * math.degrees(psi - self._closed) if self.assembles_closed else None
        ratio = self._sense * rate
        return Position(
            pinion, elbow, shoe, math.degrees(psi), turn, ratio if math.isfinite(ratio) else None
        )

    def turns(self, degrees: Iterable[float]) -> Iterator[tuple[float, float, float]]:
        """(opening [deg], turn of the pinion [rad], ratio) at each of `degrees`, until the first at
        which the arm cannot be put together or lies in a line. Nothing where it does not close."""
        if not self.assembles_closed:
            return
        base, sense = self._closed + self._whole_turns, self._sense
        for deg in degrees:
            found = self._solve(math.radians(deg))
            if found is None or not math.isfinite(found[3]):
                return
            yield deg, sense * (found[2] - base), sense * found[3]

    def lock(self) -> Lock | None:
        """The first opening in (0, 360] deg at which the arm is stretched or folded; None if never.

        The distance from pinion to shoe follows the cosine rule in the angle between them as seen
        from the hinge, so each limit is one arc cosine.
        """
        if not self.assembles_closed:
            return None
        near, far = math.hypot(self._px, self._py), math.hypot(self._qx, self._qy)
        if near * far == 0:
            return None
        pinion, shoe = math.atan2(self._py, self._px), self._shoe_bearing
        start = pinion - shoe if self.geometry.body_on_door else shoe - pinion
        main, fore = self.geometry.main_arm, self.geometry.forearm
        found = []
        for how, limit, sign in (("stretched", main + fore, 1), ("folded", main - fore, -1)):
            cosine = (near**2 + far**2 - limit**2) / (2 * near * far)
            if -1 <= cosine <= 1:
                deg = math.degrees(sign * math.acos(cosine) - start) % 360
                found.append(Lock(deg or 360.0, how))
        return min(found, key=lambda lock: lock.deg, default=None)

    def _solve(self, theta: float) -> tuple[float, float, float, float] | None:
        """Elbow x, y and arm angle [rad] in the pinion's frame, and d(arm angle)/d(theta)."""
        cos, sin = math.cos(theta), self._way * math.sin(theta)
        qx, qy = cos * self._qx - sin * self._qy, sin * self._qx + cos * self._qy
        px, py = self._px, self._py
        dx, dy = qx - px, qy - py
        square = dx * dx + dy * dy
        if square == 0:
            return None
        # The elbow's place along the way from P to Q and across it, both times the distance.
        along = (self._difference + square) / 2
        across_sq = self._main_sq * square - along * along
        if across_sq < 0:
            return None
        across = self._side * math.sqrt(across_sq)
        mx, my = (along * dx - across * dy) / square, (along * dy + across * dx) / square
        # The bearing of Q from P without jumps: the bearing of whichever of Q and -P is the longer,
        # plus an angle that stays within a quarter turn.
        if self._shoe_goes_round:
            bearing = self._shoe_bearing + self._way * theta
            bearing += math.atan2(qx * dy - qy * dx, qx * dx + qy * dy)
        else:
            bearing = self._back_bearing + math.atan2(py * dx - px * dy, -px * dx - py * dy)
        psi = bearing + math.atan2(across, along)
        fx, fy = mx - dx, my - dy
        below = fy * mx - fx * my
        if below == 0:
            return px + mx, py + my, psi, math.inf
        return px + mx, py + my, psi, self._way * (fy * qx - fx * qy) / below


def _turned(point: Point, cos: float, sin: float) -> Point:
    x, y = point
    return cos * x - sin * y, sin * x + cos * y


def _whole_turns(psi: float) -> float:
    """The whole turns to take from an angle [rad] so that it lies within (-pi, pi]."""
    return 2 * math.pi * math.ceil((psi - math.pi) / (2 * math.pi))
