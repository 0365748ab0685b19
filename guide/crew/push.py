"""Sending the lines that a crew's server does not have. Where to go on is what the server itself has."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import islice
from pathlib import Path
from typing import Any

from guide.crew.lines import MARKS_OF, MOST_BYTES, Batch, LocalRun, keys_on, local_runs, mark
from guide.crew.seen import Seen
from guide.crew.server import Server
from guide.crew.shared_files import push_files
from guide.run.log.form import EVENTS_AT_MOST

RUNS_AT_ONCE = 200
"""Runs that are compared with one question."""
WAYS_AT_MOST = 16
"""Lines that a run may have on a server, as a multiple of what one file may have: ways in which it was continued."""
ADD = (
    "INSERT INTO hingeside.line (run, n, digest, raw) "
    "SELECT * FROM unnest(%s::text[], %s::integer[], %s::text[], %b::bytea[]) ON CONFLICT DO NOTHING"
)
Row = tuple[str, int, str, bytes]


@dataclass(slots=True)
class Pushed:
    """What was sent."""

    runs: int
    """Runs of this device."""
    sent: int
    """Lines that the server did not have."""
    files: int
    """Photos, sites, sheets and procedures that it did not have, or not so."""
    again: int
    """Runs of which it had lines before, and had them no longer."""
    left: list[str]
    """A sentence on each file that was not sent."""


def push(
    server: Server, folder: Path, progress: Callable[[int, int], None] = lambda number, whole: None
) -> Pushed:
    """Send what the server does not have of the runs of a folder, and of the shared files beside it.

    `progress` gets the number of runs done, and of all.

    Raises ServerError; what was sent until then stays there, and the next push goes on after it.
    """
    runs, left = local_runs(folder)
    seen = Seen(folder.parent, server.place)
    done = Pushed(len(runs), 0, 0, 0, left)
    compared = 0
    names = iter(sorted(runs))
    if not runs:
        server.do(lambda connection: connection.execute(MARKS_OF, ([],)))  # is it there, and ours
    try:
        while some := list(islice(names, RUNS_AT_ONCE)):
            gone: set[str] = set()
            rows = _missing(server, {name: runs[name] for name in some}, seen, gone)
            done.sent += _send(server, _counted(rows, compared, len(runs), progress))
            done.again += len(gone)
            compared += len(some)
            for name in some:
                seen.note(name, runs[name].ends | (seen.ends(name) - runs[name].keys))
        done.files = push_files(server, folder.parent, seen, left)
    finally:
        seen.keep()
    return done


def _counted(
    rows: Iterator[Row], before: int, whole: int, progress: Callable[[int, int], None]
) -> Iterator[Row]:
    """The same rows; each new run among them counts."""
    number, last = before, ""
    for row in rows:
        if row[0] != last:
            number, last = number + 1, row[0]
            progress(number, whole)
        yield row


def _missing(
    server: Server, runs: dict[str, LocalRun], seen: Seen, gone: set[str]
) -> Iterator[Row]:
    """The lines of these runs that the server does not have, in order; `gone` gets each run of which it had them."""

    def asked(connection: Any) -> dict[str, str]:
        return dict(connection.execute(MARKS_OF, (list(runs),)).fetchall())

    there = server.do(asked)
    for name, run in runs.items():
        if there.get(name) == mark(run.keys):
            continue
        most = EVENTS_AT_MOST * WAYS_AT_MOST
        known = keys_on(server, name, most) if name in there else set()
        if not seen.ends(name) <= known:
            gone.add(name)
        lines = run.lines()
        for n, digest in sorted(run.keys - known):
            if (n, digest) in lines:
                yield name, n, digest, lines[n, digest]


def _send(server: Server, rows: Iterator[Row]) -> int:
    batch, sent = Batch(), 0
    waiting: list[Row] = []
    while True:
        waiting += islice(rows, max(0, batch.size - len(waiting)))
        if not waiting:
            return sent
        through, added = server.do(partial(_add, waiting, batch), batch.lost)
        batch.passed()
        sent += added
        del waiting[:through]


def _add(rows: list[Row], batch: Batch, connection: Any) -> tuple[int, int]:
    """Add the first of these; how many they are, and how many of them are new there."""
    part = _part(rows, batch.size)
    columns = [[row[column] for row in part] for column in range(4)]
    return len(part), connection.execute(ADD, columns).rowcount


def _part(rows: list[Row], most: int) -> list[Row]:
    """The first of these, no more than a batch has; at least one."""
    size = 0
    for count, (*_, raw) in enumerate(rows[:most]):
        size += len(raw)
        if size > MOST_BYTES and count:
            return rows[:count]
    return rows[:most]
