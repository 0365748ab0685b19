"""Where a door latched, slammed or failed to latch in its tests.

More spring, and a latch valve further open, bring a leaf home faster: a failure speaks for every weaker and further
closed setting, and a slam for every stronger and further open one.
"""

import math
from dataclasses import dataclass, field

from guide.trade.tuning.readings import SwingReading

Place = tuple[float, float]
"""EN size of the spring, and turns of the latch valve since the start, in eighths and so exact; opening counts up."""


@dataclass(slots=True)
class Latching:
    """All tests of one door so far."""

    failed: list[Place] = field(default_factory=list)
    gentle: list[Place] = field(default_factory=list)
    """Latched without a slam."""
    slammed: list[Place] = field(default_factory=list)

    def add(self, size: float, at: float, reading: SwingReading) -> None:
        """A test with the spring at `size` and the latch valve at `at` [turns]."""
        if not reading.latched:
            self.failed.append((size, at))
        if reading.slammed:
            self.slammed.append((size, at))
        elif reading.latched:
            self.gentle.append((size, at))

    def failures(self, size: float) -> int:
        """How often it failed to latch at that spring."""
        return sum(seen == size for seen, _ in self.failed)

    def slams(self, size: float) -> int:
        """How often it slammed at that spring."""
        return sum(seen == size for seen, _ in self.slammed)

    def fails_at(self, size: float, at: float) -> bool:
        """Whether it is known not to latch there."""
        return any(size <= seen and at <= place for seen, place in self.failed)

    def slams_at(self, size: float, at: float) -> bool:
        """Whether it is known to slam there."""
        return any(size >= seen and at >= place for seen, place in self.slammed)

    def to_slam(self, size: float, at: float) -> float:
        """The least turns further open at which it is known to slam; a size more of the spring counts as half a turn.

        Infinite where it never slammed.
        """
        turns = (
            place - at + (seen - size) / 2
            for seen, place in self.slammed
            if seen >= size and place >= at
        )
        return min(turns, default=math.inf)
