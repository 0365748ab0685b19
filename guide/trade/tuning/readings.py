"""Readings of a swing, and what to turn next: the words that the adviser and its callers share."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from guide.trade.mounts import SIZES

SHORTEST, LONGEST = 5.0, 7.0
"""From 90 to 12 deg [s]: at least 5 s, 2010 ADA Standards 404.2.8.1; at most 7 s is ours."""

GUARD = 0.5
"""A time over `SHORTEST` by less than this [s] is not trusted, by a watch in a hand: that limit is the law's. The
others are ours, and a time within them is right."""

LONGEST_LAST = 3.0
"""The last 12 deg [s]; ours: a slower leaf stops at the next draught, stiff seal or cold morning."""

MOST_TESTS = 10
"""After so many without success something else is wrong with the door; ours."""

Outcome = Literal["", "finished", "left-to-do", "impossible"]
"""Empty while there is something to turn. `left-to-do`: all is right but the force, which is a little over the
limit at the weakest spring that latches. `impossible`: no screw will cure it, so its fault is to be found."""


@dataclass(frozen=True, slots=True)
class SwingReading:
    """What a person sees of one test, two full swings after the last change."""

    s_90_12: float | None
    """From 90 to 12 deg [s]; None if the leaf stopped before 12 deg."""
    s_12_0: float | None
    """From 12 deg to shut [s]; None if it stopped on the way."""
    latched: bool
    """Whether it latched each time it was let go."""
    slammed: bool
    force: float | None = None
    """Push at the handle that opens it, latch held back [N]; None if it was not measured."""
    from_near: bool = False
    """Whether it was let go from 45 and 10 deg too, the worst of the three counting; else from 90 deg alone."""


@dataclass(frozen=True, slots=True)
class Move:
    """One thing to turn."""

    part: str
    """"sweep", "latch" or "spring"."""
    direction: str
    """"slower" or "faster" for a valve, "stronger" or "weaker" for the spring."""
    steps: float
    """Quarter turns of a valve, whole or half ones; half EN sizes of the spring. Above zero."""


@dataclass(frozen=True, slots=True)
class Advice:
    """What comes of one test: moves, or an end."""

    moves: tuple[Move, ...]
    """Empty at an end, and where something is only tested `again`."""
    outcome: Outcome
    reason: str
    """Why, in one sentence; at an end, what is left and what would cure it."""
    again: Literal["", "force", "near", "time"] = ""
    """What to test again before anything is turned: the force, the swing from 45 and 10 deg too, or the times."""

    @property
    def done(self) -> bool:
        """Whether all is within limits."""
        return self.outcome == "finished"

    @property
    def impossible(self) -> bool:
        """Whether no turn of a screw brings all within limits."""
        return self.outcome in ("left-to-do", "impossible")


@dataclass(frozen=True, slots=True)
class Caps:
    """How much may be turned at one go (common practice)."""

    sweep: int = 2
    """Quarter turns."""
    latch: int = 2
    """Quarter turns, where the leaf closes far too fast or far too slowly to be near latching well."""
    latch_near: int = 1
    """Quarter turns, where one turn more may decide whether it latches or slams."""
    spring: int = 2
    """Half EN sizes, where it is far off; else one."""


@dataclass(frozen=True, slots=True)
class Travel:
    """How far the screws of this closer go, by its sheet."""

    sizes: tuple[float, float] = SIZES
    """Weakest and strongest EN size of the spring; equal where it is fixed."""
    sweep: Fraction | None = None
    """Turns of the sweep valve from one end to the other; None if no sheet says."""
    latch: Fraction | None = None
    """The same of the latch valve."""
