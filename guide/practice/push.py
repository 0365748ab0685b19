"""A brisk push at a practice door: how a hand finds what the backcheck does.

The mean deceleration of the latch edge from the backcheck's begin to the widest opening is a = v² / (2 s).

Like every number of the model, how hard a push is brisk and what feels like a wall are ours.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

from guide.trade.swing.model import SLAM_SPEED, PushedOpening, SwingingDoor, push_open
from guide.trade.swing.path import path

PUSH, UNTIL = 60.0, 60.0
"""The push at the handle [N], and how far it goes along with the leaf [deg]."""

WALL = 9.0
"""A latch edge braked harder than this feels like a wall [m/s2], about as a dropped tool falls."""

HARD, SOFT, RIGHT, SHORT = "hard", "soft", "right", "short"
"""Like a wall; into its stop with a bang; cushioned; and a leaf that turned back before its backcheck."""

_STEP = 2.0
"""The leaf is followed in steps of so much [deg]."""


@dataclass(frozen=True, slots=True)
class PushResult:
    """One push, from shut to where the leaf came to rest or met its stop."""

    opening: PushedOpening
    begins: float
    """Where the backcheck begins on this arm [deg]."""
    feels: str
    """HARD, SOFT, RIGHT or SHORT."""
    stopped: bool
    """Whether it came as far as its stop."""
    trace: tuple[tuple[float, float], ...]
    """(seconds since the push began, opening [deg])."""

    @property
    def seconds(self) -> float:
        """Until it is at its widest."""
        return self.trace[-1][0]

    def angle(self, seconds: float) -> float:
        """How far the leaf is open so long after the push began [deg]."""
        for before, after in pairwise(self.trace):
            if after[0] > seconds:
                share = (seconds - before[0]) / (after[0] - before[0])
                return before[1] + share * (after[1] - before[1])
        return self.trace[-1][1]


def push(door: SwingingDoor, opens_to: float) -> PushResult:
    """Push the leaf briskly and let it fly to its stop at `opens_to` [deg]."""
    opening, begins, feels = _flight(door, opens_to)
    marks = [_STEP * step for step in range(1, math.ceil(opening.peak / _STEP))]
    times = [push_open(door, PUSH, UNTIL, deg).seconds for deg in marks]
    trace = ((0.0, 0.0), *zip(times, marks, strict=True), (opening.seconds, opening.peak))
    return PushResult(opening, begins, feels, opening.peak >= opens_to, trace)


def feels_of(door: SwingingDoor, opens_to: float) -> str:
    """How its backcheck feels, without following the leaf."""
    return _flight(door, opens_to)[2]


def _flight(door: SwingingDoor, opens_to: float) -> tuple[PushedOpening, float, str]:
    opening = push_open(door, PUSH, UNTIL, opens_to)
    begins = _begins(door, opens_to)
    return opening, begins, _feels(door, opening, begins)


def _begins(door: SwingingDoor, opens_to: float) -> float:
    """The opening angle at which the backcheck's port begins [deg]; `opens_to` if it never does."""
    for piece in path(door.geometry, door.width, opens_to):
        if (math.degrees(piece.turn) if door.ports.by_pinion else piece.middle) >= door.ports.back[
            0
        ]:
            return piece.low
    return opens_to


def _feels(door: SwingingDoor, opening: PushedOpening, begins: float) -> str:
    if opening.stop_speed * door.width > SLAM_SPEED:
        return SOFT
    way = door.width * math.radians(opening.peak - begins)
    if way <= 0:
        return SHORT
    speed = opening.backcheck_speed * door.width
    return HARD if speed**2 / (2 * way) > WALL else RIGHT
