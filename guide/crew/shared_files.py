"""Photos, sites, sheets and procedures by a crew's server: versions of files, each known by its name and digest.

A version names the one that it was made from, so that a site that was changed on one device follows on the others. A
photo never changes. Of anything else that differs both stay, as where two devices are merged: nobody else's sheet
comes in the place of one's own.
"""

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from pathlib import Path, PurePosixPath
from typing import Any

from guide.crew.lines import MOST_BYTES, Batch
from guide.crew.seen import Seen
from guide.crew.server import Server
from guide.crew.sources import SHARED, BadPiece, is_plain, pieces_in
from guide.crew.taking_in import DataFolder, plain_name
from guide.errors import HingesideError
from guide.text import printable

LARGEST = 32 << 20
"""Bytes of a file that goes by a server, as the server checks too."""
RENEWED = "sites"
"""The folder whose files are renewed by later versions of themselves."""
VERSIONS_AFTER = (
    "SELECT name, digest, follows FROM hingeside.file WHERE (name, digest) > (%s, %s) "
    "ORDER BY name, digest LIMIT %s"
)
ADD_FILE = (
    "INSERT INTO hingeside.file (name, digest, follows, raw) "
    "SELECT * FROM unnest(%s::text[], %s::text[], %s::text[], %b::bytea[]) ON CONFLICT DO NOTHING"
)
GET_FILE = "SELECT raw FROM hingeside.file WHERE name = %s AND digest = %s"
File = tuple[str, str, str, bytes]
"""A name, the digest, that of the version before it, and the bytes."""


@dataclass(slots=True)
class Versions:
    """The versions of one file that are on a server."""

    follows: dict[str, str] = field(default_factory=dict)
    """By the digest of each, that of the version it was made from; empty if none is known."""

    @property
    def latest(self) -> list[str]:
        """Those that no other was made from; of a file that two devices changed there are two."""
        made_from = {one for digest, one in self.follows.items() if one != digest}
        return sorted(digest for digest in self.follows if digest not in made_from)

    def leads_to(self, old: str, new: str) -> bool:
        """Whether a version was made from an older one, over any number of others."""
        passed: set[str] = set()
        while new and new not in passed:
            if new == old:
                return True
            passed.add(new)
            new = self.follows.get(new, "")
        return False


def versions_on(server: Server) -> dict[str, Versions]:
    """Every version that the server says it has, by the name of the file."""
    found: dict[str, Versions] = {}
    batch, after = Batch(), ("", "")
    while True:
        rows = server.do(partial(_versions, after, batch), batch.lost)
        batch.passed()
        if not rows or rows[-1][:2] <= after:
            return found
        for name, digest, follows in rows:
            found.setdefault(name, Versions()).follows[digest] = follows
        after = rows[-1][:2]


def _versions(after: tuple[str, str], batch: Batch, connection: Any) -> list[tuple[str, str, str]]:
    rows: list[tuple[str, str, str]] = connection.execute(
        VERSIONS_AFTER, (*after, batch.size)
    ).fetchall()
    return rows


# --- sent ---


def push_files(server: Server, folder: Path, seen: Seen, left: list[str]) -> int:
    """Send the files that the server does not have; how many. `left` gets a sentence on each that was not sent."""
    there = versions_on(server)
    batch, sent = Batch(), 0
    waiting: list[File] = []
    files = _to_send(folder, there, seen, left)
    while True:
        waiting += islice(files, max(0, batch.size - len(waiting)))
        if not waiting:
            return sent
        through, added = server.do(partial(_add, waiting, batch), batch.lost)
        batch.passed()
        sent += added
        for name, digest, *_ in waiting[:through]:
            seen.note_file(name, digest)
        del waiting[:through]


def _to_send(
    folder: Path, there: dict[str, Versions], seen: Seen, left: list[str]
) -> Iterator[File]:
    for piece in pieces_in(folder, lambda name: name in SHARED):
        try:
            data = piece.read()
            if len(data) > LARGEST:
                raise BadPiece(f"It is larger than {LARGEST >> 20} MB.")
            if not is_plain(str(piece.name)):
                raise BadPiece("It has a name that not every system takes; rename it.")
        except HingesideError as error:
            left.append(f"Left out: {printable(str(piece.name))}. {error}")
            continue
        digest = hashlib.sha256(data).hexdigest()
        name = str(plain_name(piece.name, digest))
        if digest not in there.get(name, Versions()).follows:
            yield name, digest, seen.file(name), data
        elif name == str(piece.name):
            seen.note_file(name, digest)


def _add(files: list[File], batch: Batch, connection: Any) -> tuple[int, int]:
    """Add the first of these; how many they are, and how many of them are new there."""
    size = count = 0
    for *_, raw in files[: batch.size]:
        size += len(raw)
        if count and size > MOST_BYTES:
            break
        count += 1
    columns = [[one[column] for one in files[:count]] for column in range(4)]
    return count, connection.execute(ADD_FILE, columns).rowcount


# --- got ---


def pull_files(
    server: Server,
    into: DataFolder,
    seen: Seen,
    progress: Callable[[int, int], None] = lambda number, whole: None,
) -> None:
    """Take in the files that the server has and this device has not. What is wrong is a sentence of the outcome."""
    there = versions_on(server)
    for number, (name, versions) in enumerate(sorted(there.items()), 1):
        progress(number, len(there))
        try:
            if not is_plain(name) or PurePosixPath(name).parts[0] not in SHARED:
                raise BadPiece("No device sends a file of that name.")
            _take(server, into, seen, name, versions)
        except BadPiece as error:
            into.outcome.left.append(
                f"Left out: {printable(name[:80])} of the server ({server.name}). {error}"
            )
    for name in sorted({*seen.files()} - there.keys()):
        seen.forget_file(name)
        into.outcome.left.append(
            f"The server ({server.name}) no longer has {printable(name)}, which was there; ask its owner."
        )


def _take(server: Server, into: DataFolder, seen: Seen, name: str, versions: Versions) -> None:
    path = into.folder / name
    here = _digest_of(path)
    latest = versions.latest
    if here is None and latest == [seen.file(name)]:
        return  # it was deleted here, and has not changed since
    for digest in latest:
        if here is not None and (digest == here or versions.leads_to(digest, seen.file(name))):
            continue  # what is here is that version, or was made from it
        data = _got(server, name, digest)
        renewed = name.startswith(f"{RENEWED}/") and len(latest) == 1
        if renewed and here is not None and versions.leads_to(here, digest):
            into.renew_file(PurePosixPath(name), here, data)
        else:
            into.keep_file(PurePosixPath(name), data)
    if _digest_of(path) in versions.follows:
        seen.note_file(name, _digest_of(path) or "")


def _got(server: Server, name: str, digest: str) -> bytes:
    """The bytes of a version. Raises BadPiece where they are not what was sent."""
    row = server.do(
        lambda connection: connection.execute(GET_FILE, (name, digest), binary=True).fetchone()
    )
    data = bytes(row[0]) if row is not None else b""
    if row is None or len(data) > LARGEST or hashlib.sha256(data).hexdigest() != digest:
        raise BadPiece("It is not what was sent; tell the server's owner.")
    return data


def _digest_of(path: Path) -> str | None:
    """The digest of a file; None where there is none."""
    if path.is_symlink() or not path.is_file():
        return None
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
