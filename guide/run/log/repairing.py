"""Repairing a log whose end does not count: what is removed is saved beside first, and the run itself says so."""

import hashlib
import secrets
from dataclasses import dataclass
from pathlib import Path

from guide.files import writing
from guide.run.events import Event
from guide.run.journal import Damaged, JournalError
from guide.run.log.form import LogLine, event_line
from guide.run.log.lock import RunLock
from guide.run.log.reading import Reading, read_log


@dataclass(frozen=True, slots=True)
class Repair:
    """What was done with a file."""

    aside: Path
    """Where the part that was removed is kept, or the whole file."""
    events: int
    """The events that are left; 0 where nothing could be read, and the whole file is aside."""


def repair(path: Path, fault: Damaged, said: Event, at: str) -> Repair:
    """Keep the sound lines of a file, and in the place of the rest the event `said`, whose body is filled in.

    `at` is where the run stands. A file without a sound start is set aside as it is.

    Raises Locked, and JournalError where the folder cannot be written; the file is then as it was.
    """
    lock = RunLock(path)
    try:
        found = read_log(path)
        lines = min(fault.lines, len(found.digests))
        if lines < 2:  # without its start there is no run
            return _set_aside(path)
        return _shortened(found, lines, fault, said, at)
    except OSError as error:
        why = writing.why_not(error, path.parent)
        raise JournalError(f"{why}, then start again. Nothing was changed.") from error
    finally:
        lock.release()


def _set_aside(path: Path) -> Repair:
    aside = path.with_name(f"{path.stem}.damaged-{secrets.token_hex(4)}")
    path.rename(aside)
    writing.sync_folder(path.parent)
    return Repair(aside, 0)


def _shortened(found: Reading, lines: int, fault: Damaged, said: Event, at: str) -> Repair:
    path, end, events = found.path, found.ends[lines - 1], found.counts[lines - 1]
    removed = found.data[end:]
    aside = path.with_name(f"{path.stem}.removed-{secrets.token_hex(4)}")
    body = {
        "cause": str(fault.cause),
        "aside": aside.name,
        "sha256": hashlib.sha256(removed).hexdigest(),
        "bytes": len(removed),
        "lines": removed.count(b"\n") + (not removed.endswith(b"\n")),
    }
    line = LogLine(
        *(lines, found.digests[lines - 1], at, said.by, said.device, said.utc, said.offset),
        ((said.id, said.kind, body),),
    )
    text, _ = event_line(line)
    writing.write_new(aside, removed)
    writing.write_in_place(path, found.data[:end] + text)
    return Repair(aside, events)
