"""Events: what happened in a run, in order."""

from typing import Any, NamedTuple

KINDS = (
    "started",
    "answered",
    "heard",
    "confirmed",
    "worked",
    "done",
    "timed",
    "noted",
    "photo added",
    "corrected",
    "revised",
    "cut begun",
    "cut resolved",
    "hold passed",
    "paused",
    "resumed",
    "repaired",
    "ended",
    "taken up",
)
"""Every kind that this version knows. A renamed one raises STORED_FORM; of a new one, another version says that it
does not know it."""


class Event(NamedTuple):
    """One thing that happened; never edited."""

    id: str
    run: str
    device: str
    seq: int
    """Counted from 1 within the run, without gaps."""
    utc: str
    """ISO 8601, to the millisecond, ending in Z."""
    kind: str
    body: dict[str, Any]
    by: str = ""
    """The name of the person at the device, from the settings; may be empty."""
    offset: str = "+00:00"
    """How far the device's clock was ahead of UTC."""
    digest: str = ""
    """The digest of the line of the log that holds it; empty while it is kept in memory only."""
