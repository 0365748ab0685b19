"""How far a person's stopwatch strays, learned from times taken more than once at one setting of the valve.

The variance is the mean of the readings' own about their means and of what is expected before any, weighed by their
degrees of freedom (scaled inverse chi-squared prior).
"""

import math
from collections import defaultdict
from dataclasses import dataclass, field

USUAL_ERROR = 0.3
"""Error of a stopwatch in a person's hand [s]; ours."""

_PRIOR_WEIGHT = 3
"""Degrees of freedom that `USUAL_ERROR` is worth."""

Setting = tuple[float, ...]
"""What the time depends on: where the spring and the valves are."""


@dataclass(slots=True)
class Stopwatch:
    """All times of one door so far."""

    _seen: defaultdict[Setting, list[float]] = field(default_factory=lambda: defaultdict(list))

    def add(self, setting: Setting, seconds: float) -> None:
        """A time measured at that setting [s]."""
        self._seen[setting].append(seconds)

    def error(self) -> float:
        """Of one reading [s], as a standard deviation."""
        squares, freedom = _PRIOR_WEIGHT * USUAL_ERROR**2, _PRIOR_WEIGHT
        for times in self._seen.values():
            mean = sum(times) / len(times)
            squares += sum((time - mean) ** 2 for time in times)
            freedom += len(times) - 1
        return math.sqrt(squares / freedom)
