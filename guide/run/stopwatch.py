"""The stopwatch of a timed step: the time between presses, never a count of ticks.

One start serves both parts of a swing if the procedure says that they belong together: pressed as the leaf
is let go, at the mark, and at the click. Up to five swings count, by their median.
"""

from collections.abc import Callable

from guide import measures
from guide.procedure.facts import Fact
from guide.run.swings import MOST, TOO_SOON, Timed, timed
from guide.translation import _

ENOUGH = _("{most} swings are enough: Enter accepts their median.").format(most=MOST)
TWICE = _("Too soon after the start: not counted, the watch runs on.")


class Stopwatch:
    """Started and stopped by a key."""

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._began: float | None = None
        self._marks: list[float] = []
        self._swings: list[tuple[float, ...]] = []
        """The parts of every swing [s], oldest first."""
        self._slips: list[float] = []
        self._blocks: tuple[str, ...] = ()
        """The blocks whose times are the parts of a swing."""
        self._part = 0

    @property
    def running(self) -> bool:
        """Whether it runs."""
        return self._began is not None

    @property
    def swings(self) -> list[float]:
        """Every time so far of the part that the run is at [s], oldest first."""
        return [parts[self._part] for parts in self._swings if len(parts) > self._part]

    @property
    def parts_left(self) -> int:
        """While it runs: how many presses end the swing."""
        return len(self._blocks) - len(self._marks)

    def press(self, *blocks: str) -> str:
        """Start, mark or stop; `blocks` are those whose times are the parts of a swing.

        What is to be said of it; empty if it needs no words.
        """
        if self._began is None:
            if len(self._swings) >= MOST:
                return ENOUGH
            self._blocks, self._part = blocks, 0
            self._began, self._marks = self._clock(), []
            return ""
        taken = self._clock() - self._began
        if not self._marks and taken < TOO_SOON:
            self._slips.append(taken)
            return TWICE
        self._marks.append(taken)
        if self.parts_left == 0:
            self.end_swing()
        return ""

    def end_swing(self) -> None:
        """Stop, and count the parts of the swing that were marked."""
        if self._marks:
            starts = [0.0, *self._marks]
            parts = (end - start for start, end in zip(starts, self._marks, strict=False))
            self._swings.append(tuple(parts))
        self._began, self._marks = None, []

    def reading(self) -> float:
        """Seconds since the last press; 0 while it stands."""
        if self._began is None:
            return 0.0
        return self._clock() - self._began - (self._marks[-1] if self._marks else 0.0)

    def taken(self, fact: Fact) -> Timed | None:
        """What the swings come to where the run is; None before the first."""
        return (
            timed(self.swings, fact, self._slips if self._part == 0 else ())
            if self.swings
            else None
        )

    def text(self, fact: Fact) -> str:
        """The median as it would be typed, to the step of the fact; empty before the first swing."""
        found = self.taken(fact)
        return measures.write(found.value) if found is not None else ""

    def stand_at(self, block: str) -> None:
        """The run is at another block: go on with its part of the swings, or begin anew."""
        if block in self._blocks and not self.running:
            self._part = self._blocks.index(block)
        else:
            self.reset()

    def reset(self) -> None:
        """Reset to 0, with no swing."""
        self._began, self._marks = None, []
        self._swings, self._slips = [], []
        self._blocks, self._part = (), 0
