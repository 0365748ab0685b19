"""The moving door: one closing from rest, one opening by a push, and the force it takes to open.

A model to teach and to test with. Springs, valves and friction are invented and no real closer was measured, so
`CAUTION` is shown wherever its numbers are. Units are SI: metres, kilograms, newtons, N m, pascals, seconds; angles of
the leaf in degrees.

Equation of motion of a leaf that closes at the speed w = d(theta)/dt [rad/s], integrated in the angle (`path`):

    I dw/dt = M(phi) i (1 - mu) - hinges - air - seal - latch - c i³ w²

I = m W² / 3 is the inertia of an even leaf about its hinge edge; M(phi) the spring's moment at the pinion, mu its
friction (`arm.spring`), i = d(phi)/d(theta) the ratio of the arm (`arm.geometry`); c the oil's drag through the valves
(`valves`). Its moment at the pinion is c (i w)², by the square of the pinion's speed; at the leaf that times i.
"""

import math
from dataclasses import dataclass, field
from typing import NamedTuple

from guide.trade.arm.geometry import Geometry
from guide.trade.arm.spring import Spring, spring_of
from guide.trade.swing.path import LATCH_FROM, LATCH_TO, TWELVE, cross, path, stations
from guide.trade.swing.valves import FREE_DRAG, Ports, Valves, share

CAUTION = "A model to teach and to test with: no real closer was measured. The door itself decides."

SLAM_SPEED = 0.25
"""Latch edge's speed at the frame above which we call it a slam [m/s]; ours, no source."""

BACKSET = 0.07
"""Latch edge to the middle of the handle, 2 3/4 in [m]; common practice."""

_SEAL_TO = 5.0
"""Where the leaf meets the seal [deg]; it presses the more the nearer it is to shut."""

_AIR_FADES = 4.0
"""How far open the leaf has lost half of the pressure [deg]."""

_SLOW_OIL = 0.5
"""Pinion speed at which thick and thin oil drag alike at the factory setting [rad/s]; invented."""


@dataclass(frozen=True, slots=True)
class SwingingDoor:
    """A leaf with its closer, its valves, and what acts on it."""

    width: float
    """[m]"""
    height: float
    """[m]"""
    mass: float
    """[kg]"""
    geometry: Geometry
    size: float
    """EN size the spring is set to, 1 to 7."""
    valves: Valves = field(default_factory=Valves)
    pressure: float = 0.0
    """Across the leaf [Pa]; above zero it holds the leaf shut, below zero it pushes the leaf open."""
    seal: float = 0.0
    """What the seal resists with when almost shut [N m]."""
    latch_force: float = 0.0
    """What the latch bolt resists with at the latch edge, going over the strike [N]."""
    hinge_drag: float = 0.0
    """Friction of the hinges [N m]."""
    ports: Ports = field(default_factory=Ports)
    thick: float = 0.0
    """0 to 1: the share of the oil's drag that grows with speed alone, as thick oil's does."""

    @property
    def inertia(self) -> float:
        """Of an even leaf about its hinge edge [kg m2]."""
        return self.mass * self.width**2 / 3

    @property
    def lever(self) -> float:
        """From the hinge axis to the handle [m]."""
        return self.width - BACKSET

    def air(self, deg: float) -> float:
        """The moment with which air pushes the leaf open [N m]."""
        return -self.pressure * self.width**2 * self.height / 2 / (1 + (deg / _AIR_FADES) ** 2)

    def seal_at(self, deg: float) -> float:
        """What the seal resists with at that opening [N m]."""
        return self.seal * max(0.0, 1 - deg / _SEAL_TO)

    def latch_at(self, deg: float) -> float:
        """What the latch bolt resists with at that opening [N m]."""
        edge = self.width * math.radians(deg)
        return self.latch_force * self.width if LATCH_FROM < edge < LATCH_TO else 0.0


class Closing(NamedTuple):
    """One closing, let go from rest."""

    s_90_12: float | None
    """From the start to 12 deg [s]; None if the leaf stopped before."""
    s_12_0: float | None
    """From 12 deg to shut [s]; None if it stopped."""
    latched: bool
    edge_speed: float
    """The latch edge's speed when shut [m/s]; 0 where it did not latch."""
    stopped_at: float
    """Where it stopped [deg]; 0 where it latched."""
    s_till_stop: float
    """From 12 deg until shut or stopped [s]; 0 where it stopped before 12 deg."""


class PushedOpening(NamedTuple):
    """One opening by a push at the handle."""

    peak: float
    """The widest opening [deg]."""
    seconds: float
    stop_speed: float
    """The leaf's speed at the stop [rad/s]; 0 where it did not reach it."""
    backcheck_speed: float
    """The leaf's speed where backcheck comes in [rad/s]; 0 where it did not get there."""


def close(
    door: SwingingDoor, start: float = 90.0, trace: list[tuple[float, float]] | None = None
) -> Closing:
    """Let the leaf go from rest at `start` [deg], above 0.

    Where the leaf was when is added to `trace`, as (seconds since it was let go, opening [deg]).
    """
    pieces = path(door.geometry, door.width, start)
    spring, inertia = spring_of(door.size), door.inertia
    sweep, latch, delay = door.valves.closing_drags()
    ports = door.ports
    speed, seconds, at_twelve = 0.0, 0.0, 0.0 if start <= TWELVE else None
    for piece in reversed(pieces):
        port = math.degrees(piece.turn) if ports.by_pinion else piece.middle
        bite = latch + (sweep - latch) * share(ports.latch, port)
        if delay:
            bite += delay * share(ports.delay, port)
        deg = piece.middle
        moment = (
            _spring_moment(spring, piece.turn, piece.ratio, -1.0)
            - door.hinge_drag
            - door.air(deg)
            - door.seal_at(deg)
            - door.latch_at(deg)
        )
        drag = bite * piece.ratio**3
        if door.thick:
            area = 10 / math.sqrt(bite)  # of the one valve that would throttle as all do together
            drag = _with_thick_oil(door.thick, drag, moment, speed, piece.ratio / area)
        length = math.radians(piece.high - piece.low)
        crossed = cross(speed, length, moment, drag, inertia)
        speed = crossed.speed
        seconds += crossed.seconds
        if trace is not None:
            trace.append((seconds, piece.high - math.degrees(crossed.covered)))
        if crossed.covered < length:
            stopped = piece.high - math.degrees(crossed.covered)
            till = 0.0 if at_twelve is None else seconds - at_twelve
            return Closing(at_twelve, None, False, 0.0, stopped, till)
        if at_twelve is None and piece.low <= TWELVE:
            at_twelve = seconds
    last = seconds - (at_twelve or 0.0)
    return Closing(at_twelve, last, True, speed * door.width, 0.0, last)


def push_open(
    door: SwingingDoor, force: float, until: float, stop: float = 125.0, most: float = 60.0
) -> PushedOpening:
    """Push at the handle with `force` [N] from shut to `until` [deg], then let it swing.

    `stop` is where it meets its stop or the wall [deg]; `most` gives up a push that lasts longer [s].
    """
    spring, inertia, ports = spring_of(door.size), door.inertia, door.ports
    back = door.valves.backcheck_drag()
    speed, seconds, entered = 0.0, 0.0, 0.0
    for piece in path(door.geometry, door.width, stop):
        port = math.degrees(piece.turn) if ports.by_pinion else piece.middle
        bite = FREE_DRAG + back * share(ports.back, port)
        moment = (
            (force * door.lever if piece.middle < until else 0.0)
            - _spring_moment(spring, piece.turn, piece.ratio, 1.0)
            - door.hinge_drag
            + door.air(piece.middle)
        )
        length = math.radians(piece.high - piece.low)
        if not entered and port >= ports.back[0]:
            entered = speed
        crossed = cross(speed, length, moment, bite * piece.ratio**3, inertia)
        speed = crossed.speed
        seconds += crossed.seconds
        if crossed.covered < length or seconds > most:
            return PushedOpening(piece.low + math.degrees(crossed.covered), seconds, 0.0, entered)
    return PushedOpening(stop, seconds, speed, entered)


def opening_force(door: SwingingDoor) -> float:
    """The steady push at the handle that opens the leaf, latch held back [N]; most of 2 to 90 deg."""
    spring = spring_of(door.size)
    most = max(
        _spring_moment(spring, turn, ratio, 1.0)
        - door.air(deg)
        + door.hinge_drag
        + door.seal_at(deg) / 2
        for deg, turn, ratio in stations(door.geometry)
    )
    return max(0.0, most) / door.lever


def _spring_moment(spring: Spring, turn: float, ratio: float, way: float) -> float:
    """At the leaf; friction works against the motion, `way` +1 opening and -1 closing."""
    ideal = spring.moment(turn) * ratio
    return ideal + way * spring.friction * abs(ideal)


def _with_thick_oil(
    thick: float, drag: float, moment: float, speed: float, pinion_over_area: float
) -> float:
    """The drag that, times the speed squared, equals both parts of the oil's drag.

    Taken at the mean of the speed it comes in with and the speed it tends to.
    """
    thin = drag * (1 - thick)
    slow = drag * thick * _SLOW_OIL / pinion_over_area
    if moment <= 0:
        return thin + slow / max(speed, 1e-3)
    tends = (
        (math.sqrt(slow * slow + 4 * thin * moment) - slow) / (2 * thin) if thin else moment / slow
    )
    return thin + slow / ((speed + tends) / 2)
