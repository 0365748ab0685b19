"""What door this may be: many doors that could have given these tests, each with its likelihood.

Doors are drawn at random, weighed by every test, and drawn anew round the likely ones as tests leave few of
them. They are drawn from a fixed seed: the same tests give the same advice.
"""

import math
import random
from dataclasses import dataclass, field
from typing import NamedTuple

from guide.trade.swing.model import SLAM_SPEED
from guide.trade.tuning.drawn_doors import FORCE_ERROR, May, Measured, drawn, moved, spread_of
from guide.trade.tuning.last_degrees import Shut, force_with
from guide.trade.tuning.nominal_door import Leaf
from guide.trade.tuning.readings import Reading

DRAWN, KEPT = 700, 200
"""Doors drawn at first, and kept when they are drawn anew."""

FEW = 60.0
"""Doors that count, below which they are drawn anew."""

PLANNED = 50
"""Doors a plan is made on."""

UNHEARD = 0.01
"""Likelihood of an outcome that the model does not give."""

_SLAM_BLUR = 0.012
"""How sharply a slam is told from none [m/s]."""

_TIME_ERROR = 0.12
"""How far the model's time for the last 12 deg may be out, as a share."""

_LEAST_LOG = -30.0
"""Nothing counts for less, so that one test cannot rule all doors out."""

_FORGOTTEN = 9.0
"""Doors less likely than the likeliest by this logarithm are left out."""

_MOVES = 2
"""How often a door is moved when doors are drawn anew."""


class Chance(NamedTuple):
    """Of one setting."""

    latches: float
    """Chance that it latches, let go from near by as well."""
    slams: float


class Goes(NamedTuple):
    """Of one spring setting."""

    mean: float
    """Goes to expect."""
    never: float
    """Chance that no place of the latch valve within reach will do."""


@dataclass(frozen=True, slots=True)
class _Test:
    size: float
    at: float
    """Where the latch valve stood [turns since the start]."""
    reading: Reading
    watch: float
    """Error of the stopwatch [s]."""


@dataclass(slots=True)
class Likely:
    """All doors that may be before us."""

    leaf: Leaf
    part_way: bool | None = None
    """Whether a test is known to let the leaf go from part way; None where nobody said."""
    _tests: list[_Test] = field(default_factory=list)
    _counted: int = 0
    """How many of the tests the likelihoods below hold."""
    _doors: list[tuple[float, May]] = field(default_factory=list)
    """Logarithm of the likelihood, and the door."""
    _rng: random.Random = field(default_factory=lambda: random.Random("likely doors"))

    def add(self, size: float, at: float, reading: Reading, watch: float) -> None:
        """A test with the spring at `size`, the latch valve at `at` and a stopwatch off by `watch` [s].

        Nothing is reckoned until something is asked: most doors never need it.
        """
        self._tests.append(_Test(size, at, reading, watch))

    def chance(self, size: float, at: float) -> Chance:
        """What to expect with the spring at `size` and the latch valve at `at`."""
        sure = slams = 0.0
        for weight, may in self._weighed():
            shut = may.shut(size, at)
            sure += weight * shut.near
            slams += weight * _chance_of_slam(shut)
        return Chance(sure, slams)

    def goes(self, size: float, at: float, step: float, most: int) -> Goes:
        """Turning the latch valve by `step` at one go, one way or the other, until it latches gently."""
        goes = never = 0.0
        for weight, may in _thinned(self._weighed()):
            count = _goes_of(may, size, at, step, most)
            goes += weight * (most if count is None else count)
            never += weight * (count is None)
        return Goes(goes, never)

    def _weighed(self) -> list[tuple[float, May]]:
        """Weight, of 1 in all, and door, after all tests."""
        if not self._doors:
            mays = drawn(DRAWN, self.leaf, self._measured(), self.part_way, self._rng)
            self._doors = [(0.0, may) for may in mays]
        while self._counted < len(self._tests):
            test = self._tests[self._counted]
            # The doors were drawn to suit the first force, which thus counts already.
            counts_force = self._counted != self._first_force()
            self._doors = [
                (log + _log(may, test, counts_force=counts_force), may) for log, may in self._doors
            ]
            self._counted += 1
            weighed = _weights(self._doors)
            if 1 / sum(weight * weight for weight, _ in weighed) < FEW:
                self._draw_anew(weighed)
        return _weights(self._doors)

    def _first_force(self) -> int | None:
        found = (
            number for number, test in enumerate(self._tests) if test.reading.force is not None
        )
        return next(found, None)

    def _measured(self) -> Measured | None:
        first = self._first_force()
        if first is None:
            return None
        test = self._tests[first]
        assert test.reading.force is not None
        return Measured(test.size, test.reading.force)

    def _draw_anew(self, weighed: list[tuple[float, May]]) -> None:
        """Draw doors by their weight, each moved a little where the tests allow (Metropolis)."""
        weights, mays = zip(*weighed, strict=True)
        chosen = self._rng.choices(mays, weights, k=KEPT)
        spread = spread_of(chosen)
        self._doors = [(0.0, self._settled(may, spread)) for may in chosen]

    def _settled(self, may: May, spread: tuple[float, ...]) -> May:
        here = self._log_all(may)
        for _ in range(_MOVES):
            other = moved(may, spread, self._rng)
            if other is not None:
                there = self._log_all(other)
                if self._rng.random() < math.exp(min(0.0, there - here)):
                    may, here = other, there
        return may

    def _log_all(self, may: May) -> float:
        tests = self._tests[: self._counted]
        return may.log_met() + sum(_log(may, test, counts_force=True) for test in tests)


def _log(may: May, test: _Test, *, counts_force: bool) -> float:
    """Logarithm of the likelihood of a test on that door."""
    reading, log = test.reading, 0.0
    if reading.force is not None and counts_force:
        expected = force_with(may.leaf, test.size, may.acts)
        log -= ((reading.force - expected) / (FORCE_ERROR * expected + 0.1)) ** 2 / 2
    shut = may.shut(test.size, test.at)
    log += math.log(max(UNHEARD, _chance_of(may, shut, reading)))
    if reading.s_12_0 is not None and shut.latches:
        error = test.watch**2 + (_TIME_ERROR * shut.seconds) ** 2
        log -= (reading.s_12_0 - shut.seconds) ** 2 / error / 2 + math.log(error) / 2
    return max(log, _LEAST_LOG)


def _chance_of(may: May, shut: Shut, reading: Reading) -> float:
    """Chance of what was seen, on a door that shuts so."""
    if reading.latched != (shut.near if may.part_way else shut.latches):
        return 0.0
    if not reading.latched and reading.s_12_0 is not None and not shut.latches:
        return 0.0
    slams = _chance_of_slam(shut)
    return slams if reading.slammed else 1 - slams


def _chance_of_slam(shut: Shut) -> float:
    return 1 / (1 + math.exp(-(shut.edge - SLAM_SPEED) / _SLAM_BLUR))


def _goes_of(may: May, size: float, at: float, step: float, most: int) -> int | None:
    for count in range(most + 1):
        for place in (at + count * step, at - count * step):
            shut = may.shut(size, place)
            if shut.near and shut.edge <= SLAM_SPEED:
                return count
    return None


def _thinned(doors: list[tuple[float, May]]) -> list[tuple[float, May]]:
    """`PLANNED` of them, those of more weight more often."""
    chosen: list[tuple[float, May]] = []
    passed, taken = 0.0, 0
    for weight, may in doors:
        passed += weight
        count = round(passed * PLANNED) - taken
        if count:
            chosen.append((count / PLANNED, may))
            taken += count
    return chosen


def _weights(doors: list[tuple[float, May]]) -> list[tuple[float, May]]:
    best = max(log for log, _ in doors)
    raw = [(math.exp(log - best), may) for log, may in doors if log > best - _FORGOTTEN]
    whole = sum(weight for weight, _ in raw)
    return [(weight / whole, may) for weight, may in raw]
