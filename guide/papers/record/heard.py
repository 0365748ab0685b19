"""The spoken answers of a run: the words recognized, their read-back, and whether they were confirmed."""

from collections.abc import Iterable
from typing import Any

from guide.run.events import Event
from guide.run.state import State, occurrence_of

CONFIRMED, DENIED, REPLACED, DROPPED, WAITING = (
    "confirmed",
    "denied",
    "replaced",
    "dropped",
    "waiting for a yes",
)


def heard_data(state: State, events: Iterable[Event]) -> list[dict[str, Any]]:
    """Every answer heard, in order: place, words, confidence (0 to 1), what was read back, what became of it.

    Words and confidence are empty and None if a journal was written before they were kept.
    """
    found: list[dict[str, Any]] = []
    for event in events:
        open_row = found[-1] if found and found[-1]["became"] == WAITING else None
        body = event.body
        if open_row is not None:
            if event.kind == "confirmed":
                open_row["became"] = CONFIRMED if body.get("yes") else DENIED
            elif event.kind in ("heard", "revised"):
                open_row["became"] = REPLACED
            elif event.kind in ("resumed", "ended"):
                open_row["became"] = DROPPED
        if event.kind == "heard" and body.get("by") == "voice":
            found.append(_row(state, event))
    return found


def _row(state: State, event: Event) -> dict[str, Any]:
    body = event.body
    at = occurrence_of(state.graph, str(body["at"]))
    assert at is not None  # the run took the event
    fact = state.graph.facts[state.graph.nodes[at[0]].body["fact"]]
    return {
        "utc": event.utc,
        "at": body["at"],
        "question": fact.question(state.units) or fact.name.replace("_", " "),
        "words": body.get("words", ""),
        "confidence": body.get("confidence"),
        "value": body["value"],
        "read_back": fact.show(fact.decode(str(body["value"])), state.units),
        "became": WAITING,
    }


def heard_lines(state: State, events: Iterable[Event], longest: int) -> list[str]:
    """The same as lines of a record; no line if nothing was heard."""
    lines = []
    for row in heard_data(state, events):
        words = f"“{row['words'][:longest]}”" if row["words"] else "an answer"
        surely = "" if row["confidence"] is None else f" ({row['confidence']:.2f})"
        lines.append(
            f"{row['at']}: heard {words}{surely}, read back {row['read_back']}, {row['became']}"
        )
    return lines
