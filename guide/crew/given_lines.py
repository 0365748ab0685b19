"""Lines as a server gives them: each compared with its digest, and put together to the files of a run."""

import hashlib
import re

from guide.crew.lines import Key
from guide.errors import FOUND, HingesideError
from guide.run.log.form import (
    DIGEST,
    EVENTS_AT_MOST,
    LINE_AT_MOST,
    BadLine,
    before_of,
    read_header,
    read_line,
)
from guide.run.log.reading import ENDING

_END = ',"digest":"{}"}}'
NO_NUMBERS = "The server gives numbers that no job has."
_PLAIN = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
Row = tuple[int, str, bytes]
"""The number, the digest and the bytes of a line."""
Lines = dict[str, tuple[int, str, bytes]]
"""By the digest: the number, the digest of the line before, the bytes."""


class Altered(HingesideError):
    """What the server gives is not what was written; the message says of which run. Nothing of it is kept."""

    status = FOUND


def checked(rows: list[Row]) -> Lines:
    """The lines of a run that is not here. Raises Altered."""
    found = {}
    for n, digest, raw in rows:
        if not is_key((n, digest)):
            raise Altered(NO_NUMBERS)
        need_line(n, digest, raw)
        found[digest] = (n, line_before(n, raw), raw)
    return found


def need_line(n: int, digest: str, raw: bytes) -> None:
    """Raises Altered where the bytes are not the line of that digest."""
    if not _is_line(raw, digest):
        raise Altered(f"Its line {n} is not the one that was written; tell the server's owner.")


def last_lines(there: set[Key], lines: Lines) -> set[Key]:
    """The last of the lines that are on the server, one for each way."""
    followed = {lines[digest][1] for _, digest in there}
    return {(n, digest) for n, digest in there if digest not in followed}


def is_key(key: Key) -> bool:
    """Whether a line of a job can have that number and digest."""
    n, digest = key
    return isinstance(n, int) and 0 <= n <= EVENTS_AT_MOST and DIGEST.fullmatch(digest) is not None


def _is_line(raw: bytes, digest: str) -> bool:
    end = _END.format(digest).encode()
    whole = raw.endswith(end) and len(raw) < LINE_AT_MOST and b"\n" not in raw
    return whole and hashlib.sha256(raw[: -len(end)]).hexdigest() == digest


def line_before(n: int, raw: bytes) -> str:
    """The digest of the line before a line; raises Altered where its number is another, or it is not a line."""
    try:
        before = (0, "") if n == 0 and read_header(raw) else before_of(raw)
    except BadLine:
        before = None
    if before is None:
        raise Altered(f"Its line {n} is not a line of a job of this version.")
    if before[0] != n:
        raise Altered(f"Its line {n} is not the one that was written; tell the server's owner.")
    return before[1]


def chains_of(lines: Lines, run: str) -> list[bytes]:
    """The files that these lines make: one for each way in which the run was continued. Raises Altered for a gap."""
    if not lines:
        raise Altered("The server lists it and has none of its lines; tell the server's owner.")
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


def name_of_file(data: bytes, run: str) -> str:
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
