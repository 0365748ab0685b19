"""The journal: one SQLite file a run, written by one program at a time, on disk before it is shown.

`synchronous=FULL` makes SQLite call fdatasync within each commit, so an event that `append` has returned
for survives a kill or a flat battery. While a run is open its commits go to a write-ahead log beside the
file, which costs one sync a commit where the older way costs three; closing folds the log into the file.
"""

import contextlib
import sqlite3
from collections.abc import Iterable
from itertools import takewhile
from pathlib import Path

from guide.errors import NO_DEVICE, HingesideError
from guide.files.stored_form import STORED_FORM
from guide.run.chain import Row, sound_part
from guide.run.events import KINDS, Event

SYNCHRONOUS = "FULL"
PATIENCE = 0.2
"""Seconds to wait for another program to let go of the file."""
_FAULTS = (sqlite3.Error, UnicodeDecodeError)
"""What SQLite raises; the second where it quotes a damaged text in its own complaint."""
_TABLE = (
    "CREATE TABLE IF NOT EXISTS event (id TEXT NOT NULL, run TEXT NOT NULL, "
    "device TEXT NOT NULL, seq INTEGER NOT NULL PRIMARY KEY, utc TEXT NOT NULL, "
    "kind TEXT NOT NULL, body TEXT NOT NULL, prev_hash TEXT NOT NULL)"
)
_INSERT = "INSERT INTO event VALUES (?, ?, ?, ?, ?, ?, ?, ?)"
_SQLITE = b"SQLite format 3\0"
_FORM_AT = slice(60, 64)
"""How a file of SQLite begins, and where its `user_version` is: sqlite.org/fileformat2.html, “The Database Header”."""
_SELECT = "SELECT id, run, device, seq, utc, kind, body, prev_hash FROM event ORDER BY seq"


class JournalError(HingesideError):
    """The journal cannot be used; the message says why and what to do."""

    status = NO_DEVICE


class Locked(JournalError):
    """Another program has the run open."""


class Damaged(JournalError):
    """The file is not what was written; `good` is the part before the damage."""

    def __init__(self, message: str, good: list[Event]) -> None:
        self.good = good
        super().__init__(message)


class OtherVersion(JournalError):
    """The run was made by another version of the program. Nothing was changed; that version opens it."""


class Journal:
    """An open journal. One writer: a second one is refused with Locked.

    A run that exists is read before anything is written: Damaged or OtherVersion leave it as it is.
    """

    def __init__(self, path: Path, *, create: bool = False) -> None:
        self.path = path
        if not create:
            _need_file(path)
        try:
            self._db = sqlite3.connect(path, isolation_level=None, timeout=PATIENCE)
        except _FAULTS as error:
            raise _said(path, error) from error
        try:
            self._db.execute("PRAGMA locking_mode=EXCLUSIVE")
            if create:
                # In the file itself before there is a log, so that it is read there whatever comes.
                self._db.execute(f"PRAGMA user_version={STORED_FORM}")
            else:
                self._need_own_version()
            self._db.execute("PRAGMA journal_mode=WAL")
            self._db.execute(f"PRAGMA synchronous={SYNCHRONOUS}")
            self._db.execute("BEGIN EXCLUSIVE")
            if create:
                self._db.execute(_TABLE)
            self._db.execute("COMMIT")
        except _FAULTS as error:
            self._db.close()
            raise _said(path, error) from error
        except JournalError:
            self._db.close()
            raise

    def _need_own_version(self) -> None:
        self._db.execute("BEGIN EXCLUSIVE")  # nobody else has it, and nothing is written
        rows = self._db.execute(_SELECT).fetchall()
        self._db.execute("COMMIT")
        _verified(self.path, rows)

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
        except _FAULTS as error:
            with contextlib.suppress(*_FAULTS):  # the first error is the one to tell
                if self._db.in_transaction:
                    self._db.execute("ROLLBACK")
            raise _said(self.path, error) from error

    def events(self) -> list[Event]:
        """Every event, its chain verified.

        Raises Damaged with the sound part before a fault; the journal is then closed.
        """
        try:
            rows = self._db.execute(_SELECT).fetchall()
        except _FAULTS as error:
            self._db.close()
            raise _said(self.path, error) from error
        return _verified(self.path, rows)

    def close(self) -> None:
        """Let go of the file, which is then one plain file again."""
        with contextlib.suppress(
            *_FAULTS
        ):  # a full or read-only disk: the log stays beside the file
            self._db.execute("PRAGMA journal_mode=DELETE")
        self._db.close()


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


def read_events(path: Path) -> list[Event]:
    """Every event of a run that is not gone on with, also from a disk that cannot be written.

    Raises Locked, Damaged, OtherVersion or JournalError.
    """
    _need_file(path)
    try:
        with contextlib.closing(sqlite3.connect(path, timeout=PATIENCE)) as db:
            rows = db.execute(_SELECT).fetchall()
    except _FAULTS as error:
        raise _said(path, error) from error
    return _verified(path, rows)


def _need_file(path: Path) -> None:
    if not path.is_file():
        raise JournalError(f"There is no run file {path.name}; it may have been moved.")
    if path.stat().st_size == 0:
        raise Damaged(f"The run file {path.name} is empty.", [])
    _need_own_form(path)


def _need_own_form(path: Path) -> None:
    """Read the form where SQLite keeps a file's `user_version`, without SQLite, which may write on opening.

    A file without a number is left to the other checks.
    """
    try:
        with path.open("rb") as file:
            head = file.read(_FORM_AT.stop)
    except OSError as error:
        raise _cannot_open(path) from error
    form = int.from_bytes(head[_FORM_AT], "big")
    if head.startswith(_SQLITE) and form not in (0, STORED_FORM):
        made_by = "a newer" if form > STORED_FORM else "an older"
        raise _other_version(path, made_by, f"form {form}, and this one reads form {STORED_FORM}")


def _verified(path: Path, rows: list[Row]) -> list[Event]:
    """The rows as events of this version. Raises Damaged or OtherVersion."""
    events, whole = sound_part(rows)
    known = list(takewhile(lambda event: event.kind in KINDS, events))
    if not whole:
        raise Damaged(
            f"The run file {path.name} was changed or damaged after its event {len(known)}.",
            known,
        )
    graph = events[0].body.get("graph") if events else None
    form = graph.get("format", STORED_FORM) if isinstance(graph, dict) else STORED_FORM
    if form != STORED_FORM:
        what = f"its procedure has form {_shown(form)}, and this one reads form {STORED_FORM}"
        raise _other_version(path, "another", what)
    if len(known) < len(events):
        kind = _shown(events[len(known)].kind)
        what = f"its event {len(known) + 1}, “{kind}”, is of a kind that this one does not know"
        raise _other_version(path, "another", what)
    return events


def _shown(stored: object) -> str:
    """What a file holds, as one short line without signs that a terminal obeys."""
    return "".join(c for c in str(stored)[:40] if c.isprintable())


def _other_version(path: Path, made_by: str, what: str) -> OtherVersion:
    return OtherVersion(
        f"The job {path.stem} was made by {made_by} version of Hingeside ({what}); nothing was changed; "
        "open it with that version."
    )


def _salvaged(path: Path) -> list[Event]:
    """The sound events that can still be read from a damaged file."""
    rows: list[Row] = []
    with contextlib.suppress(*_FAULTS, OSError):  # what is read before the fault is what is left
        uri = f"{path.resolve().as_uri()}?immutable=1"
        with contextlib.closing(sqlite3.connect(uri, uri=True)) as db:
            # SQLite will not look into a file that was cut short unless its table may be rewritten.
            db.execute("PRAGMA writable_schema=ON")
            rows.extend(db.execute(_SELECT))
    return sound_part(rows)[0]


def _cannot_open(path: Path) -> JournalError:
    return JournalError(f"The run file {path} cannot be opened; is its folder there and writable?")


def _said(path: Path, error: Exception) -> JournalError:
    """SQLite's error as a sentence for the person. The file must be closed before."""
    text = str(error)
    if "locked" in text or "busy" in text:
        return Locked("This run is open in another window; close it there, or go on there.")
    if "readonly" in text or "read-only" in text or "permission" in text:
        return JournalError(
            f"{path} cannot be written; make its folder writable, then start again. "
            "What was answered before is kept."
        )
    if "unable to open" in text:
        return _cannot_open(path)
    if "full" in text or "I/O" in text:
        return JournalError(
            "The disk is full or does not answer, so the last answer was not kept; "
            "free some space and give it again. What was answered before is kept."
        )
    return Damaged(f"The run file {path.name} is damaged or is not a run.", _salvaged(path))
