"""The report over the doors of a site, or over one door through the years: what was done, what is left."""

import csv
import io
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from guide.papers.record.call_back import remains
from guide.papers.site.site_list import (
    date_of,
    door_data,
    hours,
    job_line,
    name_of,
    number_room,
    said_counts,
    site_data,
    table,
    text_of,
    wrapped,
)
from guide.procedure.facts import Fact, WrongAnswer
from guide.run.catalogue import RunSummary
from guide.run.journal import JournalError
from guide.run.store import read_run
from guide.site.day import Day
from guide.site.door_state import (
    FAILED,
    STATES,
    DoorState,
    counted,
    decided,
    failed_items,
    result_of,
)
from guide.site.schedule.reading import ReadCell
from guide.site.site import Site
from guide.text import tame_cell
from guide.trade.mounts import MOUNT_WORDS

FORM = 1
"""Of the JSON: raised when a key changes its meaning or goes."""
UNDONE = ("left-to-do", "found")
"""States of a finished job that leave something to do."""
Section = tuple[str, list[str]]


@dataclass(frozen=True, slots=True)
class Report:
    """What a report is made of."""

    site: Site
    states: Sequence[DoorState]
    """The doors that are reported, in the order of the list."""
    strays: Sequence[RunSummary]
    """Jobs that name the site and no door of its list."""
    day: Day
    facts: Mapping[str, Fact]
    """The facts of the procedure that the site is for: how their names and values are shown."""

    @property
    def one(self) -> DoorState | None:
        """The door, if the report is of one alone."""
        return self.states[0] if len(self.states) == 1 and len(self.site.doors) != 1 else None


def report_text(report: Report) -> str:
    """The report to be read."""
    lines = [*heading(report), "", "DOORS", *table(_columns(report), map(door_row, report.states))]
    for title, section in sections(report):
        lines += ["", title, *(part for one in section for part in wrapped(one))]
    return text_of(lines)


def heading(report: Report) -> list[str]:
    """What the report is of, and how far it is."""
    site = report.site
    lines = [f"SITE {site.name}"]
    lines += [f"Schedule: {site.schedule}"] if site.schedule else []
    lines += [f"Closer's sheet: {site.sheet}"] if site.sheet else []
    counts = said_counts(counted(report.states), STATES)
    return [*lines, f"Doors: {len(report.states)}; {counts}."]


def _columns(report: Report) -> list[tuple[str, int]]:
    number = number_room((one.door for one in report.states), 12)
    return [
        *(("DOOR", number), ("PLACE", 36 - number), ("RATING", 10)),
        *(("STATE", 14), ("WHEN", 10), ("JOBS", 4)),
    ]


def sections(report: Report) -> Iterator[Section]:
    """Every part of the report after its table: a title and its lines. None is empty."""
    found = (
        ("WHAT REMAINS", list(_remains(report))),
        ("JOBS, door by door", list(_jobs(report))),
        ("JOBS at doors that are not on the list", list(_strays(report))),
        ("OPEN in the schedule", list(_questions(report))),
        ("NOT UNDERSTOOD in the schedule", list(_not_understood(report))),
    )
    return ((title, lines) for title, lines in found if lines)


def door_row(one: DoorState) -> tuple[str, ...]:
    """A door in the table: number, place, rating, state, day, number of jobs."""
    door = one.door
    return (
        *(door.number, door.place, door.rated, one.words),
        *(date_of(one.when), str(len(one.jobs) or "")),
    )


def _remains(report: Report) -> Iterator[str]:
    """Of each door that is not done, what its latest jobs say of the rest."""
    for one in report.states:
        named = "" if report.one is not None else f"{name_of(one.door)}: "
        if one.set_aside:
            yield f"{named}not started. {one.set_aside}"
        for run in undone(one):
            yield f"{named}{run.title}, {date_of(decided(run))}: {' '.join(what_remains(run))}"


def undone(one: DoorState) -> list[RunSummary]:
    """The jobs of a door that leave something to do: the unfinished ones, and the latest with faults or a rest."""
    rest = one.last is not None and one.state in (*UNDONE, FAILED)
    last = [one.last] if one.last is not None and rest and one.last not in one.unfinished else []
    return [*last, *one.unfinished]


def what_remains(run: RunSummary) -> list[str]:
    """What a job says that is left to do, and what was made safe; that it cannot be read, if so."""
    if not run.outcome:
        return [f"open, at: {result_of(run)}"]
    if failed_items(run):
        return [f"{result_of(run)}."]
    try:
        return remains(*read_run(run.path))
    except JournalError as error:
        return [str(error)]


def _jobs(report: Report) -> Iterator[str]:
    for one in report.states:
        for run in reversed(one.jobs):
            yield f"{name_of(one.door)}: {job_line(run)}"


def _strays(report: Report) -> Iterator[str]:
    return (f"{run.door or 'no name'}: {job_line(run)}" for run in report.strays)


def _questions(report: Report) -> Iterator[str]:
    for one in report.states:
        named = "" if report.one is not None else f"{name_of(one.door)}: "
        for question in one.door.questions:
            yield f"{named}{question.where} {question.text}"


def _not_understood(report: Report) -> Iterator[str]:
    for one in report.states:
        yield from (f"{name_of(one.door)}: {cell_line(cell)}" for cell in one.door.not_understood)
    if report.one is None:
        yield from map(cell_line, report.site.beside)


def cell_line(cell: ReadCell) -> str:
    """A cell that was not understood, with its place."""
    because = f" ({cell.why})" if cell.why else ""
    return f"{cell.where}, {cell.heading or 'outside the table'}: “{cell.left}”{because}"


# --- one door ---


def door_text(report: Report) -> str:
    """One door through the years."""
    lines: list[str] = []
    for title, section in door_sections(report):
        lines += ["", title, *(part for one in section for part in wrapped(one))]
    return text_of(lines[1:])


def door_sections(report: Report) -> Iterator[Section]:
    """The door, what its schedule knows, and its jobs, the latest first. None is empty."""
    one = report.states[0]
    found = (
        (f"DOOR {name_of(one.door)}: {report.site.name}", list(_about(one))),
        ("BY THE SCHEDULE, to be confirmed at the door", list(_known(report, one))),
        ("OPEN in the schedule", list(_questions(report))),
        ("NOT UNDERSTOOD in the schedule", list(map(cell_line, one.door.not_understood))),
        ("WHAT REMAINS", list(_remains(report))),
        ("JOBS, the latest first", list(_history(one))),
    )
    return ((title, lines) for title, lines in found if lines)


def _about(one: DoorState) -> Iterator[str]:
    when = f", {date_of(one.when)}" if one.when else ""
    yield f"State: {one.words}{when}"
    if one.door.row:
        yield f"Schedule: {one.door.row}"
    if one.door.rating:
        yield f"Fire rating: {one.door.rating}"
    planned = one.door.planned
    if planned is not None and not planned.set_aside:
        size = "size open" if planned.size is None else f"EN size {planned.size}"
        yield f"Plan: {MOUNT_WORDS[planned.mount]}, {size}, {hours(planned.least)} to {hours(planned.most)}"


def _known(report: Report, one: DoorState) -> Iterator[str]:
    for name, text in one.door.facts.items():
        yield f"{shown(report, name, text)} ({one.door.found_at.get(name, 'typed')})"


def shown(report: Report, name: str, text: str) -> str:
    """A fact of the schedule with its name, for a person."""
    fact = report.facts.get(name)
    if fact is None:
        return f"{name.replace('_', ' ')}: {text}"
    asked = fact.short_question(report.site.units).rstrip("?")
    try:
        return f"{asked}: {fact.show(fact.read(text, report.site.units), report.site.units)}"
    except WrongAnswer:
        return f"{asked}: {text}"


def _history(one: DoorState) -> Iterator[str]:
    for run in one.jobs:
        yield job_line(run)


# --- data ---


def report_json(report: Report) -> str:
    """The report as one JSON object on one line."""
    data = site_data(report.site, report.states, report.states, report.day)
    for one, door in zip(report.states, data["doors"], strict=True):
        door["remains"] = _remains_data(one)
    data["strays"] = [{"door": run.door, "job": run.name} for run in report.strays]
    return json.dumps({"format": FORM, **data}, ensure_ascii=False) + "\n"


def door_json(report: Report) -> str:
    """The one door of a report as one JSON object on one line."""
    one = report.states[0]
    data: dict[str, Any] = {"format": FORM, "site": report.site.name, **door_data(one)}
    data["remains"] = _remains_data(one)
    return json.dumps(data, ensure_ascii=False) + "\n"


def _remains_data(one: DoorState) -> list[dict[str, Any]]:
    return [{"job": run.name, "said": what_remains(run)} for run in undone(one)]


_CSV = (
    *("door", "place", "rating", "state", "when", "job", "title"),
    *("started", "ended", "result", "by"),
)


def report_csv(report: Report) -> str:
    """A line for each job of each door; a door without one has one line."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(_CSV)
    for one in report.states:
        door = one.door
        named = (door.number, door.place, door.rating, one.words, one.when)
        rows = [
            (run.name, run.title, run.started, run.ended, result_of(run), run.by)
            for run in sorted(one.jobs, key=decided)
        ]
        for row in rows or [("",) * 6]:
            writer.writerow([tame_cell(cell) for cell in (*named, *row)])
    return out.getvalue()


FORMATS = {"text": report_text, "json": report_json, "csv": report_csv}
DOOR_FORMATS = {"text": door_text, "json": door_json, "csv": report_csv}
"""The formats of a report over all doors, and over one; `site_paper.py` renders both for a browser and to print."""
