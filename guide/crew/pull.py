"""Getting the lines that this device does not have, each compared with its digest before any is believed."""

import re
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, NamedTuple

from guide.crew.given_lines import (
    NO_NUMBERS,
    Altered,
    Lines,
    Row,
    chains_of,
    checked,
    is_key,
    last_lines,
    line_before,
    name_of_file,
    need_line,
)
from guide.crew.lines import (
    MARKS_AFTER,
    MOST_BYTES,
    Batch,
    Key,
    LocalRun,
    keys_on,
    local_runs,
    mark,
)
from guide.crew.push import WAYS_AT_MOST
from guide.crew.seen import Seen
from guide.crew.server import Server, ServerError
from guide.crew.shared_files import pull_files
from guide.crew.sources import RUNS
from guide.crew.taking_in import DataFolder
from guide.errors import HingesideError
from guide.run.log.form import EVENTS_AT_MOST
from guide.text import printable

COUNT = "SELECT count(DISTINCT run) FROM hingeside.line"
GET = (
    "SELECT n, digest, raw FROM hingeside.line "
    "JOIN unnest(%s::integer[], %s::text[]) AS wanted (n, digest) USING (n, digest) WHERE run = %s"
)
GET_WHOLE = (
    "SELECT run, n, digest, raw FROM hingeside.line WHERE run = ANY(%s) "
    "ORDER BY run, n, digest LIMIT %s"
)
_RUN = re.compile(r"[0-9a-f]{32}")


class There(NamedTuple):
    """A run as the server lists it."""

    run: str
    mark: str
    lines: int
    size: int
    """Bytes of all lines."""


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
    seen = Seen(into.folder, server.place)
    hidden = {*seen.runs()}
    batch, after, number = Batch(), "", 0
    try:
        while some := _marks(server, after, batch):
            different = []
            for one in some:
                hidden.discard(one.run)
                here = runs.get(one.run, LocalRun())
                if one.mark == mark(here.keys):
                    into.outcome.known += 1
                    seen.note(one.run, here.ends)
                else:
                    different.append(one)
            for one, rows in _whole_runs(server, different, runs):
                number += 1
                progress(number, max(whole, number))
                _pull_run(server, into, one, runs.get(one.run, LocalRun()), rows, seen)
            number += len(some) - len(different)
            after = some[-1].run
        for run in sorted(hidden):
            _say_hidden(server, into, run, runs, seen)
        pull_files(server, into, seen)
    finally:
        into.finish()
        seen.keep()


def _count(connection: Any) -> int:
    """How many runs the server says it has."""
    return int(connection.execute(COUNT).fetchone()[0])


def _marks(server: Server, after: str, batch: Batch) -> list[There]:
    """The next runs of the server, each with its mark. Raises Altered."""
    found = server.do(partial(_marks_after, after, batch), batch.lost)
    batch.passed()
    names = [one.run for one in found]
    if names != sorted({*names}) or (names and names[0] <= after):
        raise Altered(
            f"The server ({server.name}) lists jobs twice or out of order; tell its owner."
        )
    return found


def _marks_after(after: str, batch: Batch, connection: Any) -> list[There]:
    rows = connection.execute(MARKS_AFTER, (after, batch.size)).fetchall()
    return [There(*row) for row in rows]


def _whole_runs(
    server: Server, different: list[There], here: dict[str, LocalRun]
) -> Iterator[tuple[There, list[Row]]]:
    """Each of these runs, with all of its lines where it is new here and many go at once; else with none."""
    batch, waiting = Batch(), list(different)
    while waiting:
        group, rows = server.do(partial(_get_whole, waiting, batch, here), batch.lost)
        for one in group:
            yield one, rows.get(one.run, [])
        if group:
            batch.passed()
        else:
            yield waiting[0], []
        del waiting[: max(1, len(group))]


def _group(waiting: list[There], most: int, here: dict[str, LocalRun]) -> list[There]:
    """The first of these that can be asked for with one question: new here, and not too large together."""
    lines = size = 0
    for count, one in enumerate(waiting):
        lines, size = lines + one.lines, size + one.size
        if one.run in here or lines > most or size > MOST_BYTES:
            return waiting[:count]
    return waiting


def _get_whole(
    waiting: list[There], batch: Batch, here: dict[str, LocalRun], connection: Any
) -> tuple[list[There], dict[str, list[Row]]]:
    """The first of these runs that go together, and their lines; none where the server has more than it said."""
    group = _group(waiting, batch.size, here)
    rows: dict[str, list[Row]] = {}
    if group:
        most = sum(one.lines for one in group)
        values = ([one.run for one in group], most + 1)
        found = connection.execute(GET_WHOLE, values, binary=True).fetchall()
        for run, n, digest, raw in found:
            rows.setdefault(run, []).append((n, digest, raw))
        group = group if len(found) <= most else []
    return group, rows


def _say_hidden(
    server: Server, into: DataFolder, run: str, runs: dict[str, LocalRun], seen: Seen
) -> None:
    """Say that the server no longer has a run; of one that is not here either it is said once."""
    gone = f"The server ({server.name}) no longer has the job {run[:8]}, which was there."
    if run in runs:
        name = printable(min(runs[run].paths).stem)
        into.outcome.left.append(f"{gone} It is here as {name}; ask the owner, or push it again.")
    else:
        seen.forget(run)
        into.outcome.left.append(f"{gone} It is not here either; ask the owner.")


def _pull_run(
    server: Server, into: DataFolder, one: There, here: LocalRun, rows: list[Row], seen: Seen
) -> None:
    run = one.run
    short = run[:8] if _RUN.fullmatch(run) else "with no such id"
    try:
        if not _RUN.fullmatch(run):
            raise Altered(NO_NUMBERS)
        if rows:
            lines = checked(rows)
            there = {(n, digest) for n, digest, _ in rows}
        else:
            lines, there = _lines(server, run, here)
        for data in chains_of(lines, run):
            into.take_run(name_of_file(data, run), data)
        if not seen.ends(run) <= there:
            raise Altered("Lines of it that were there are gone; ask the owner, and push it again.")
        seen.note(run, last_lines(there, lines))
    except ServerError:
        raise
    except HingesideError as error:
        into.outcome.left.append(f"Left out: the job {short} of the server. {error}")


def _lines(server: Server, run: str, here: LocalRun) -> tuple[Lines, set[Key]]:
    """Every line of a run, of here and of there, and the keys of those that are there. Raises Altered."""
    most = EVENTS_AT_MOST * WAYS_AT_MOST
    there = keys_on(server, run, most)
    if len(there) > most or not all(map(is_key, there)):
        raise Altered(NO_NUMBERS)
    found = {key: raw for key, raw in here.lines().items() if key in here.keys}
    wanted = sorted(there - here.keys)
    batch = Batch()
    while wanted:
        through, rows = server.do(partial(_get, run, wanted, batch), batch.lost)
        batch.passed()
        asked = set(wanted[:through])
        for n, digest, raw in rows:
            need_line(n, digest, raw if (n, digest) in asked else b"")
            found[n, digest] = raw
        del wanted[:through]
    lines = {digest: (n, line_before(n, raw), raw) for (n, digest), raw in found.items()}
    return lines, there & found.keys()


def _get(
    run: str, wanted: list[Key], batch: Batch, connection: Any
) -> tuple[int, list[tuple[int, str, bytes]]]:
    """The first of these lines; how many were asked for, and what came."""
    part = wanted[: batch.size]
    values = ([n for n, _ in part], [digest for _, digest in part], run)
    rows = connection.execute(GET, values, binary=True)
    return len(part), rows.fetchall()
