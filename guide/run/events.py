"""Events: what happened in a run, in order, each chained to the one before it by its digest."""

import hashlib
import json
from dataclasses import dataclass
from typing import Any

KINDS = (
    "started",
    "answered",
    "heard",
    "confirmed",
    "worked",
    "done",
    "timed",
    "noted",
    "revised",
    "cut begun",
    "cut resolved",
    "hold passed",
    "paused",
    "resumed",
    "ended",
)
"""Every kind that this version knows. A new or renamed one raises STORED_FORM."""
FIRST_HASH = "0" * 64
"""What the first event of a run is chained to."""


@dataclass(frozen=True, slots=True)
class Event:
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
    prev_hash: str
    """The digest of the event before this one, or FIRST_HASH."""

    def body_text(self) -> str:
        """The body in the one writing that is stored and digested."""
        return canonical(self.body)

    def digest(self) -> str:
        """SHA-256 over every field, the body in its canonical writing."""
        return digest_of(
            (self.id, self.run, self.device, self.seq, self.utc, self.kind),
            self.body_text(),
            self.prev_hash,
        )


def canonical(body: dict[str, Any]) -> str:
    """JSON with sorted keys and no spaces."""
    return json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def digest_of(head: tuple[str | int, ...], body_text: str, prev_hash: str) -> str:
    """The digest of an event from its stored columns."""
    text = json.dumps([*head, body_text, prev_hash], separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()
