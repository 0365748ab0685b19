"""Runs kept in files, as the program keeps them."""

import hashlib
import json
from pathlib import Path
from typing import Any

from guide.run.log.form import plain
from guide.run.log.writing import Log
from guide.run.session import Session
from guide.run.store import begin_run
from tests.run.small_procedures import give, small

PLACES = ("leaf-of", "fire-door", "wedge", "how-wide", "show-size", "count-holes")


def kept_session(door: str = "Gym store") -> Session:
    """A run of the gym store that stands at its hold, still open."""
    session = begin_run(small("gym-store"), units="inch", about={"door": door})
    give(session, "wood", "no", "done", "36 in", "done", "0")
    return session


def kept_run(door: str = "Gym store") -> Path:
    """The same, paused; its file."""
    session = kept_session(door)
    session.send(("paused", {}))
    session.close()
    return path_of(session)


def path_of(session: Session) -> Path:
    assert isinstance(session.journal, Log)
    return session.journal.path


def lines_of(path: Path) -> list[bytes]:
    """The lines of a log, each with its end."""
    return path.read_bytes().splitlines(keepends=True)


def tamper(path: Path, line: int, old: bytes, new: bytes) -> None:
    """Change the words of one line behind the program's back."""
    lines = lines_of(path)
    assert old in lines[line]
    lines[line] = lines[line].replace(old, new)
    path.write_bytes(b"".join(lines))


def chained_anew(path: Path, lines: list[dict[str, Any]]) -> Path:
    """Write these lines into the file in the place of its own, each with its digest and the one before it: what
    nobody could see from the file alone."""
    texts, previous = [], ""
    for number, line in enumerate(lines):
        before = plain({**line, "n": number, "prev": previous})[:-1]
        previous = hashlib.sha256(before).hexdigest()
        texts.append(before + b',"digest":"%b"}\n' % previous.encode())
    path.write_bytes(b"".join(texts))
    return path


def parsed(path: Path) -> list[dict[str, Any]]:
    """The lines of a log as data, without their digests."""
    lines = [json.loads(line) for line in lines_of(path)]
    return [{key: value for key, value in line.items() if key != "digest"} for line in lines]
