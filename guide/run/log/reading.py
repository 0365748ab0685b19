"""Reading a log, without a lock and without changing anything: how much of it is sound, and what the rest is."""

import os
import stat
from dataclasses import dataclass, field
from pathlib import Path

from guide.files.stored_form import STORED_FORM
from guide.run.events import KINDS, Event
from guide.run.journal import Cause, Damaged, JournalError, NotARun, OtherVersion
from guide.run.log.form import (
    EVENTS_AT_MOST,
    FILE_AT_MOST,
    MARK,
    BadLine,
    Header,
    LogLine,
    Unpack,
    format_of,
    read_header,
    read_line,
    unpacked,
)
from guide.text import printable

ENDING = ".run"
_SQLITE = b"SQLite format 3\0"
"""How a run of an older version begins."""
BEGINS = b'{"device":'
"""How every log begins."""


@dataclass(slots=True)
class Reading:
    """A log as it was read: its sound lines, and what is left after them."""

    path: Path
    data: bytes
    header: Header | None = None
    """None where not even the first line is sound."""
    events: list[Event] = field(default_factory=list)
    digests: list[str] = field(default_factory=list)
    """Of each sound line, the header first."""
    ends: list[int] = field(default_factory=list)
    """Where each sound line ends, in bytes."""
    counts: list[int] = field(default_factory=list)
    """How many events there are up to the end of each sound line."""
    damaged: bool = False
    """Whether a whole line is not what was written."""

    @property
    def size(self) -> int:
        """Bytes of the sound lines."""
        return self.ends[-1] if self.ends else 0

    @property
    def torn(self) -> bool:
        """Whether the last line has no end: it is being written, or was cut off, and was never acknowledged."""
        return not self.damaged and self.size < len(self.data)

    @property
    def digest(self) -> str:
        """Of the last sound line."""
        return self.digests[-1] if self.digests else ""

    def fault(self) -> Damaged | None:
        """What keeps the file from being gone on with as it is, if anything."""
        name, lines = printable(self.path.name), len(self.digests)
        if self.damaged or not self.events:
            what = (
                f"The run file {name} was changed or damaged after its event {len(self.events)}."
                if self.events or self.damaged
                else f"The run file {name} is cut off before its first event."
            )
            return Damaged(what, self.events, lines)
        if self.torn:
            what = f"The last line of the run file {name} was never finished."
            return Damaged(what, self.events, lines, Cause.TORN)
        return None


def read_log(path: Path) -> Reading:
    """The log in a file. Raises NotARun, OtherVersion, or JournalError where it cannot be read."""
    return log_in(path, bytes_of(path))


def log_in(path: Path, data: bytes, unpack: Unpack = unpacked) -> Reading:
    """The log in these bytes, which a message calls by the name of `path`. Raises NotARun or OtherVersion."""
    found = Reading(path, data)
    first, newline, _ = found.data.partition(b"\n")
    _need_own(path, first, whole=bool(newline))
    if newline:
        try:
            found.header = read_header(first)
        except BadLine:
            found.damaged = True
        else:
            _add(found, found.header.digest, len(first) + 1)
            _read_lines(found, unpack)
    return found


def bytes_of(path: Path) -> bytes:
    """What a run file holds. Raises NotARun for a link, a folder, a device or what is too large for a run."""
    name = printable(path.name)
    try:
        handle = os.open(
            path,
            os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0),
        )
    except FileNotFoundError as error:
        raise NotARun(f"There is no run file {name}; it may have been moved.") from error
    except OSError as error:
        if path.is_symlink():
            raise NotARun(f"{name} is not a run: it is a link; name the file itself.") from error
        raise JournalError(f"The run file {printable(str(path))} cannot be read.") from error
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise NotARun(f"{name} is not a run; nothing was changed.")
    with os.fdopen(handle, "rb") as file:
        data = file.read(FILE_AT_MOST + 1)
    if len(data) > FILE_AT_MOST:
        raise NotARun(f"{name} is not a run: it is larger than {FILE_AT_MOST >> 20} MB.")
    return data


def _need_own(path: Path, first: bytes, *, whole: bool) -> None:
    """Raises NotARun for a file of something else, OtherVersion for a run of another form."""
    if path.suffix == ENDING and first.startswith(_SQLITE):
        raise _other_version(path, "an older", "it is a database, and this one keeps lines")
    begun = first.startswith(BEGINS) or (first != b"" and BEGINS.startswith(first))
    if not (MARK in first if whole else begun):
        raise NotARun(f"{printable(path.name)} is not a run; nothing was changed.")
    form = format_of(first)
    if form is not None and form != STORED_FORM:
        made_by = "a newer" if form > STORED_FORM else "an older"
        raise _other_version(path, made_by, f"form {form}, and this one reads form {STORED_FORM}")


def _read_lines(found: Reading, unpack: Unpack) -> None:
    start = found.size
    while (end := found.data.find(b"\n", start)) >= 0:
        try:
            line = read_line(found.data[start:end], graph=unpack)
        except BadLine:
            line = None
        if line is None or not _follows(found, line):
            found.damaged = True
            return
        found.events += _events(found, line)
        _need_known(found, line)
        start = end + 1
        _add(found, line.digest, start)


def _follows(found: Reading, line: LogLine) -> bool:
    """Whether the line is the next one; the first after the header begins the run, and no other does."""
    starts = [place for place, (_, kind, _) in enumerate(line.events) if kind == "started"]
    return (
        line.n == len(found.digests)
        and line.prev == found.digest
        and starts == ([0] if line.n == 1 else [])
        and len(found.events) + len(line.events) <= EVENTS_AT_MOST
    )


def _events(found: Reading, line: LogLine) -> list[Event]:
    assert found.header is not None  # only then are there lines
    run, first = found.header.run, len(found.events) + 1
    return [
        Event(
            *(id_, run, line.device, first + place, line.utc, kind, body),
            by=line.by,
            offset=line.offset,
            digest=line.digest,
        )
        for place, (id_, kind, body) in enumerate(line.events)
    ]


def _add(found: Reading, digest: str, end: int) -> None:
    found.digests.append(digest)
    found.ends.append(end)
    found.counts.append(len(found.events))


def _need_known(found: Reading, line: LogLine) -> None:
    """Raises OtherVersion for an event of a kind that this version does not know, or another form of graph."""
    for event in found.events[-len(line.events) :]:
        if event.kind not in KINDS:
            kind = printable(event.kind[:40])
            what = f"its event {event.seq}, “{kind}”, is of a kind that this one does not know"
            raise _other_version(found.path, "another", what)
        graph = event.body.get("graph") if event.kind == "started" else None
        form = graph.get("format", STORED_FORM) if isinstance(graph, dict) else STORED_FORM
        if form != STORED_FORM:
            form = printable(str(form)[:40])
            what = f"its procedure has form {form}, and this one reads form {STORED_FORM}"
            raise _other_version(found.path, "another", what)


def _other_version(path: Path, made_by: str, what: str) -> OtherVersion:
    return OtherVersion(
        f"The job {printable(path.stem)} was made by {made_by} version of Hingeside ({what}); nothing was "
        "changed; open it with that version."
    )
