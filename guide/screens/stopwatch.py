"""The stopwatch of a timed step: the time between two presses, never a count of ticks."""

from collections.abc import Callable
from fractions import Fraction

from guide import measures
from guide.measures import Quantity, nearest
from guide.procedure.facts import Fact

_TENTH = Quantity(Fraction(1, 10), "s")
"""What a thumb on a key can tell apart; used where the fact names no step."""


class Stopwatch:
    """Started and stopped by a key."""

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._began: float | None = None

    @property
    def running(self) -> bool:
        """Whether it runs."""
        return self._began is not None

    def start(self) -> None:
        """Begin at nought."""
        self._began = self._clock()

    def reading(self) -> float:
        """Seconds since the start; 0 while it stands."""
        return 0.0 if self._began is None else self._clock() - self._began

    def stop(self, fact: Fact) -> str:
        """The time as it would be typed, to the step of the fact."""
        taken = Quantity(Fraction(round(self.reading() * 1000), 1000), "s")
        self.reset()
        return measures.write(nearest(taken, fact.step or _TENTH))

    def reset(self) -> None:
        """Stand still, at nought."""
        self._began = None
