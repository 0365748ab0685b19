"""A line on standard error that counts, for long work on a terminal; it is gone when the work is done.

Nothing is written where standard error is not a terminal, so that a script's log stays clean.
"""

import sys
import time
from collections.abc import Callable
from types import TracebackType
from typing import Self

AFTER = 0.7
"""Seconds before anything is shown: short work shows nothing."""
EVERY = 0.1
"""Seconds between two lines, at least."""
_CLEAR = "\r\x1b[K"


class Progress:
    """The counter of one piece of work, as in “planning door 12 of 340”."""

    def __init__(self, what: str, clock: Callable[[], float] = time.monotonic) -> None:
        """`what` stands before the numbers; `clock` gives seconds."""
        self._what = what
        self._clock = clock
        self._next = clock() + AFTER
        self._shown = False
        self._wanted = sys.stderr is not None and sys.stderr.isatty()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.clear()

    def count(self, number: int, whole: int) -> None:
        """Show the number of what is worked on now, if the last line is long enough ago."""
        now = self._clock()
        if not self._wanted or now < self._next:
            return
        self._next, self._shown = now + EVERY, True
        sys.stderr.write(f"{_CLEAR}{self._what} {number:,} of {whole:,} ")
        sys.stderr.flush()

    def clear(self) -> None:
        """Take the line away, before something else is printed."""
        if self._shown:
            self._shown = False
            sys.stderr.write(_CLEAR)
            sys.stderr.flush()
