"""Writing a log: one writer, one line for what must be kept together, on the disk before it is shown."""

import contextlib
import os
import secrets
from collections.abc import Callable, Sequence
from pathlib import Path

from guide.files import writing
from guide.run.events import Event
from guide.run.journal import JournalError, Locked
from guide.run.log.form import (
    EVENTS_AT_MOST,
    FILE_AT_MOST,
    LINE_AT_MOST,
    LogLine,
    event_line,
    header_line,
)
from guide.run.log.lock import RunLock
from guide.run.log.reading import Reading, read_log

KEPT_BEFORE = "What was answered before is kept."


class Log:
    """The log of a run that is gone on with. A second writer is refused with Locked."""

    def __init__(self, path: Path, lock: RunLock, program: str = "") -> None:
        self.path = path
        self.when_closed: Callable[[Path], None] | None = None
        """What is to be done once the file is let go of."""
        self._lock = lock
        self._program = program
        self._file = -1
        self._size = 0
        self._lines = 0
        self._digest = ""
        self._events = 0
        self._broken = ""
        """Why nothing more is written; empty while all is well."""

    @staticmethod
    def new(path: Path, program: str) -> "Log":
        """The log of a run that begins; its file is born with its first events.

        Raises Locked where there is such a file, JournalError where none can be kept.
        """
        lock = RunLock(path)
        if path.exists():
            lock.release()
            raise Locked(f"There is a run file {path.name} already.")
        return Log(path, lock, program)

    @staticmethod
    def open(path: Path) -> "tuple[Log, Reading]":
        """A log to be gone on with, and what it holds.

        Raises Damaged for one that must be repaired first, and what `read_log` raises; the file is left as it is.
        """
        log = Log(path, RunLock(path))
        try:
            found = read_log(path)
            if (fault := found.fault()) is not None:
                raise fault
            log._go_on(found)
        except BaseException:
            log.close()
            raise
        return log, found

    def _go_on(self, found: Reading) -> None:
        try:
            self._file = os.open(
                self.path, os.O_WRONLY | os.O_APPEND | getattr(os, "O_NOFOLLOW", 0)
            )
        except OSError as error:
            raise self._said(error) from error
        self._size, self._lines = found.size, len(found.digests)
        self._digest, self._events = found.digest, len(found.events)

    def append(self, events: Sequence[Event], at: str) -> None:
        """Keep events in one line, all or none; on return they are on the disk. `at` is where the run stands then.

        Raises JournalError; then the file ends where it ended before, or nothing more is written to it.
        """
        if self._broken:
            raise JournalError(self._broken)
        first = events[0]
        head, previous = b"", self._digest
        if not self._lines:
            head, previous = header_line(first.run, first.device, self._program)
        parts = tuple((event.id, event.kind, event.body) for event in events)
        line = LogLine(
            max(self._lines, 1),
            *(previous, at, first.by, first.device, first.utc, first.offset, parts),
        )
        try:
            text, digest = event_line(line)
        except ValueError as error:
            raise JournalError(f"This cannot be kept: {error}.") from error
        self._need_room(len(head) + len(text), len(events))
        if head:
            self._bear(head + text)
        else:
            self._add(text)
        self._size += len(head) + len(text)
        self._lines = line.n + 1
        self._digest = digest
        self._events += len(events)

    def events(self) -> list[Event]:
        """Every event that is on the disk. Raises what `read_log` raises, and Damaged."""
        found = read_log(self.path)
        if (fault := found.fault()) is not None:
            raise fault
        return found.events

    def close(self) -> None:
        """Let go of the file; more than once does nothing."""
        if self._file >= 0:
            os.close(self._file)
            self._file = -1
            if self.when_closed is not None:
                self.when_closed(self.path)
        self._lock.release()
        self._broken = self._broken or "This run has been closed; open it again."

    def _need_room(self, size: int, events: int) -> None:
        if size > LINE_AT_MOST:
            raise JournalError("This is too long to be kept; write less.")
        if self._size + size > FILE_AT_MOST or self._events + events > EVENTS_AT_MOST:
            raise JournalError(
                f"This job has grown too long to be kept in one file; end it and begin another. {KEPT_BEFORE}"
            )

    def _bear(self, text: bytes) -> None:
        """The file as it is born: beside, synced, and only then under its name."""
        new = self.path.with_name(f".{self.path.stem}.{secrets.token_hex(4)}.new")
        try:
            writing.write_new(new, text)
            new.rename(self.path)  # the lock is held, and nothing had this name when it was taken
            writing.sync_folder(self.path.parent)
            self._file = os.open(self.path, os.O_WRONLY | os.O_APPEND)
        except OSError as error:
            for left in (new, self.path):
                with contextlib.suppress(OSError):  # the first error is the one to tell
                    left.unlink()
            why = writing.why_not(error, self.path.parent)
            raise JournalError(f"{why}, then start again. No job was begun.") from error

    def _add(self, text: bytes) -> None:
        self._need_own_file()
        try:
            written = os.write(self._file, text)
        except OSError as error:
            self._cut_back()
            raise self._said(error) from error
        if written < len(text):
            self._cut_back()
            raise JournalError(
                f"The disk is full, so the last answer was not kept; free some space and give it again. {KEPT_BEFORE}"
            )
        try:
            writing.sync(self._file)
        except OSError as error:
            # What the system still holds of the line cannot be known, and a second try could be told a lie.
            why = writing.why_not(error, self.path)
            raise self._break(f"{why}. Whether the last answer was kept is not known") from error

    def _need_own_file(self) -> None:
        """Raises JournalError where another program has moved, cut or written the file."""
        ours = os.fstat(self._file)
        try:
            theirs = self.path.stat()
            same = (theirs.st_ino, theirs.st_dev) == (ours.st_ino, ours.st_dev)
        except OSError:
            same = False
        if not same or ours.st_size != self._size:
            raise self._break("Another program has moved or changed the file of this job")

    def _cut_back(self) -> None:
        """Take away what a failed write may have left."""
        try:
            os.ftruncate(self._file, self._size)
            os.fsync(self._file)
        except OSError as error:
            why = writing.why_not(error, self.path)
            raise self._break(f"{why}. The last answer was not kept") from error

    def _break(self, why: str) -> JournalError:
        """Write nothing more."""
        self._broken = f"{why}. Close this job and open it again. {KEPT_BEFORE}"
        os.close(self._file)
        self._file = -1
        return JournalError(self._broken)

    def _said(self, error: OSError) -> JournalError:
        why = writing.why_not(error, self.path)
        return JournalError(f"{why} and give the last answer again; it was not kept. {KEPT_BEFORE}")
