"""The progress of a day at a site: the doors that came to an end, the minutes spent at them, and what is left."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from guide.procedure.outcomes import ACHIEVED
from guide.run.journal import JournalError
from guide.run.log.reading import bytes_of
from guide.site.door_state import NOT_STARTED, DoorState

PAUSE = timedelta(minutes=30)
"""A gap between two lines of a job that is longer counts as this much: nobody stood at the door all the time."""
_UTC = re.compile(rb'"utc":"([0-9T:.Z+-]{10,40})"')
_PAUSED = re.compile(rb'\["[0-9a-f]{32}","paused",')


@dataclass(frozen=True, slots=True)
class Day:
    """What was done on one day, and what is left."""

    done: int
    """Doors with a job that came to its purpose on that day."""
    undone: int
    """Doors with a job that ended before its purpose on that day, and none that came to it."""
    minutes: int
    """Spent at the doors, pauses left out."""
    left: int
    """Doors that are not started and not set aside."""
    least: int
    most: int
    """Minutes of those by the plan; 0 where there is none."""


def day_of(states: Sequence[DoorState], now: datetime | None = None) -> Day:
    """The progress of the day that `now` is in, by the clock of this device."""
    today = (now or datetime.now(UTC)).astimezone().date()
    runs = [run for one in states for run in one.jobs if _date(run.updated) == today]
    ended = [{run.outcome for run in one.jobs if _date(run.ended) == today} for one in states]
    done = sum(bool(outcomes & ACHIEVED) for outcomes in ended)
    spent = sum((spent_on(run.path, today) for run in runs), timedelta(0))
    left = [one for one in states if one.state == NOT_STARTED and not one.set_aside]
    planned = [one.door.planned for one in left if one.door.planned is not None]
    return Day(
        done,
        sum(bool(outcomes) for outcomes in ended) - done,
        round(spent / timedelta(minutes=1)),
        len(left),
        sum(one.least for one in planned),
        sum(one.most for one in planned),
    )


def spent_on(path: Path, day: date) -> timedelta:
    """The time from line to line of a job on one day; nothing of a file that cannot be read."""
    try:
        lines = bytes_of(path).split(b"\n")
    except JournalError:
        return timedelta(0)
    spent, before, paused = timedelta(0), None, False
    for line in lines:
        found = _UTC.search(line)
        if found is None:
            continue
        moment = datetime.fromisoformat(found[1].decode("ascii")).astimezone()
        if before is not None and not paused and moment.date() == day == before.date():
            spent += min(max(moment - before, timedelta(0)), PAUSE)
        before, paused = moment, _PAUSED.search(line) is not None
    return spent


def _date(utc: str) -> date | None:
    return datetime.fromisoformat(utc).astimezone().date() if utc else None
