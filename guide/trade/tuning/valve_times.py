"""How long a valve's part of the swing takes at each turn, estimated from the door's own swings.

    t = K / (x + x0)^q

x is the turns advised since the start, x0 the turns it was open then, and q how it opens: above 1 late, below early.
Bayesian estimate on a grid of x0 and q; for each pair log K is normal, and its mean and weight follow from the readings
in closed form (conjugate normal prior). Older readings count for less.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

_K_SPREAD = 0.3
"""How far a door's K strays from the nominal one, as a standard deviation of its logarithm."""

_CURVES = ((0.75, 0.6), (1.0, 1.0), (1.25, 0.6), (1.5, 0.3))
"""Each q that is weighed, with its weight before any reading."""

_X0_MEAN, _X0_SPREAD = 1.7, 1.5
"""Turns a valve is found open, as they come (our guess)."""

_X0_STEPS = tuple(0.1 + step * 0.15 for step in range(27))
"""Turns found open that are weighed, to the stop at 4."""

_LEAST_OPEN = 0.04
"""A closed valve leaks as if it were this far open [turns]."""

_USUAL = 1.25
"""Turns at which all laws of one K agree."""

_LOG_USUAL = math.log(_USUAL)

_AGEING = 0.8
"""Weight of a reading against the next one: the law holds best near where the valve is now."""

_MODEL_ERROR = 0.06
"""How far the law itself may be out, as a share of the time."""

_SCATTER = 0.02
"""How far one swing strays from the next, as a share of the time."""


@dataclass(slots=True)
class ValveCurve:
    """One valve of one door."""

    nominal: float
    """K before anything is known [s times turns]."""
    watch: float
    """Error of a stopwatch held by a person [s]."""
    at: float = 0.0
    """Where the valve is now [turns since the start]; opening counts up."""
    seen: list[tuple[float, float]] = field(default_factory=list)
    """(turns since the start, seconds), oldest first, all at the present spring."""

    def rescale(self, ratio: float) -> None:
        """Take every time so far `ratio` times as long, as another spring makes it."""
        self.nominal *= ratio
        self.seen = [(at, seconds * ratio) for at, seconds in self.seen]

    def add(self, seconds: float) -> None:
        """A time measured where the valve is now [s]; one too short for any watch counts as 0.1 s."""
        self.seen.append((self.at, max(seconds, 0.1)))

    def weighed(self) -> "ValveEstimate":
        """What all readings together say."""
        return ValveEstimate(self)


class ValveEstimate:
    """Every law K / (x + x0)^q with its weight after the readings; of K, mean and spread."""

    def __init__(self, curve: ValveCurve) -> None:
        nominal = math.log(curve.nominal)
        readings = [
            (
                at,
                math.log(seconds) - nominal,
                _AGEING**age / (_MODEL_ERROR**2 + (curve.watch / seconds) ** 2),
            )
            for age, (at, seconds) in enumerate(reversed(curve.seen))
        ]
        # For one x0 and one q the logarithm of K is a mean of what each reading makes of it.
        whole = 1 / _K_SPREAD**2 + sum(trust for _, _, trust in readings)
        laws = []
        for x0 in _X0_STEPS:
            about = ((x0 - _X0_MEAN) / _X0_SPREAD) ** 2
            opened = [
                (seconds, math.log(max(at + x0, _LEAST_OPEN) / _USUAL), trust)
                for at, seconds, trust in readings
            ]
            for q, weight in _CURVES:
                first = second = 0.0
                for seconds, open_, trust in opened:
                    seen = seconds + q * open_ + _LOG_USUAL
                    first += trust * seen
                    second += trust * seen * seen
                off = about - 2 * math.log(weight) + second - first * first / whole
                laws.append((off / 2, nominal + first / whole - _LOG_USUAL, x0, q))
        best = min(off for off, _, _, _ in laws)
        kept = [(math.exp(best - off), k, x0, q) for off, k, x0, q in laws if off < best + 8]
        total = sum(weight for weight, _, _, _ in kept)
        self._laws = [(weight / total, k, x0, q) for weight, k, x0, q in kept]
        self._k_variance = 1 / whole

    def log_seconds(self, at: float) -> tuple[float, float]:
        """Mean and variance of the logarithm of the time [s] at `at` turns since the start."""
        first = second = 0.0
        for weight, k, x0, q in self._laws:
            value = k - q * math.log(max(at + x0, _LEAST_OPEN) / _USUAL)
            first += weight * value
            second += weight * value * value
        return first, max(0.0, second - first * first) + self._k_variance

    def seconds(self, at: float) -> float:
        """The time to expect at `at` turns since the start [s]."""
        return math.exp(self.log_seconds(at)[0])

    def chance(self, low: float, high: float, at: float) -> float:
        """Chance that the time lies from `low` to `high` [s] at `at` turns since the start."""
        mean, variance = self.log_seconds(at)
        spread = math.sqrt(2 * (variance + _SCATTER**2))
        below, above = ((math.log(time) - mean) / spread for time in (low, high))
        return (math.erf(above) - math.erf(below)) / 2

    def likeliest(self, low: float, high: float, places: Iterable[float]) -> float:
        """The one of `places` where the time most likely lies from `low` to `high` [s]."""
        return max(places, key=lambda at: self.chance(low, high, at))

    def nearest(self, aim: float, places: Iterable[float]) -> float:
        """The one of `places` from which the time is expected to miss `aim` [s] by the least."""

        def miss(at: float) -> float:
            mean, variance = self.log_seconds(at)
            return (mean - math.log(aim)) ** 2 + variance

        return min(places, key=miss)
