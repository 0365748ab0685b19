"""Runs kept in files, as the program keeps them."""

import sqlite3
from pathlib import Path

from guide.run.journal import Journal
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
    assert isinstance(session.journal, Journal)
    return session.journal.path


def tamper(path: Path, *statements: str) -> None:
    """Change the stored events behind the program's back."""
    db = sqlite3.connect(path)
    for statement in statements:
        db.execute(statement)
    db.commit()
    db.close()
