"""Where a door latched, slammed or failed to latch in its tests, and how much of its speed it keeps from near by.

A leaf let go from 90 degrees may latch by its speed alone, and stop short if let go from 10 degrees. From rest, under
the moment M, it reaches after s [rad] the share sqrt(1 - e^(-2 M s / (I w²))) of the steady speed w (`swing.path`).
"""

import math
from dataclasses import dataclass, field

from guide.trade.swing.model import BACKSET
from guide.trade.swing.path import TWELVE
from guide.trade.tuning.nominal_door import LATCH_AT, NEAR, Nominal, NominalLeaf
from guide.trade.tuning.readings import SwingReading
from guide.trade.tuning.valve_times import ValveEstimate

_LAST = math.radians(TWELVE)
_RUN_UP = math.radians(NEAR - LATCH_AT)

_WEAKEST = 0.1
"""Share of the ordinary door's closing moment that is assumed to be left, whatever the force."""

_HAIR = 0.01
"""[turns]"""

Place = tuple[float, float]
"""EN size of the spring, and turns of the latch valve since the start."""


@dataclass(slots=True)
class Latching:
    """All tests of one door so far."""

    failed: list[Place] = field(default_factory=list)
    passed: list[Place] = field(default_factory=list)
    slammed: list[Place] = field(default_factory=list)
    part_way: bool = False
    """Whether a test is known to let the leaf go from part way too: one did not latch, with the wide
    swing timed until shut."""

    def add(self, size: float, at: float, reading: SwingReading) -> None:
        """A test with the spring at `size` and the latch valve at `at` [turns]."""
        (self.passed if reading.latched else self.failed).append((size, at))
        if reading.slammed:
            self.slammed.append((size, at))
        if not reading.latched and reading.s_12_0 is not None:
            self.part_way = True

    def failures(self, size: float) -> int:
        """How often it failed to latch at that spring."""
        return len(_of(size, self.failed))

    def fails_at(self, size: float, at: float) -> bool:
        """Whether it is known not to latch there."""
        return any(at <= seen + _HAIR for seen in _of(size, self.failed))

    def slams_at(self, size: float, at: float) -> bool:
        """Whether it is known to slam there."""
        return any(at >= seen - _HAIR for seen in _of(size, self.slammed))

    def slams_again(self, size: float) -> bool:
        """Whether it slammed more than once at that spring."""
        return len(_of(size, self.slammed)) > 1

    def was_gentle(self, size: float, low: float, high: float) -> bool:
        """Whether it latched without a slam somewhere above `low` and below `high` [turns]."""
        gentle = set(_of(size, self.passed)) - set(_of(size, self.slammed))
        return any(low < seen < high for seen in gentle)

    def stops_if_slower(self, size: float, law: ValveEstimate, last: float) -> bool:
        """Whether it failed at a time not far above `last` [s]: seal and latch take most of its speed."""
        return any(law.seconds(seen) < 1.7 * last for seen in _of(size, self.failed))

    @property
    def never_failed(self) -> bool:
        """Whether it latched in every test."""
        return not self.failed


def _of(size: float, places: list[Place]) -> list[float]:
    return [at for seen, at in places if seen == size]


def share_from_near(leaf: NominalLeaf, usual: Nominal, force: float | None, last: float) -> float:
    """Speed at the latch of a leaf let go from 10 deg, as a share of its speed from 90 deg.

    `last` is what the last 12 deg take from 90 deg [s]. What the `force` to open it [N] lacks of the
    ordinary door's is air that pushes it open, and the closing moment lacks as much.
    """
    lacks = 0.0 if force is None else (usual.force - force) * (leaf.width - BACKSET)
    moment = max(_WEAKEST * usual.closing, usual.closing - lacks)
    steady = _LAST / last
    return math.sqrt(1 - math.exp(-2 * _RUN_UP * moment / (usual.inertia * steady**2)))
