"""Stored rows as events, their chain checked. An event of any kind is read: what this version knows is asked later."""

import json
from collections.abc import Iterable

from guide.run.events import FIRST_HASH, Event, digest_of

Row = tuple[object, ...]
"""The columns of one stored event, in the order of Event's fields."""


def sound_part(rows: Iterable[Row]) -> tuple[list[Event], bool]:
    """The events up to the first row that does not fit, and whether that was all of them."""
    events: list[Event] = []
    previous = FIRST_HASH
    for row in rows:
        event = _read(row)
        if event is None or event.seq != len(events) + 1 or event.prev_hash != previous:
            return events, False
        if events and event.run != events[0].run:
            return events, False
        head = (event.id, event.run, event.device, event.seq, event.utc, event.kind)
        previous = digest_of(head, str(row[6]), event.prev_hash)
        events.append(event)
    return events, True


def _read(row: Row) -> Event | None:
    """One row as an event; None where it cannot be one."""
    texts = [column for column in row if isinstance(column, str)]
    if len(row) != 8 or len(texts) != 7 or not isinstance(row[3], int):
        return None
    id_, run, device, utc, kind, body_text, previous = texts
    try:
        body = json.loads(body_text)
    except (ValueError, RecursionError):
        return None
    if not isinstance(body, dict):
        return None
    return Event(id_, run, device, row[3], utc, kind, body, previous)
