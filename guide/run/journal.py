"""What can go wrong with a journal, and one that is kept nowhere. The one on the disk is `guide/run/log`."""

from collections.abc import Sequence
from enum import StrEnum

from guide.errors import NO_DEVICE, UNKNOWN, HingesideError
from guide.run.events import Event


class JournalError(HingesideError):
    """The journal cannot be used; the message says why and what to do."""

    status = NO_DEVICE


class NotARun(JournalError):
    """A file that is not a run, or a run that is not kept where runs are written. It is left as it is."""

    status = UNKNOWN


class Locked(JournalError):
    """Another program has the run open."""


class OtherVersion(JournalError):
    """The run was made by another version of the program. Nothing was changed; that version opens it."""


class Cause(StrEnum):
    """What is wrong with the end of a file."""

    TORN = "torn"
    """Its last line was never finished, so it was never acknowledged."""
    DAMAGED = "damaged"
    """A line is not the one that was written."""
    MISFIT = "misfit"
    """Every line is as it was written, and they do not make a run."""


class Damaged(JournalError):
    """The file is not what was written, or not a run; nothing after its sound lines counts."""

    def __init__(
        self, message: str, good: list[Event], lines: int, cause: Cause = Cause.DAMAGED
    ) -> None:
        self.good = good
        """The events before the damage."""
        self.lines = lines
        """The sound lines, the first one included."""
        self.cause = cause
        super().__init__(message)


class Misfit(Damaged):
    """Lines that are whole and do not make a run: their writer was not this program."""

    status = UNKNOWN


class MemoryJournal:
    """A journal that is kept nowhere: for rehearsal and for looking."""

    def __init__(self) -> None:
        self.kept: list[Event] = []

    def append(self, events: Sequence[Event], at: str) -> None:
        """Keep events for as long as the program runs."""
        self.kept.extend(events)

    def events(self) -> list[Event]:
        """Every event."""
        return list(self.kept)

    def close(self) -> None:
        """Nothing to let go of."""
