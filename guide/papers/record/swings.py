"""The swings from which each stopwatch time was taken."""

from collections.abc import Iterable
from typing import Any

from guide.run.events import Event


def swings_data(events: Iterable[Event]) -> list[dict[str, Any]]:
    """Every time taken by stopwatch, in order: the place, the value, the swings it is the median of, and
    those that did not count."""
    return [
        {
            "utc": event.utc,
            "at": event.body["at"],
            "value": event.body["value"],
            "swings": event.body["swings"],
            "dropped": event.body.get("dropped", []),
        }
        for event in events
        if event.body.get("swings")
    ]


def swings_lines(events: Iterable[Event]) -> list[str]:
    """The same as lines of a record; no line if no stopwatch was used."""
    lines = []
    for row in swings_data(events):
        of = f", median of {', '.join(row['swings'])}" if len(row["swings"]) > 1 else ""
        slips = f"; not counted: {', '.join(row['dropped'])}" if row["dropped"] else ""
        lines.append(f"{row['at']}: {row['value']}{of}{slips}")
    return lines
