"""Getting the lines that this device does not have, each compared with its digest before any is believed."""

import hashlib
import re
from collections.abc import Callable
from functools import partial
from typing import Any

from guide.crew.lines import MARKS_AFTER, Batch, Key, LocalRun, keys_on, local_runs, mark
from guide.crew.push import WAYS_AT_MOST
from guide.crew.server import Server, ServerError
from guide.crew.sources import RUNS
from guide.crew.taking_in import DataFolder
from guide.errors import FOUND, HingesideError
from guide.run.log.form import EVENTS_AT_MOST, LINE_AT_MOST, BadLine, read_header, read_line
from guide.run.log.reading import ENDING

COUNT = "SELECT count(DISTINCT run) FROM hingeside.line"
GET = (
    "SELECT n, digest, raw FROM hingeside.line "
    "JOIN unnest(%s::integer[], %s::text[]) AS wanted (n, digest) USING (n, digest) WHERE run = %s"
)
_RUN = re.compile(r"[0-9a-f]{32}")
_DIGEST = re.compile(r"[0-9a-f]{64}")
_END = ',"digest":"{}"}}'
_PLAIN = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
Lines = dict[str, tuple[int, str, bytes]]
"""By the digest: the number, the digest of the line before, the bytes."""


class Altered(HingesideError):
    """What the server gives is not what was written; the message says of which run. Nothing of it is kept."""

    status = FOUND


def pull(
    server: Server,
    into: DataFolder,
    progress: Callable[[int, int], None] = lambda number, whole: None,
) -> None:
    """Take in what the server has and a folder has not; `progress` gets the number of each run, and of all.

    What a server alters or holds back is a sentence of the outcome. Raises ServerError; the runs that were
    complete until then are kept, and the next pull goes on after them.
    """
    runs, left = local_runs(into.folder / RUNS)
    into.outcome.left += left
    whole = server.do(_count)
    batch, after, number = Batch(), "", 0
    while some := _marks(server, after, batch):
        for run, there in some:
            here = runs.get(run, LocalRun())
            number += 1
            progress(number, max(whole, number))
            if there == mark(here.keys):
                into.outcome.known += 1
            else:
                _pull_run(server, into, run, here)
        after = some[-1][0]


def _count(connection: Any) -> int:
    """How many runs the server says it has."""
    return int(connection.execute(COUNT).fetchone()[0])


def _marks(server: Server, after: str, batch: Batch) -> list[tuple[str, str]]:
    """The next runs of the server, each with its mark. Raises Altered."""
    found = server.do(partial(_marks_after, after, batch), batch.lost)
    batch.passed()
    names = [run for run, _ in found]
    if names != sorted({*names}) or (names and names[0] <= after):
        raise Altered(
            f"The server ({server.name}) lists jobs twice or out of order; tell its owner."
        )
    return found


def _marks_after(after: str, batch: Batch, connection: Any) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = connection.execute(MARKS_AFTER, (after, batch.size)).fetchall()
    return found


def _pull_run(server: Server, into: DataFolder, run: str, here: LocalRun) -> None:
    short = run[:8] if _RUN.fullmatch(run) else "with no such id"
    try:
        lines = _lines(server, run, here)
        for data in _chains(lines, run):
            into.take_run(_name(data, run), data)
    except ServerError:
        raise
    except HingesideError as error:
        into.outcome.left.append(f"Left out: the job {short} of the server. {error}")


def _lines(server: Server, run: str, here: LocalRun) -> Lines:
    """Every line of a run, of here and of there. Raises Altered."""
    most = EVENTS_AT_MOST * WAYS_AT_MOST
    there = keys_on(server, run, most)
    if not _RUN.fullmatch(run) or len(there) > most or not all(map(_is_key, there)):
        raise Altered("The server gives numbers that no job has.")
    found = {key: raw for key, raw in here.lines().items() if key in here.keys}
    wanted = sorted(there - here.keys)
    batch = Batch()
    while wanted:
        through, rows = server.do(partial(_get, run, wanted, batch), batch.lost)
        batch.passed()
        asked = set(wanted[:through])
        for n, digest, raw in rows:
            if (n, digest) not in asked or not _is_line(raw, digest):
                raise Altered(
                    f"Its line {n} is not the one that was written; tell the server's owner."
                )
            found[n, digest] = raw
        del wanted[:through]
    return {digest: (n, _before(n, raw), raw) for (n, digest), raw in found.items()}


def _get(
    run: str, wanted: list[Key], batch: Batch, connection: Any
) -> tuple[int, list[tuple[int, str, bytes]]]:
    """The first of these lines; how many were asked for, and what came."""
    part = wanted[: batch.size]
    values = ([n for n, _ in part], [digest for _, digest in part], run)
    rows = connection.execute(GET, values, binary=True)
    return len(part), rows.fetchall()


def _is_key(key: Key) -> bool:
    n, digest = key
    return isinstance(n, int) and 0 <= n <= EVENTS_AT_MOST and _DIGEST.fullmatch(digest) is not None


def _is_line(raw: bytes, digest: str) -> bool:
    end = _END.format(digest).encode()
    whole = raw.endswith(end) and len(raw) < LINE_AT_MOST and b"\n" not in raw
    return whole and hashlib.sha256(raw[: -len(end)]).hexdigest() == digest


def _before(n: int, raw: bytes) -> str:
    """The digest of the line before a line; raises Altered where its number is another, or it is not a line."""
    try:
        if n == 0:
            read_header(raw)
            return ""
        line = read_line(raw, graph=False)
    except BadLine:
        raise Altered(f"Its line {n} is not a line of a job of this version.") from None
    if line.n != n:
        raise Altered(f"Its line {n} is not the one that was written; tell the server's owner.")
    return line.prev


def _chains(lines: Lines, run: str) -> list[bytes]:
    """The files that these lines make: one for each way in which the run was continued. Raises Altered for a gap."""
    followed = {prev for _, prev, _ in lines.values()}
    chains = []
    for last in sorted(digest for digest in lines if digest not in followed):
        way: list[bytes] = []
        digest = last
        while digest:
            if digest not in lines:
                n = lines[last][0] - len(way)
                raise Altered(
                    f"Its line {n} is not on the server; push from the device that has it."
                )
            _, before, raw = lines[digest]
            way.append(raw)
            digest = before
        if read_header(way[-1]).run != run:
            raise Altered("Its first line is of another job; tell the server's owner.")
        chains.append(b"".join(raw + b"\n" for raw in reversed(way)))
    return chains


def _name(data: bytes, run: str) -> str:
    """A name for the file of a run, much as the device that began it gave: its procedure, and when it began."""
    lines = data.split(b"\n", 2)
    procedure, stamp = "job", ""
    try:
        first = read_line(lines[1], graph=False)
        stamp = re.sub(r"[-:]|\..*", "", first.utc).replace("T", "-")
        said = first.events[0][2].get("procedure", "")
        procedure = said if isinstance(said, str) and _PLAIN.fullmatch(said[:80]) else procedure
    except (BadLine, IndexError):
        pass  # the run is refused a moment later, with what is wrong with it
    return f"{procedure}-{stamp}-{run[:4]}{ENDING}"
