"""The requests of the first screen to the app."""

from pathlib import Path
from typing import NamedTuple


class NewJob(NamedTuple):
    """Begin a run."""

    procedure: Path
    door: str
    """The number and place of the door, in one line; may be empty."""
    sheet: Path | None


class GoOn(NamedTuple):
    """Go on with a run."""

    path: Path


class SetAside(NamedTuple):
    """Set a damaged run aside, and go on with what could be read of it."""

    path: Path


class ReadRecord(NamedTuple):
    """Show the record of a run."""

    path: Path


class Practise(NamedTuple):
    """Practise on a model door."""

    path: Path | None
    """The door's file; None for a door by chance."""


Request = NewJob | GoOn | SetAside | ReadRecord | Practise
