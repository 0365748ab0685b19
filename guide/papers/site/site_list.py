"""The doors of a site as a list for the terminal, and all that is known of them as plain data."""

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import Any

from guide.run.catalogue import RunSummary
from guide.run.inspection import read_items
from guide.run.when import when
from guide.site.day import Day
from guide.site.door_state import STATES, DoorState, counted, decided, next_door, result_of
from guide.site.round_state import WORDS, RoundState
from guide.site.schedule.doors import ScheduledDoor
from guide.site.schedule.reading import ReadCell
from guide.site.site import Site, SiteDoor, quoted
from guide.text import printable

WIDTH = 100
"""Columns of the text."""
Row = Sequence[str]


def table(columns: Sequence[tuple[str, int]], rows: Iterable[Row]) -> Iterator[str]:
    """Rows under their headings, each cell cut to the width of its column."""
    yield "  ".join(name.ljust(width) for name, width in columns).rstrip()
    for row in rows:
        cells = (cut(text, width) for text, (_, width) in zip(row, columns, strict=True))
        yield "  ".join(cells).rstrip()


def cut(text: str, width: int) -> str:
    """A text in exactly so many columns."""
    return text.ljust(width) if len(text) <= width else f"{text[: width - 1]}…"


def wrapped(line: str, indent: str = "  ") -> list[str]:
    """A line as lines of the width of the text, the further ones deeper."""
    return textwrap.wrap(
        line, WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ", break_on_hyphens=False
    )


def date_of(utc: str) -> str:
    """The day of a moment, by the clock of this device; empty where there is none."""
    return f"{datetime.fromisoformat(utc).astimezone():%Y-%m-%d}" if utc else ""


def name_of(door: SiteDoor | ScheduledDoor) -> str:
    """Number and place."""
    return f"{door.number} {door.place}".strip()


def hours(minutes: int) -> str:
    """Minutes as hours and minutes."""
    whole, rest = divmod(minutes, 60)
    return f"{whole} h {rest:02} min" if whole else f"{rest} min"


def said_counts(counts: dict[str, int], words: dict[str, str]) -> str:
    """Such as “8 finished, 1 in work”."""
    return ", ".join(f"{number} {words[state]}" for state, number in counts.items())


# --- the list ---

NARROWEST = 80
"""Columns that a list has at least."""
_USUAL_NUMBER, _LONGEST_NUMBER, _FROM_PLACE = 8, 18, 6
"""Columns of a door's number, at least and at most, and how many of the difference the place gives up."""


def _columns(width: int, last: str, state: int, doors: Iterable[SiteDoor]) -> list[tuple[str, int]]:
    """The columns of a list: what is left over goes to the place and to the last but one; a long number of a door, such
    as “2A (Doors row 12)”, is given room from both."""
    more = max(0, width - NARROWEST)
    number = number_room(doors, _USUAL_NUMBER)
    from_place = min(number - _USUAL_NUMBER, _FROM_PLACE)
    from_last = number - _USUAL_NUMBER - from_place
    return [
        *(("DOOR", number), ("PLACE", 16 + more // 3 - from_place), ("RATING", 8)),
        ("STATE", state),
        *((last, 27 - state + more - more // 3 - from_last), ("WHEN", 11)),
    ]


def number_room(doors: Iterable[SiteDoor], least: int) -> int:
    """The columns that the numbers of these doors need, within limits."""
    return min(_LONGEST_NUMBER, max([least, *(len(door.number) for door in doors)]))


def site_lines(
    site: Site,
    states: Sequence[DoorState],
    shown: Sequence[DoorState],
    day: Day,
    width: int = WIDTH,
) -> list[str]:
    """The list of a site's doors; `shown` are those that were chosen."""
    aside = sum(bool(one.set_aside) for one in states)
    asides = f" ({aside} set aside by the plan)" if aside else ""
    counts = said_counts(counted(states), STATES)
    lines = [f"{site.name}: {len(states)} doors; {counts}{asides}."]
    lines += _day_lines(day)
    following = next_door(states)
    if following is not None:
        lines.append(f"Next: {name_of(following.door)}.")
    if not states:
        add = f'hingeside site {quoted(site.name)} add 114 "back door"'
        return [f"{site.name} has no door yet. Add one: {add}"]
    if not shown:
        return [*lines, "", "No door is like that."]
    rows = (
        (
            *(one.door.number, one.door.place, one.door.rated, one.words),
            *(one.set_aside or one.result, when(one.when)),
        )
        for one in shown
    )
    return [*lines, "", *table(_columns(width, "LAST JOB", 14, (one.door for one in shown)), rows)]


def _day_lines(day: Day) -> Iterator[str]:
    if day.done or day.minutes:
        undone = f", {day.undone} not" if day.undone else ""
        yield f"Today: {_doors(day.done)} done{undone}; {hours(day.minutes)} at the doors."
    if day.left:
        planned = f", {hours(day.least)} to {hours(day.most)} by the plan" if day.most else ""
        yield f"Left: {_doors(day.left)}{planned}."


def _doors(count: int) -> str:
    return "1 door" if count == 1 else f"{count} doors"


# --- plain data ---


def site_data(
    site: Site, states: Sequence[DoorState], shown: Sequence[DoorState], day: Day
) -> dict[str, Any]:
    """The list as plain data."""
    following = next_door(states)
    return {
        "site": site.name,
        "schedule": site.schedule or None,
        "units": site.units,
        "sheet": site.sheet or None,
        "procedure": site.procedure,
        "counts": counted(states),
        "today": {"done": day.done, "undone": day.undone, "minutes": day.minutes},
        "left": {"doors": day.left, "minutes": [day.least, day.most]},
        "next": None if following is None else following.door.number,
        "rounds": [{"title": one.title, "doors": len(one.doors)} for one in site.rounds],
        "doors": [door_data(one) for one in shown],
        "not_understood": [_cell_data(cell) for cell in site.beside],
        "notes": list(site.notes),
    }


def door_data(one: DoorState) -> dict[str, Any]:
    """A door with its jobs as plain data."""
    door, planned = one.door, one.door.planned
    return {
        "door": door.number,
        "place": door.place,
        "rating": door.rating or None,
        "state": one.state,
        "result": one.result,
        "when": one.when or None,
        "set_aside": one.set_aside or None,
        "row": door.row or None,
        "planned": planned
        and {
            "mount": planned.mount or None,
            "size": planned.size,
            "minutes": [planned.least, planned.most],
        },
        "facts": dict(door.facts),
        "found_at": dict(door.found_at),
        "open": [
            {
                "question": question.text,
                "cell": question.where or None,
                "fact": question.fact or None,
            }
            for question in door.questions
        ],
        "not_understood": [_cell_data(cell) for cell in door.not_understood],
        "jobs": [job_data(run) for run in one.jobs],
    }


def _cell_data(cell: ReadCell) -> dict[str, str]:
    return {
        "cell": cell.where,
        "heading": cell.heading,
        "text": cell.text,
        "left": cell.left,
        "why": cell.why,
    }


def job_data(run: RunSummary) -> dict[str, Any]:
    """A job as plain data."""
    return {
        "job": run.name,
        "title": run.title,
        "procedure": run.procedure,
        "started": run.started,
        "ended": run.ended or None,
        "outcome": run.outcome or "open",
        "result": result_of(run),
        "by": run.by,
        "items": [
            {
                "item": item.fact,
                "title": item.title,
                "result": item.result,
                "found": item.found,
                "noted": item.noted,
            }
            for item in read_items(run.items)
        ],
    }


def job_line(run: RunSummary) -> str:
    """A job in one line: its day, what it was, what it came to, by whom, and its name for its record."""
    came_to = result_of(run) if run.outcome else f"open, at: {result_of(run)}"
    by = f", {run.by}" if run.by else ""
    return f"{date_of(decided(run))} {run.title}: {came_to}{by} ({run.name})"


# --- rounds ---


def round_head(one: RoundState) -> list[str]:
    """The round, how far it is, and the door to go to."""
    open_ = sum(len(door.open) for door in one.doors)
    lines = [
        f"{one.site.name}, round {one.round.title}: {len(one.doors)} doors; {said_counts(one.counted, WORDS)}.",
        f"Deficiencies: {len(one.deficiencies)}, of which open {open_}.",
    ]
    if one.next is not None:
        why = " again, after the repair" if one.next.open else ""
        lines.append(f"Next: {name_of(one.next.door.door)}{why}.")
    return lines


def round_lines(one: RoundState, width: int = WIDTH) -> list[str]:
    """A round as a list of its doors."""
    rows = (
        (
            *(door.door.door.number, door.door.door.place, door.door.door.rated, door.words),
            *(", ".join(fault.first.item.title for fault in door.open), when(door.when)),
        )
        for door in one.doors
    )
    doors = (door.door.door for door in one.doors)
    return [*round_head(one), "", *table(_columns(width, "FAULTS", 16, doors), rows)]


def text_of(lines: Iterable[str]) -> str:
    """Lines as a text that is safe for any terminal."""
    return "".join(f"{printable(line)}\n" for line in lines)
