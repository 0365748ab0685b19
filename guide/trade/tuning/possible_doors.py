"""The doors this may be, by a particle filter: many possible doors, each weighted by the likelihood of the tests.

    log w = sum over the tests of log p(test | door);    effective sample size = 1 / (sum of w²), w adding up to 1

The particles are drawn from a prior (`door_prior`). If their effective sample size falls below `FEW`, they are
resampled by weight and each is moved by Metropolis steps, a proposal accepted with chance min(1, p(new) / p(old)), so
that they do not all become one door. The seed is fixed: the same tests give the same advice.
"""

import math
import random
from dataclasses import dataclass, field
from typing import NamedTuple

from guide.trade.swing.model import SLAM_SPEED
from guide.trade.tuning.door_prior import (
    FORCE_ERROR,
    MeasuredForce,
    PossibleDoor,
    draw_doors,
    jittered,
    spread_of,
)
from guide.trade.tuning.last_degrees import ClosingEnd, force_with
from guide.trade.tuning.nominal_door import NominalLeaf
from guide.trade.tuning.readings import SwingReading

PARTICLES, KEPT = 700, 200
"""Particles drawn at first, and after resampling."""

FEW = 60.0
"""Effective sample size below which the particles are resampled."""

PLANNED = 50
"""Doors a plan is made on."""

UNHEARD = 0.01
"""Likelihood of an outcome that the model does not give."""

_SLAM_BLUR = 0.012
"""Scale of the logistic function between slam and no slam [m/s]."""

_TIME_ERROR = 0.12
"""How far the model's time for the last 12 deg may be out, as a share."""

_LEAST_LOG = -30.0
"""Nothing counts for less, so that one test cannot rule all doors out."""

_FORGOTTEN = 9.0
"""Doors less likely than the likeliest by this logarithm are left out."""

_MOVES = 2
"""Metropolis steps for each particle after resampling."""


class Chance(NamedTuple):
    """Of one setting."""

    latches: float
    """Chance that it latches, let go from near by as well."""
    slams: float


class Goes(NamedTuple):
    """Of one spring setting."""

    mean: float
    """Number of adjustments to expect."""
    never: float
    """Chance that no place of the latch valve within reach will do."""


@dataclass(frozen=True, slots=True)
class _Observation:
    size: float
    at: float
    """Where the latch valve stood [turns since the start]."""
    reading: SwingReading
    watch: float
    """Error of the stopwatch [s]."""


@dataclass(slots=True)
class PossibleDoors:
    """The particle filter: all doors that the one being tuned may be."""

    leaf: NominalLeaf
    part_way: bool | None = None
    """Whether a test is known to let the leaf go from part way; None if nobody said."""
    _tests: list[_Observation] = field(default_factory=list)
    _counted: int = 0
    """How many of the tests are in the likelihoods below."""
    _doors: list[tuple[float, PossibleDoor]] = field(default_factory=list)
    """Logarithm of the likelihood, and the door."""
    _rng: random.Random = field(default_factory=lambda: random.Random("likely doors"))

    def add(self, size: float, at: float, reading: SwingReading, watch: float) -> None:
        """A test with the spring at `size`, the latch valve at `at` and a stopwatch off by `watch` [s].

        Nothing is calculated before a chance is needed: most doors never need one.
        """
        self._tests.append(_Observation(size, at, reading, watch))

    def chance(self, size: float, at: float) -> Chance:
        """What to expect with the spring at `size` and the latch valve at `at`."""
        sure = slams = 0.0
        for weight, door in self._weighed():
            shut = door.shut(size, at)
            sure += weight * shut.near
            slams += weight * _chance_of_slam(shut)
        return Chance(sure, slams)

    def goes(self, size: float, at: float, step: float, most: int) -> Goes:
        """Turning the latch valve by `step` at one go, one way or the other, until it latches gently."""
        goes = never = 0.0
        for weight, door in _thinned(self._weighed()):
            count = _goes_of(door, size, at, step, most)
            goes += weight * (most if count is None else count)
            never += weight * (count is None)
        return Goes(goes, never)

    def _weighed(self) -> list[tuple[float, PossibleDoor]]:
        """Weight, of 1 in all, and door, after all tests."""
        if not self._doors:
            doors = draw_doors(PARTICLES, self.leaf, self._measured(), self.part_way, self._rng)
            self._doors = [(0.0, door) for door in doors]
        while self._counted < len(self._tests):
            test = self._tests[self._counted]
            # The prior is conditioned on the first force, which thus counts already.
            counts_force = self._counted != self._first_force()
            self._doors = [
                (log + _log(door, test, counts_force=counts_force), door)
                for log, door in self._doors
            ]
            self._counted += 1
            weighed = _weights(self._doors)
            if 1 / sum(weight * weight for weight, _ in weighed) < FEW:
                self._resample(weighed)
        return _weights(self._doors)

    def _first_force(self) -> int | None:
        found = (
            number for number, test in enumerate(self._tests) if test.reading.force is not None
        )
        return next(found, None)

    def _measured(self) -> MeasuredForce | None:
        first = self._first_force()
        if first is None:
            return None
        test = self._tests[first]
        assert test.reading.force is not None
        return MeasuredForce(test.size, test.reading.force)

    def _resample(self, weighed: list[tuple[float, PossibleDoor]]) -> None:
        """Resample by weight, then move each door by Metropolis steps."""
        weights, doors = zip(*weighed, strict=True)
        chosen = self._rng.choices(doors, weights, k=KEPT)
        spread = spread_of(chosen)
        self._doors = [(0.0, self._metropolis(door, spread)) for door in chosen]

    def _metropolis(self, door: PossibleDoor, spread: tuple[float, ...]) -> PossibleDoor:
        """The door after `_MOVES` steps of random-walk Metropolis sampling."""
        here = self._log_all(door)
        for _ in range(_MOVES):
            other = jittered(door, spread, self._rng)
            if other is not None:
                there = self._log_all(other)
                if self._rng.random() < math.exp(min(0.0, there - here)):
                    door, here = other, there
        return door

    def _log_all(self, door: PossibleDoor) -> float:
        tests = self._tests[: self._counted]
        return door.log_met() + sum(_log(door, test, counts_force=True) for test in tests)


def _log(door: PossibleDoor, test: _Observation, *, counts_force: bool) -> float:
    """Logarithm of the likelihood of a test on that door."""
    reading, log = test.reading, 0.0
    if reading.force is not None and counts_force:
        expected = force_with(door.leaf, test.size, door.acts)
        log -= ((reading.force - expected) / (FORCE_ERROR * expected + 0.1)) ** 2 / 2
    shut = door.shut(test.size, test.at)
    log += math.log(max(UNHEARD, _chance_of(door, shut, reading)))
    if reading.s_12_0 is not None and shut.latches:
        error = test.watch**2 + (_TIME_ERROR * shut.seconds) ** 2
        log -= (reading.s_12_0 - shut.seconds) ** 2 / error / 2 + math.log(error) / 2
    return max(log, _LEAST_LOG)


def _chance_of(door: PossibleDoor, shut: ClosingEnd, reading: SwingReading) -> float:
    """Chance of what was seen, on a door that shuts so."""
    if reading.latched != (shut.near if door.part_way else shut.latches):
        return 0.0
    if not reading.latched and reading.s_12_0 is not None and not shut.latches:
        return 0.0
    slams = _chance_of_slam(shut)
    return slams if reading.slammed else 1 - slams


def _chance_of_slam(shut: ClosingEnd) -> float:
    return 1 / (1 + math.exp(-(shut.edge - SLAM_SPEED) / _SLAM_BLUR))


def _goes_of(door: PossibleDoor, size: float, at: float, step: float, most: int) -> int | None:
    for count in range(most + 1):
        for place in (at + count * step, at - count * step):
            shut = door.shut(size, place)
            if shut.near and shut.edge <= SLAM_SPEED:
                return count
    return None


def _thinned(doors: list[tuple[float, PossibleDoor]]) -> list[tuple[float, PossibleDoor]]:
    """`PLANNED` of them, those of more weight more often."""
    chosen: list[tuple[float, PossibleDoor]] = []
    passed, taken = 0.0, 0
    for weight, door in doors:
        passed += weight
        count = round(passed * PLANNED) - taken
        if count:
            chosen.append((count / PLANNED, door))
            taken += count
    return chosen


def _weights(doors: list[tuple[float, PossibleDoor]]) -> list[tuple[float, PossibleDoor]]:
    best = max(log for log, _ in doors)
    raw = [(math.exp(log - best), door) for log, door in doors if log > best - _FORGOTTEN]
    whole = sum(weight for weight, _ in raw)
    return [(weight / whole, door) for weight, door in raw]
