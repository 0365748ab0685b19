"""Screw threads: their sizes, and how much of a full thread a tapped hole leaves.

    percent = 100 (D - h) / (1.299 P)        D screw diameter, h hole, P pitch

The percentage is that of the shops' tables: a full thread is 1.299 pitches across the hole, twice three quarters of
the height 0.866 P of the sharp V (ASME B1.1; Machinery's Handbook, tap drill sizes). ASME B1.1 also has percentages
of the internal thread's own height, 1.0825 pitches; by that a No. 7 hole for 1/4-20 would be 90 percent and not the 75
in every table, so it is not used here.
"""

import re
from fractions import Fraction
from typing import NamedTuple

from guide.measures import Quantity
from guide.trade.answer import about
from guide.trade.computation import Input

FULL_THREAD_PITCHES = Fraction("1.299")
"""Difference between the screw's diameter and a hole of 100 percent thread, in pitches."""

ENOUGH_THREADS = 3
"""Threads that a screw needs in sheet steel; overview of ANSI/SDI A250.6."""
USUAL_PERCENT = 75
"""The percentage tap drills are commonly chosen for; common practice."""

TAP_BREAKS_ABOVE, STRIPS_BELOW = 85, 55
"""Percentages past which a tap jams, or a thread strips; common practice, of our choosing."""

_INCH_THREADS = (
    # unified coarse
    "4-40 5-40 6-32 8-32 10-24 12-24 1/4-20 5/16-18 3/8-16 7/16-14 1/2-13 9/16-12 5/8-11 3/4-10"
    # unified fine
    " 4-48 5-44 6-40 8-36 10-32 12-28 1/4-28 5/16-24 3/8-24 7/16-20 1/2-20 9/16-18 5/8-18 3/4-16"
)
"""ASME B1.1, coarse and fine series. Those of a public tap drill table were read there; the others are from memory."""

_METRIC_COARSE = (
    "M2.5x0.45 M3x0.5 M3.5x0.6 M4x0.7 M5x0.8 M6x1 M7x1 M8x1.25 M10x1.5 M12x1.75 M14x2 M16x2 M18x2.5"
    " M20x2.5"
)
_METRIC_FINE = (
    "M4x0.5 M5x0.5 M6x0.75 M8x1 M10x1.25 M10x1 M12x1.5 M12x1.25 M14x1.5 M16x1.5 M18x1.5 M20x1.5"
)
"""ISO 261 and 262; M3 to M12 coarse and M10x1.25 in a public 75 percent chart, the others from memory."""

THREADS = (*_INCH_THREADS.split(), *_METRIC_COARSE.split(), *_METRIC_FINE.split())
"""Every thread known here, as typed."""

_BY_SPELLING = {
    **{name.lower(): name for name in THREADS},
    **{name.split("x")[0].lower(): name for name in _METRIC_COARSE.split()},
}
"""In small letters; a metric size alone is the coarse thread."""
_SERIES = re.compile(r" ?(?:unc|unf|un)$")
_NUMBER_SIGN = re.compile(r"^(?:no\.?|#) ?")


class Thread(NamedTuple):
    """A screw thread."""

    name: str
    major: Quantity
    """Outside diameter of the screw [length]."""
    pitch: Quantity
    """From one thread to the next [length]."""

    @property
    def metric(self) -> bool:
        """Whether it is an ISO metric thread."""
        return self.major.unit == "mm"


def thread_named(name: str) -> Thread:
    """The thread of that name, one of `THREADS`.

    A screw number N has the diameter 0.060 + 0.013 N in (public screw tables after ASME B1.1).
    """
    if name.startswith("M"):
        major, pitch = name[1:].split("x")
        return Thread(name, Quantity(Fraction(major), "mm"), Quantity(Fraction(pitch), "mm"))
    size, per_inch = name.split("-")
    inches = Fraction(size) if "/" in size else Fraction("0.060") + Fraction("0.013") * int(size)
    return Thread(name, Quantity(inches, "in"), Quantity(Fraction(1, int(per_inch)), "in"))


def thread_typed(text: str) -> str:
    """A thread as typed ("#10-24 UNC", "m8 x 1.25", "M8") in the spelling of `THREADS`."""
    word = " ".join(text.lower().replace("×", "x").split())
    word = _NUMBER_SIGN.sub("", _SERIES.sub("", word)).replace(" x ", "x").replace(" - ", "-")
    return _BY_SPELLING.get(word, word)


def percent_of_thread(thread: Thread, hole: Quantity) -> Fraction:
    """Percent of a full thread that a hole [length] leaves; exact, 100 (major - hole) / 1.299 P."""
    depth = thread.major.base - hole.base
    return 100 * depth / (FULL_THREAD_PITCHES * thread.pitch.base)


def hole_for_percent(thread: Thread, percent: Fraction) -> Quantity:
    """The hole [length, in the thread's unit] that leaves `percent` of a full thread; exact."""
    depth = FULL_THREAD_PITCHES * thread.pitch.magnitude * percent / 100
    return Quantity(thread.major.magnitude - depth, thread.major.unit)


def threads_engaged(thread: Thread, metal: Quantity) -> Fraction:
    """How many threads a tapped sheet of that thickness [length] holds; exact."""
    return metal.base / thread.pitch.base


def size_words(length: Quantity) -> str:
    """A diameter or pitch to four decimals."""
    return f"{about(length.magnitude, 4)} {length.unit}"


def two_places(percent: Fraction) -> float:
    """A percentage as it is answered."""
    return float(round(percent, 2))


def percent_cautions(percent: Fraction) -> tuple[str, ...]:
    """What to bear in mind at that percentage of a full thread."""
    if percent > TAP_BREAKS_ABOVE:
        return (
            f"Over {TAP_BREAKS_ABOVE} percent a tap jams and breaks in steel: take a larger drill.",
        )
    if percent < STRIPS_BELOW:
        return (f"Under {STRIPS_BELOW} percent the thread may strip: take a smaller drill.",)
    return ()


THREAD_INPUT = Input(
    "thread", "choice", True, "the screw's thread, such as 1/4-20", THREADS, tidy=thread_typed
)
