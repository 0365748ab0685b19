"""The lines of runs by their keys, here and on the server, and how the two are compared without sending them."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any

from guide.crew.chains import chain_of_file
from guide.crew.server import Server
from guide.run.log.reading import ENDING
from guide.text import printable

Key = tuple[int, str]
"""The number and the digest of a line of a run."""
MOST_LINES, MOST_BYTES = 500, 512 << 10
"""Of one batch."""
_MARK = "encode(sha256(convert_to(string_agg(digest, '' ORDER BY n, digest), 'UTF8')), 'hex')"
MARKS_OF = f"SELECT run, {_MARK} FROM hingeside.line WHERE run = ANY(%s) GROUP BY run"
MARKS_AFTER = (
    f"SELECT run, {_MARK}, count(*), sum(octet_length(raw)) FROM hingeside.line "
    "WHERE run > %s GROUP BY run ORDER BY run LIMIT %s"
)
KEYS_AFTER = (
    "SELECT n, digest FROM hingeside.line WHERE run = %s AND (n, digest) > (%s, %s) "
    "ORDER BY n, digest LIMIT %s"
)


def mark(keys: Iterable[Key]) -> str:
    """One digest of all the lines of a run: the same here and there when the lines are the same."""
    return hashlib.sha256("".join(digest for _, digest in sorted(keys)).encode()).hexdigest()


@dataclass(slots=True)
class LocalRun:
    """The lines of one run in the files of this device."""

    paths: list[Path] = field(default_factory=list)
    keys: set[Key] = field(default_factory=set)
    ends: set[Key] = field(default_factory=set)
    """The last line of each file."""

    def lines(self) -> dict[Key, bytes]:
        """The bytes of each line, without its end."""
        found: dict[Key, bytes] = {}
        for path in self.paths:
            chain = chain_of_file(path)
            if chain is not None:
                found.update(zip(enumerate(chain.digests), chain.data.split(b"\n"), strict=False))
        return found


def local_runs(folder: Path) -> tuple[dict[str, LocalRun], list[str]]:
    """The runs of a folder, and a sentence on each file that is not a sound one."""
    runs: dict[str, LocalRun] = {}
    left = []
    for path in sorted(folder.glob(f"*{ENDING}")):
        chain = chain_of_file(path)
        if chain is None:
            left.append(
                f"Left out: {printable(path.name)}. It is damaged, of another version or not a run."
            )
            continue
        run = runs.setdefault(chain.run, LocalRun())
        run.paths.append(path)
        run.keys.update(enumerate(chain.digests))
        run.ends.add((len(chain.digests) - 1, chain.digests[-1]))
    return runs, left


class Batch:
    """How many lines go at once: fewer after each lost connection, so that a little always gets through."""

    def __init__(self) -> None:
        self.size = MOST_LINES

    def lost(self) -> None:
        """A connection was lost."""
        self.size = max(1, self.size // 4)

    def passed(self) -> None:
        """A batch got through."""
        self.size = min(MOST_LINES, self.size * 2)


def keys_on(server: Server, run: str, most: int) -> set[Key]:
    """The keys of a run that the server says it has; some above `most` where it says it has more."""
    keys: set[Key] = set()
    batch, after = Batch(), (-1, "")
    while len(keys) <= most:
        rows = server.do(partial(_keys, run, after, batch), batch.lost)
        batch.passed()
        if not rows or max(rows) <= after:
            break
        keys.update(rows)
        after = max(rows)
    return keys


def _keys(run: str, after: Key, batch: Batch, connection: Any) -> list[Key]:
    found: list[Key] = connection.execute(KEYS_AFTER, (run, *after, batch.size)).fetchall()
    return found
