"""A new job as the first screen puts it together."""

from pathlib import Path
from typing import NamedTuple


class NewJob(NamedTuple):
    """Begin a run."""

    procedure: Path
    door: str
    """The number and place of the door, in one line; may be empty."""
    sheet: Path | None
    like: Path | None = None
    """A job whose opening is offered again: the same door, or one that is its like."""
