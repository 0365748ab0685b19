"""The last degrees of a closing, as a sum over what acts on the leaf.

On each piece of the swing the square of the speed follows a straight-line equation, so for one latch
valve it is a sum: so much for the spring, less so much for each newton metre of hinge drag, each pascal,
each newton metre of seal and each newton of latch. Those shares are calculated once for a valve and serve
every door of the particle filter (`possible_doors`).

With w the speed of the leaf [rad/s], s the angle [rad], I the inertia, M the moment and c the drag of one piece:

    I w dw/ds = M - c w²    =>    w²(end) = w²(start) e^(-2cs/I) + (M / c) (1 - e^(-2cs/I))

which is linear in M, and M = spring - hinge - air - seal - latch (`swing.path`).
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from guide.trade.arm.spring import spring_of
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import BACKSET, SwingingDoor
from guide.trade.swing.path import LATCH_TO, Piece, path, stations
from guide.trade.tuning.nominal_door import NEAR, NominalLeaf, leaf_mass

_WIDE = 16.0
"""Where a wide swing is assumed to be steady, on the latch valve alone [deg]."""

_LOOKS = (12.0, 9.0, 6.5, 4.5, 3.0, 2.0, 1.4)
"""Where the speed is looked at on the way [deg]; then at each piece of the latch's drag, and shut."""

_GRID = 0.05
"""Step of the logarithm of the latch valve's open area within which areas count as equal."""

_FINE_FROM = 5.0
"""Below this the swing is cut into pieces of half a degree, above into whole ones [deg]."""

_HAIR = 1e-6
"""[deg]"""

_SLOWEST = 1e-4
"""Square of a speed taken for none [(rad/s)^2]."""


class Loads(NamedTuple):
    """What acts on a leaf that closes, besides its spring and oil."""

    hinge: float
    """[N m]"""
    air: float
    """[Pa]; above zero it pushes the leaf open."""
    seal: float
    """[N m]"""
    latch: float
    """[N]"""


class ClosingEnd(NamedTuple):
    """How the last degrees go."""

    latches: bool
    near: bool
    """Whether it latches let go from `NEAR` and from 90 deg."""
    seconds: float
    """For the last 12 deg [s], until shut or stopped."""
    edge: float
    """The latch edge's speed, let go from 90 deg [m/s]; 0 where it stops."""


SpeedPoint = tuple[float, float, float, float, float, float]
"""Angle since the point before [rad], then square of the speed: by the spring, and what each load takes off."""


@dataclass(frozen=True, slots=True)
class LastDegrees:
    """One leaf on one mount at one size with one opening of the latch valve."""

    width: float
    wide: tuple[SpeedPoint, ...]
    near: tuple[SpeedPoint, ...]

    def shut(self, acts: Loads) -> ClosingEnd:
        """How it closes under these loads."""
        hinge, air, seal, latch = acts
        before, seconds = -1.0, 0.0
        for way, spring, a, b, c, d in self.wide:
            square = spring - hinge * a - air * b - seal * c - latch * d
            if square < _SLOWEST:
                return ClosingEnd(latches=False, near=False, seconds=seconds, edge=0.0)
            speed = math.sqrt(square)
            if before > 0:
                seconds += 2 * way / (speed + before)
            before = speed
        return ClosingEnd(True, self.shuts_from_near(acts), seconds, before * self.width)

    def shuts_from_near(self, acts: Loads) -> bool:
        """Whether it latches, let go from `NEAR`."""
        hinge, air, seal, latch = acts
        for _, spring, a, b, c, d in self.near:
            if spring - hinge * a - air * b - seal * c - latch * d < _SLOWEST:
                return False
        return True


def last_degrees(leaf: NominalLeaf, size: float, area: float) -> LastDegrees:
    """With the latch valve open by `area`, 1 as it leaves the works."""
    return _worked_out(leaf, size, round(math.log(area) / _GRID))


@lru_cache(maxsize=8192)
def _worked_out(leaf: NominalLeaf, size: float, step: int) -> LastDegrees:
    drag = 80 / math.exp(2 * step * _GRID)
    return LastDegrees(
        leaf.width,
        _looks(leaf, size, drag, _WIDE, steady=True),
        _looks(leaf, size, drag, NEAR, steady=False),
    )


class _Stretch(NamedTuple):
    """Some pieces of the swing taken as one; the moments at their mean."""

    look: bool
    """Whether the speed is looked at where it ends."""
    way: float
    """[rad]"""
    cubed: float
    """Of the ratio."""
    spring: float
    """Its moment at the leaf [N m]."""
    air: float
    """Of one pascal [N m]."""
    seal: float
    """Of one newton metre when shut [N m]."""
    latch: float
    """Of one newton at the edge [N m]."""


@lru_cache(maxsize=64)
def _stretches(leaf: NominalLeaf, size: float, top: float) -> tuple[_Stretch, ...]:
    """From `top` to shut."""
    door = _unit_door(leaf, size)
    spring = spring_of(size)
    bolt = math.degrees(LATCH_TO / door.width)
    groups: list[list[Piece]] = [[]]
    for piece in reversed(path(door.geometry, door.width, top)):
        groups[-1].append(piece)
        wide = groups[-1][0].high - piece.low
        looked_at = any(abs(piece.low - look) < _HAIR for look in _LOOKS)
        if (
            looked_at
            or wide > (1 - _HAIR if piece.low > _FINE_FROM else 0.5 - _HAIR)
            or piece.low < bolt + 0.1
        ):
            groups.append([])
    found = []
    for pieces in filter(None, groups):
        whole = pieces[0].high - pieces[-1].low

        def mean(
            of: Callable[[Piece], float], pieces: list[Piece] = pieces, whole: float = whole
        ) -> float:
            return sum(of(one) * (one.high - one.low) for one in pieces) / whole

        found.append(
            _Stretch(
                look=_is_look(pieces[-1].low, bolt),
                way=math.radians(whole),
                cubed=mean(lambda one: one.ratio**3),
                spring=mean(lambda one: spring.moment(one.turn) * one.ratio)
                * (1 - spring.friction),
                air=mean(lambda one: door.air(one.middle)),
                seal=mean(lambda one: door.seal_at(one.middle)),
                latch=mean(lambda one: door.latch_at(one.middle)),
            )
        )
    return tuple(found)


def _is_look(deg: float, bolt: float) -> bool:
    return deg < bolt + _HAIR or any(abs(deg - look) < _HAIR for look in _LOOKS)


def _looks(
    leaf: NominalLeaf, size: float, drag: float, top: float, *, steady: bool
) -> tuple[SpeedPoint, ...]:
    stretches = _stretches(leaf, size, top)
    inertia = leaf_mass(leaf) * leaf.width**2 / 3
    share = 1 / (drag * stretches[0].cubed) if steady else 0.0
    spring, hinge = share * stretches[0].spring, share
    air, seal, latch = share * stretches[0].air, share * stretches[0].seal, 0.0
    looks: list[SpeedPoint] = []
    way = 0.0
    for one in stretches:
        bite = drag * one.cubed
        left = math.exp(-2 * bite * one.way / inertia)
        gain = (1 - left) / bite
        spring = spring * left + gain * one.spring
        hinge = hinge * left + gain
        air = air * left + gain * one.air
        seal = seal * left + gain * one.seal
        latch = latch * left + gain * one.latch
        way += one.way
        if one.look:
            looks.append((way, spring, hinge, air, seal, latch))
            way = 0.0
    return tuple(looks)


def _unit_door(leaf: NominalLeaf, size: float) -> SwingingDoor:
    """With one unit of each load."""
    geometry = usual_geometry(leaf.mount)
    return SwingingDoor(
        leaf.width, leaf.height, 1.0, geometry, size, pressure=-1.0, seal=1.0, latch_force=1.0
    )


_HEAVIEST = (2, 3, 4, 5, 6, 8, 12, 30, 60, 90)
"""Where the push that opens a leaf is looked at [deg]."""


@lru_cache(maxsize=512)
def _opening(leaf: NominalLeaf, size: float) -> tuple[tuple[float, float, float], ...]:
    """(moment of the spring, of one pascal, of 1 N m of seal) where the push may be greatest."""
    door = _unit_door(leaf, size)
    spring = spring_of(size)
    found = []
    for deg, turn, ratio in stations(door.geometry):
        if deg in _HEAVIEST:
            moment = spring.moment(turn) * ratio * (1 + spring.friction)
            found.append((moment, door.air(deg), door.seal_at(deg) / 2))
    return tuple(found)


def force_with(leaf: NominalLeaf, size: float, acts: Loads) -> float:
    """The push at the handle that opens the leaf under these loads [N]."""
    hinge, air, seal, _ = acts
    most = max([spring - air * a + seal * s for spring, a, s in _opening(leaf, size)])
    return max(0.0, most + hinge) / (leaf.width - BACKSET)


def air_by_force(leaf: NominalLeaf, size: float, force: float, hinge: float, seal: float) -> float:
    """The air of `Loads` with which it takes `force` [N] to open [Pa]; `hinge` and `seal` as there."""
    moment = force * (leaf.width - BACKSET) - hinge
    return max([(spring + seal * s - moment) / a for spring, a, s in _opening(leaf, size)])
