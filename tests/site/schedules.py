"""Schedules for tests: those of the invented buildings, and small ones written in a test."""

from collections.abc import Sequence
from functools import cache
from io import BytesIO
from pathlib import Path

from openpyxl import Workbook

from guide.procedure.facts import Fact
from guide.procedure.graph import Graph
from guide.site.schedule.cells import Table
from guide.site.schedule.csv_table import csv_table
from guide.site.schedule.doors import ScheduledDoor
from guide.site.schedule.schedule import Schedule, read_schedule, schedule_facts, schedule_of
from tests.run.shipped_runs import shipped_graph

SHIPPED = Path(__file__).parents[2] / "scenarios" / "schedules"
INCH, METRIC, MESSY = "elm-lane-school.csv", "canal-house.csv", "rope-works.xlsx"


def procedure() -> Graph:
    """The shipped procedure that a plan goes by."""
    return shipped_graph("fit-surface-closer")


@cache
def facts() -> dict[str, Fact]:
    """What a schedule can supply for it."""
    return schedule_facts(procedure())


def shipped(name: str) -> Schedule:
    """The schedule of an invented building."""
    return read_schedule(SHIPPED / name, facts())


def table(*lines: str) -> Table:
    """A table of lines with semicolons."""
    return csv_table("lines.csv", "\n".join(lines).encode())


def schedule(*lines: str) -> Schedule:
    """A schedule of lines with semicolons."""
    return schedule_of("lines.csv", [table(*lines)], facts())


def door(headings: str, row: str) -> ScheduledDoor:
    """The one door of a schedule with these headings."""
    (found,) = schedule(headings, row).doors
    return found


def workbook(rows: Sequence[Sequence[object]], merged: Sequence[str] = ()) -> bytes:
    """A workbook of one worksheet."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append(list(row))
    for area in merged:
        sheet.merge_cells(area)
    out = BytesIO()
    book.save(out)
    return out.getvalue()
