"""What to turn next so that a door closes gently, surely and lightly enough, from its own swings.

An adviser is told of every test, oldest first, and takes it that its last advice was carried out. It
moves both valves after one test, since the two are read from different parts of one swing; the spring
it moves alone. It stops when all is within limits, and says so when that cannot be done here.
"""

from dataclasses import dataclass

MOST_TESTS = 8
"""After so many without success something else is wrong with the door."""

SHORTEST, LONGEST = 5.0, 7.0
"""From 90 to 12 deg [s]: at least 5 s, 2010 ADA Standards 404.2.8.1; at most 7 s is ours."""

WATCH = 0.2
"""Error of a stopwatch in a person's hand [s]; ours."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a person sees of one swing let go from 90 deg, and the force gauge."""

    s_90_12: float | None
    """[s]; None where the leaf stopped before 12 deg."""
    s_12_0: float | None
    """[s]; None where it stopped before it was shut."""
    latched: bool
    slammed: bool
    force: float | None = None
    """Push at the handle that opens it, latch held back [N]; None where it was not measured."""


@dataclass(frozen=True, slots=True)
class Move:
    """One thing to turn."""

    part: str
    """"sweep", "latch" or "spring"."""
    direction: str
    """"slower" or "faster" for a valve, "stronger" or "weaker" for the spring."""
    steps: int
    """Quarter turns of a valve, half EN sizes of the spring; above zero."""


@dataclass(frozen=True, slots=True)
class Advice:
    """What comes of one test: moves, or one of the two ends."""

    moves: tuple[Move, ...]
    done: bool
    impossible: bool
    reason: str
    """Why, and what to expect."""


@dataclass(frozen=True, slots=True)
class Caps:
    """How much may be turned at one go."""

    sweep: int = 2
    """Quarter turns."""
    latch: int = 2
    """Quarter turns: the latch valve works where the door latches or does not."""
    spring_alone: bool = True
    """Whether no valve is turned in the same go as the spring."""
