"""The journal: one SQLite file a run, written by one program at a time, on disk before it is shown.

`synchronous=EXTRA` makes SQLite call fdatasync within each commit, so an event that `append` has
returned for survives a kill or a flat battery.
"""

import contextlib
import json
import sqlite3
from collections.abc import Iterable
from pathlib import Path

from guide.run.events import FIRST_HASH, KINDS, Event, digest_of

SYNCHRONOUS = "EXTRA"
_TABLE = (
    "CREATE TABLE IF NOT EXISTS event (id TEXT NOT NULL UNIQUE, run TEXT NOT NULL, "
    "device TEXT NOT NULL, seq INTEGER NOT NULL PRIMARY KEY, utc TEXT NOT NULL, "
    "kind TEXT NOT NULL, body TEXT NOT NULL, prev_hash TEXT NOT NULL)"
)
_INSERT = "INSERT INTO event VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
_SELECT = "SELECT id, run, device, seq, utc, kind, body, prev_hash FROM event ORDER BY seq"


class JournalError(Exception):
    """The journal cannot be used; the message says why and what to do."""


class Locked(JournalError):
    """Another program has the run open."""


class Damaged(JournalError):
    """The file is not what was written; `good` is the part before the damage."""

    def __init__(self, message: str, good: list[Event]) -> None:
        self.good = good
        super().__init__(message)


class Journal:
    """An open journal. One writer: a second one is refused with Locked."""

    def __init__(self, path: Path, *, create: bool = False) -> None:
        self.path = path
        if not create and not path.is_file():
            raise JournalError(f"There is no run file {path.name}; it may have been moved.")
        try:
            self._db = sqlite3.connect(path, isolation_level=None, timeout=0.2)
        except sqlite3.Error as error:
            raise self._said(error) from error
        try:
            self._db.execute("PRAGMA locking_mode=EXCLUSIVE")
            self._db.execute("PRAGMA journal_mode=DELETE")
            self._db.execute(f"PRAGMA synchronous={SYNCHRONOUS}")
            self._db.execute("BEGIN EXCLUSIVE")
            if create:
                self._db.execute(_TABLE)
            self._db.execute("COMMIT")
        except sqlite3.Error as error:
            self._db.close()
            raise self._said(error) from error

    def append(self, events: Iterable[Event]) -> None:
        """Store events, all or none; on return they are on the disk."""
        rows = [
            (e.id, e.run, e.device, e.seq, e.utc, e.kind, e.body_text(), e.prev_hash)
            for e in events
        ]
        try:
            self._db.execute("BEGIN IMMEDIATE")
            self._db.executemany(_INSERT, rows)
            self._db.execute("COMMIT")
        except sqlite3.Error as error:
            if self._db.in_transaction:
                self._db.execute("ROLLBACK")
            raise self._said(error) from error

    def events(self) -> list[Event]:
        """Every event, its chain verified. Raises Damaged with the sound part before a fault."""
        try:
            rows = self._db.execute(_SELECT).fetchall()
        except sqlite3.OperationalError as error:
            raise self._said(error) from error
        except sqlite3.DatabaseError as error:
            raise Damaged(self._damage("is not whole"), self._rescue()) from error
        return verified(rows, self.path.name)

    def _rescue(self) -> list[Event]:
        """The events that can still be read, one by one, up to the first fault."""
        rows: list[tuple[object, ...]] = []
        with contextlib.suppress(sqlite3.Error):  # what was read before the fault is what there is
            rows.extend(self._db.execute(_SELECT))
        try:
            return verified(rows, self.path.name)
        except Damaged as error:
            return error.good

    def close(self) -> None:
        """Let go of the file."""
        self._db.close()

    def _damage(self, how: str) -> str:
        return f"The run file {self.path.name} {how}."

    def _said(self, error: sqlite3.Error) -> JournalError:
        text = str(error)
        if "locked" in text or "busy" in text:
            return Locked("This run is open in another window; close it there, or go on there.")
        if "readonly" in text or "read-only" in text or "permission" in text:
            return JournalError(
                f"{self.path} cannot be written; make its folder writable, then start again. "
                "What was answered before is kept."
            )
        if "unable to open" in text:
            return JournalError(
                f"The run file {self.path} cannot be opened; is its folder there and writable?"
            )
        if "full" in text or "I/O" in text or ("disk" in text and "malformed" not in text):
            return JournalError(
                "The disk is full or does not answer, so the last answer was not kept; "
                "free some space and give it again. What was answered before is kept."
            )
        return Damaged(self._damage("is damaged or is not a run"), [])


def verified(rows: Iterable[tuple[object, ...]], name: str) -> list[Event]:
    """Rows as events, the chain checked. Raises Damaged at the first row that does not fit."""
    events: list[Event] = []
    previous = FIRST_HASH
    for row in rows:
        try:
            id_, run, device, seq, utc, kind, body, prev = row
            columns = (id_, run, device, utc, kind, body, prev)
            if not (isinstance(seq, int) and all(isinstance(column, str) for column in columns)):
                raise ValueError("a column has the wrong type")
            event = Event(
                str(id_),
                str(run),
                str(device),
                seq,
                str(utc),
                str(kind),
                json.loads(str(body)),
                str(prev),
            )
            if event.kind not in KINDS or not isinstance(event.body, dict):
                raise ValueError("an unknown kind of event")
        except ValueError as error:
            raise Damaged(_broken(name, len(events)), events) from error
        if seq != len(events) + 1 or prev != previous:
            raise Damaged(_broken(name, len(events)), events)
        if events and event.run != events[0].run:
            raise Damaged(_broken(name, len(events)), events)
        head = (event.id, event.run, event.device, event.seq, event.utc, event.kind)
        previous = digest_of(head, str(body), event.prev_hash)
        events.append(event)
    return events


def _broken(name: str, good: int) -> str:
    return f"The run file {name} was changed or damaged after its event {good}."


class MemoryJournal:
    """A journal that is kept nowhere: for rehearsal and for looking."""

    def __init__(self) -> None:
        self.kept: list[Event] = []

    def append(self, events: Iterable[Event]) -> None:
        """Keep events for as long as the program runs."""
        self.kept.extend(events)

    def events(self) -> list[Event]:
        """Every event."""
        return list(self.kept)

    def close(self) -> None:
        """Nothing to let go of."""
