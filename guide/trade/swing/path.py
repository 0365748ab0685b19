"""The swing cut into short pieces, on each of which moment and drag are taken as constant.

On such a piece the square of the leaf's speed w follows a linear equation in the angle s, so speed and time are exact
(exponential integrator) from rest, to a stop, or fast:

    I w dw/ds = M - c w²    =>    w² = M/c + (w0² - M/c) e^(-2 c s / I)

and the time is the integral of ds / w: a logarithm for M above zero, arctan below.
"""

import math
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from guide.trade.arm.geometry import Arm, Geometry

LATCH_FROM, LATCH_TO = 0.002, 0.012
"""How far the latch edge is from shut while the latch bolt drags on the strike [m]; invented."""

TWELVE = 12.0
"""Where the sweep ends for the stopwatch [deg], 2010 ADA Standards 404.2.8.1."""

_FINE_TO = 5.0
_FINE, _COARSE = 0.1, 0.5
"""Longest piece below and above `_FINE_TO` [deg]."""


class Piece(NamedTuple):
    """One piece of the swing. The last three are those at its middle."""

    low: float
    """[deg]"""
    high: float
    """[deg]"""
    middle: float
    """[deg]"""
    turn: float
    """The pinion's turn [rad]."""
    ratio: float
    """Degrees of the pinion for a degree of the leaf."""


@lru_cache(maxsize=256)
def path(geometry: Geometry, width: float, top: float) -> tuple[Piece, ...]:
    """The pieces from the closed door to `top` [deg], or to the arm's lock; `width` in m."""
    marks = {0.0, top, TWELVE, math.degrees(LATCH_FROM / width), math.degrees(LATCH_TO / width)}
    marks |= {step * _FINE for step in range(round(_FINE_TO / _FINE))}
    marks |= {_FINE_TO + step * _COARSE for step in range(int((top - _FINE_TO) / _COARSE) + 1)}
    ends = sorted(mark for mark in marks if mark <= top)
    pieces = [(low, high) for low, high in pairwise(ends) if high - low > 1e-9]
    lock = Arm(geometry).lock()
    last = math.inf if lock is None else lock.deg
    middles = [(low + high) / 2 for low, high in pieces if high < last]
    solved = Arm(geometry).turns(middles)
    return tuple(
        Piece(low, high, deg, turn, ratio)
        for (low, high), (deg, turn, ratio) in zip(pieces, solved, strict=False)
    )


@lru_cache(maxsize=64)
def stations(geometry: Geometry) -> tuple[tuple[float, float, float], ...]:
    """(opening [deg], turn of the pinion [rad], ratio) every half degree from 2 to 90 deg."""
    return tuple(Arm(geometry).turns(step / 2 for step in range(4, 181)))


class Crossing(NamedTuple):
    """How one piece was crossed."""

    speed: float
    """At its end [rad/s]; 0 where the leaf stopped inside it."""
    seconds: float
    covered: float
    """[rad]; less than the piece where the leaf stopped inside it."""


def cross(speed: float, length: float, moment: float, drag: float, inertia: float) -> Crossing:
    """Cross `length` [rad], coming in at `speed` [rad/s].

    `moment` [N m] pushes on where it is above zero; `drag` [N m/(rad/s)^2] is above zero. Solves
    inertia w dw/ds = moment - drag w^2.
    """
    if speed == 0 and moment <= 0:
        return Crossing(0.0, 0.0, 0.0)
    rate = 2 * drag / inertia
    square, steady = speed * speed, moment / drag
    after = steady + (square - steady) * math.exp(-rate * length)
    if after > 0:
        end = math.sqrt(after)
        return Crossing(end, _seconds(speed, end, length, steady, rate), length)
    covered = math.log1p(-square / steady) / rate
    return Crossing(0.0, _seconds(speed, 0.0, covered, steady, rate), covered)


def _seconds(start: float, end: float, length: float, steady: float, rate: float) -> float:
    """Time over a piece; `steady` is the square of the speed it tends to, below zero if to a stop."""
    if abs(steady) <= 1e-8 * start * start:
        return 2 * (1 / end - 1 / start) / rate if end > 0 else 2 * length / start
    tends = math.sqrt(abs(steady))
    if steady > 0:
        return (length + 2 / rate * math.log((tends + end) / (tends + start))) / tends
    return 2 / rate * (math.atan(start / tends) - math.atan(end / tends)) / tends
