"""The catalogue: a line on each run, made from the logs, so that the first screen need not read them.

One SQLite file in the data folder. It is never waited for, never a reason for an answer to fail, and made again at any
doubt. It is a witness too: it remembers how far each run had come, so that lines cut cleanly from the end of a file
are missed on the device that knew them.
"""

import contextlib
import re
import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import astuple, dataclass, fields, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from guide.files.library import runs_folder, user_folder
from guide.files.stored_form import STORED_FORM
from guide.procedure.graph import Graph
from guide.procedure.outcomes import INSPECTION, OUTCOMES
from guide.run.events import KINDS, Event
from guide.run.inspection import items_of, written_items
from guide.run.journal import JournalError
from guide.run.log.form import (
    BadLine,
    Header,
    LogLine,
    chain_of,
    read_header,
    read_line,
    unpacked,
)
from guide.run.log.reading import ENDING, Reading, bytes_of, read_log
from guide.run.state import STOPPED
from guide.run.step import MISFITS, fold, runnable, start, step
from guide.text import fill, is_quantity, printable

NOT_THE_FILE = "it is not the file that is known here"
PATIENCE = 0.2
"""Seconds to wait for another program to let go of the catalogue."""
_FILE = "catalogue.sqlite"
_ENDED = re.compile(rb'","(?:ended",\{"outcome":"([a-z-]*)"|taken up",\{)')
"""How a job ends, or is opened again, in a line; the last one counts."""
_ENDS = ("ended", "taken up")
_KIND = re.compile(rb'\["[0-9a-f]{32}","([^"]*)",\{')
"""How an event begins in a line, up to its kind; within a text the quotes would have a backslash."""


@dataclass(frozen=True, slots=True)
class RunSummary:
    """One line of the list of runs."""

    path: Path
    name: str
    """The file's name without its ending; what `hingeside record` takes."""
    run: str = ""
    title: str = ""
    procedure: str = ""
    site: str = ""
    door: str = ""
    place: str = ""
    """What the person called the site, the door and its place; each may be empty."""
    by: str = ""
    """The name of the person who was last at it; may be empty."""
    device: str = ""
    """The device on which the run began."""
    started: str = ""
    updated: str = ""
    """UTC of the first and the last event."""
    ended: str = ""
    """UTC of its end, which notes may follow; empty while the run can go on."""
    outcome: str = ""
    """One of `OUTCOMES`; empty while the run can go on."""
    why: str = ""
    """The reason that was written down where it was made safe; may be empty."""
    at: str = ""
    """The block it stands at."""
    step: str = ""
    """That block in its short words."""
    stopped: bool = False
    lines: int = 0
    digest: str = ""
    """The lines after the first, and the digest of the last."""
    problem: str = ""
    """Why the run cannot be read; the other fields are then empty."""
    items: str = ""
    """Of an inspection its items, as `guide.run.inspection` writes them; empty for any other job."""
    missing: str = ""
    """What this device knows of the run and the file no longer holds, as a sentence."""
    twin: str = ""
    """The name of another file that holds the same run, or the beginning of it."""
    diverged: str = ""
    """The name of another file of the same run, which was continued in another way."""
    elsewhere: str = ""
    """The name of a run of the same procedure at the same door, begun on another device."""


_COMPARED = ("twin", "diverged", "elsewhere")
"""What a run is beside the others; seen when they are listed together."""
_COLUMNS = [one.name for one in fields(RunSummary) if one.name not in ("path", *_COMPARED)]
_BUSY = (
    *(sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM),
    *(sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR),
)
"""Refusals that say nothing of the catalogue itself: another program has it, or the disk does not take it."""
_KEYS = ("size", "mtime", "inode")
"""What must be as it was for a line of the catalogue to count."""
Key = tuple[int, int, int]


class Catalogue:
    """The catalogue, open. Where SQLite refuses, it knows nothing and keeps nothing."""

    def __init__(self, path: Path | None = None) -> None:
        self._path = path or user_folder() / _FILE
        self._doubtful = False
        """Whether the file holds what no catalogue of this form does."""
        self._db = self._opened()
        if self._doubtful:
            self._db = self._opened(afresh=True)

    def __enter__(self) -> "Catalogue":
        return self

    def __exit__(self, *_: object) -> None:
        if self._db is not None:
            self._db.close()

    def known(self) -> dict[str, tuple[Key, RunSummary]]:
        """Every line, by the name of the run's file."""
        rows = self._rows(f"SELECT {', '.join((*_KEYS, *_COLUMNS))} FROM run")
        found = {}
        for row in rows:
            values = dict(zip(_COLUMNS, row[3:], strict=True))
            values["stopped"] = bool(values["stopped"])
            name = values["name"]
            found[name] = (row[:3], RunSummary(runs_folder() / f"{name}{ENDING}", **values))
        return found

    def keep(self, key: Key, summary: RunSummary, digests: list[str]) -> RunSummary:
        """Keep a line; `digests` are those of the run's file. Gives the line, with what is missing from the file."""
        if digests:
            summary = replace(summary, missing=self.missing(summary.run, digests))
            if not summary.missing:
                self.bear_witness(summary.run, digests)
        values = dict(zip([field.name for field in fields(summary)], astuple(summary), strict=True))
        row = (*key, *(values[column] for column in _COLUMNS))
        marks = ", ".join("?" * len(row))
        self._do(f"REPLACE INTO run VALUES ({marks})", row)
        return summary

    def bear_witness(self, run: str, digests: list[str]) -> None:
        """Remember that a run has come so far: one end for each way in which it was continued."""
        for lines, digest in self._ends(run):
            if lines < len(digests) and digests[lines] == digest:
                self._do("DELETE FROM witness WHERE run = ? AND digest = ?", (run, digest))
        self._do("REPLACE INTO witness VALUES (?, ?, ?)", (run, len(digests) - 1, digests[-1]))

    def know_only(self, run: str, digests: list[str]) -> None:
        """Remember this of a run in the place of what was remembered."""
        self._do("DELETE FROM witness WHERE run = ?", (run,))
        self.bear_witness(run, digests)

    def missing(self, run: str, digests: list[str]) -> str:
        """What is known of a run and its file no longer holds, as a sentence; empty where nothing is missed."""
        ends, held = self._ends(run), len(digests) - 1
        if not ends or any(n <= held and digests[n] == digest for n, digest in ends):
            return ""
        gone = max(lines for lines, _ in ends) - held
        return f"{gone} lines known here are gone" if gone > 0 else NOT_THE_FILE

    def _ends(self, run: str) -> list[tuple[int, str]]:
        return self._rows("SELECT lines, digest FROM witness WHERE run = ?", (run,))

    def forget(self, name: str) -> None:
        """Drop the line of a file that is gone; what it witnesses stays."""
        self._do("DELETE FROM run WHERE name = ?", (name,))

    def _rows(self, question: str, values: tuple[Any, ...] = ()) -> list[Any]:
        if self._db is None:
            return []
        try:
            return self._db.execute(question, values).fetchall()
        except sqlite3.Error:
            return []  # it is made again from the logs

    def _do(self, statement: str, values: tuple[Any, ...]) -> None:
        if self._db is not None:
            with contextlib.suppress(sqlite3.Error):  # a full or read-only disk costs speed only
                self._db.execute(statement, values)

    def commit(self) -> None:
        """Keep what was changed."""
        if self._db is not None:
            with contextlib.suppress(sqlite3.Error):
                self._db.commit()

    def _opened(self, *, afresh: bool = False) -> sqlite3.Connection | None:
        """The file, with tables of this form; None where it cannot be had so."""
        db: sqlite3.Connection | None = None
        try:
            if afresh:
                self._path.unlink(missing_ok=True)
            db = sqlite3.connect(self._path, timeout=PATIENCE)
            (form,) = db.execute("PRAGMA user_version").fetchone()
            if form not in (0, STORED_FORM):
                self._doubtful = True
                db.close()
                return None
            db.execute("PRAGMA synchronous=OFF")
            if not form:
                columns = ", ".join((*_KEYS, *_COLUMNS, "PRIMARY KEY (name)"))
                db.execute(f"CREATE TABLE IF NOT EXISTS run ({columns})")
                db.execute(
                    "CREATE TABLE IF NOT EXISTS witness (run, lines, digest, PRIMARY KEY (run, digest))"
                )
                db.execute(f"PRAGMA user_version={STORED_FORM}")
                db.commit()
            db.execute(f"SELECT {', '.join((*_KEYS, *_COLUMNS))} FROM run LIMIT 1")
        except (sqlite3.Error, OSError) as error:
            self._doubtful = getattr(error, "sqlite_errorcode", _BUSY[0]) & 0xFF not in _BUSY
            if db is not None:
                db.close()
            return None
        return db


def note(path: Path) -> None:
    """Bring the catalogue up to date with one run, which has just been let go of."""
    for _ in read_now([path]):
        pass


def repaired(found: Reading) -> None:
    """Remember a run as it is now: it has become shorter, and says so itself."""
    if found.header is not None:
        with Catalogue() as kept:
            kept.know_only(found.header.run, found.digests)
            kept.commit()


def taken_in(runs: Iterable[tuple[str, list[str]]]) -> None:
    """Remember runs that came from another device, each with its digests, also where one went another way there."""
    with Catalogue() as kept:
        for run, digests in runs:
            kept.bear_witness(run, digests)
        kept.commit()


def at_once() -> tuple[list[RunSummary], list[Path]]:
    """The runs that the catalogue knows as they are, and the files that must be read, the latest first."""
    folder = runs_folder()
    if not folder.is_dir():
        return [], []
    known: list[RunSummary] = []
    unread: list[tuple[int, Path]] = []
    with Catalogue() as kept:
        lines = kept.known()
        for path in folder.glob(f"*{ENDING}"):
            key = _key(path)
            line = lines.pop(path.stem, None)
            if line is not None and line[0] == key:
                known.append(line[1])
            elif key is not None:
                unread.append((key[1], path))
        for name in lines:
            kept.forget(name)
        kept.commit()
    return known, [path for _, path in sorted(unread, reverse=True)]


def read_now(paths: list[Path]) -> Iterator[RunSummary]:
    """Read these files and keep what they say, one at a time."""
    with Catalogue() as kept:
        for path in paths:
            key = _key(path)
            if key is not None:
                summary = kept.keep(key, *_read(path))
                kept.commit()
                yield summary


def missing_lines(found: Reading) -> str:
    """What this device knows of a run and its file no longer holds, as a sentence; empty where nothing is missed."""
    if found.header is None:
        return ""
    with Catalogue() as kept:
        return kept.missing(found.header.run, found.digests)


def _key(path: Path) -> Key | None:
    try:
        found = path.lstat()
    except OSError:
        return None
    return found.st_size, found.st_mtime_ns, found.st_ino


# --- a run's line, from the first two lines of its log and the last ---


def summary_of(path: Path) -> RunSummary:
    """One line for a run file, whatever state it is in."""
    return _read(path)[0]


def _read(path: Path) -> tuple[RunSummary, list[str]]:
    """The same, with the digest of each line; none where the file cannot be listed."""
    try:
        data = bytes_of(path)
        lines = data.split(b"\n")[:-1]
        digests = chain_of(lines)
        kinds = {kind.decode("ascii", "replace") for kind in _KIND.findall(data)}
        header = read_header(lines[0])
        ends = read_line(lines[1], graph=False), read_line(lines[-1], graph=False)
        if kinds <= {*KINDS}:
            return _summary(path, header, ends, kinds, lines), digests
        problem = _problem(path)
    except (BadLine, *MISFITS):
        problem = _problem(path)
    except JournalError as error:
        problem = str(error)
    return RunSummary(path, path.stem, problem=problem), []


def _problem(path: Path) -> str:
    """What is wrong with a file that cannot be listed."""
    try:
        found = read_log(path)
        fault = found.fault()
        fold(found.events)
    except JournalError as error:
        return str(error)
    except MISFITS:
        fault = None
    return str(fault or f"The run file {printable(path.name)} does not hold a whole run.")


def _summary(
    path: Path, header: Header, ends: tuple[LogLine, LogLine], kinds: set[str], lines: list[bytes]
) -> RunSummary:
    first, last = ends
    body = first.events[0][2]
    about, packed = body["about"], body["graph"]
    graph = _graph(packed["sha256"], packed["zlib"])
    words = _words(packed["sha256"], packed["zlib"]).get(last.at.partition("#")[0])
    outcome, ended, why = _end(lines)
    inspects = graph.get("purpose") == INSPECTION
    return RunSummary(
        path,
        path.stem,
        run=header.run,
        device=printable(header.device),
        title=printable(str(body.get("title", ""))),
        procedure=printable(str(body.get("procedure", ""))),
        site=printable(str(about.get("site", ""))),
        door=printable(str(about.get("door", ""))),
        place=printable(str(about.get("place", ""))),
        by=printable(last.by or first.by),
        started=first.utc,
        updated=last.utc,
        ended=ended,
        outcome=outcome,
        why=printable(why),
        at=printable(last.at),
        step=printable(words or last.at),
        stopped=not outcome and "cut begun" in kinds and _stopped(path),
        lines=last.n,
        digest=last.digest,
        items=_items(header.run, lines) if inspects else "",
    )


def _end(lines: list[bytes]) -> tuple[str, str, str]:
    """The outcome of a job, when it ended, and the reason that was written down; all empty while it can go on."""
    for line in reversed(lines):
        if _ENDED.search(line):
            read = read_line(line)
            kind, body = next((k, b) for _, k, b in reversed(read.events) if k in _ENDS)
            outcome = body.get("outcome", "") if kind == "ended" else ""
            why = str(body.get("why", "")) if outcome else ""
            return (outcome, read.utc, why) if outcome in OUTCOMES else ("", "", "")
    return "", "", ""


def _items(run: str, lines: list[bytes]) -> str:
    """The items of an inspection. Its graph is read once for all the runs that have the same."""
    events: list[Event] = []
    for line in (read_line(one, graph=False) for one in lines[1:]):
        events += [
            Event(id_, run, line.device, len(events) + 1 + place, line.utc, kind, body, line.by)
            for place, (id_, kind, body) in enumerate(line.events)
        ]
    packed = events[0].body["graph"]
    state = start(events[0], _ready(packed["sha256"], packed["zlib"]))
    for event in events[1:]:
        state = step(state, event)
    return written_items(items_of(state))


def _stopped(path: Path) -> bool:
    """Only a run with a cut can have stopped; of such a one every event is read."""
    return fold(read_log(path).events).status == STOPPED


def _left_open(inner: str) -> str:
    """A measure as it is written in the procedure; a fact is not known here."""
    return inner if is_quantity(inner) else "…"


@lru_cache(maxsize=64)
def _graph(sha256: str, packed: str) -> dict[str, Any]:
    """A compressed graph as plain data."""
    graph: dict[str, Any] = unpacked({"sha256": sha256, "zlib": packed})
    if graph["format"] != STORED_FORM:
        raise BadLine("a graph of another version")
    return graph


@lru_cache(maxsize=8)
def _ready(sha256: str, packed: str) -> Graph:
    """The same, ready to be gone through."""
    return runnable(_graph(sha256, packed))


@lru_cache(maxsize=64)
def _words(sha256: str, packed: str) -> dict[str, str]:
    """Each block of a compressed graph in its short words, by its id; a value in them is left open."""
    graph = _graph(sha256, packed)
    facts = {fact["name"]: fact.get("say") or fact.get("ask", "") for fact in graph["facts"]}
    words = {}
    for id_, _, body, *_ in graph["nodes"]:
        said = body.get("say") or facts.get(body.get("fact", "")) or body.get("text") or id_
        words[id_] = fill(said, _left_open).rstrip(".")
    return words
