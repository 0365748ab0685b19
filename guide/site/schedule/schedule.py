"""Reading a door schedule: a file to its doors, with all that was not understood beside them."""

from collections import Counter, defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from guide.files.findings import shown_path
from guide.files.library import shipped_folder
from guide.measures.units import unit_named
from guide.procedure.facts import Fact
from guide.procedure.graph import Graph
from guide.site.schedule.cells import BadSchedule, Cell, Row, Table
from guide.site.schedule.columns import Column, Columns, columns_of, once
from guide.site.schedule.csv_table import csv_table
from guide.site.schedule.doors import (
    LENGTHS,
    ScheduledDoor,
    context_of,
    door_rows,
    read_door,
)
from guide.site.schedule.headings import Heading
from guide.site.schedule.reading import NOT_UNDERSTOOD, Question, ReadCell
from guide.site.schedule.sizes import UNIT_WORDS
from guide.site.schedule.words import NOTHING
from guide.text import printable, short

LARGEST = 60_000_000
"""Bytes of a schedule's file."""
_ZIP = b"PK"
_IFC = b"ISO-10303-21;"

Progress = Callable[[int, int], None]
"""Called with how many rows are read, and of how many."""


@dataclass(frozen=True, slots=True)
class Schedule:
    """A door schedule as it was understood."""

    name: str
    """Of its file."""
    units: str
    """"inch" or "metric", by most of its sizes."""
    doors: tuple[ScheduledDoor, ...]
    columns: tuple[Column, ...]
    """The columns of its first table, as they were understood."""
    beside: tuple[ReadCell, ...] = ()
    """Filled cells that belong to no door: titles, floors, footnotes; none of them is understood."""
    notes: tuple[str, ...] = ()
    """What a person should know of how it was read, a sentence each."""


def schedule_facts(graph: Graph) -> dict[str, Fact]:
    """The facts of a procedure that a schedule can supply."""
    return {name: fact for name, fact in graph.facts.items() if fact.schedule and not fact.worked}


def read_schedule(
    path: Path,
    facts: Mapping[str, Fact],
    mapped: Mapping[str, Heading] | None = None,
    progress: Progress | None = None,
) -> Schedule:
    """Read a schedule as CSV, XLSX or IFC. Raises BadSchedule with one sentence, OSError if it cannot be opened."""
    name = printable(shown_path(path))
    return schedule_of(name, tables_of(path), facts, mapped, progress)


FOLDER = "scenarios/schedules"
"""Where the shipped schedules of invented buildings are."""


def find_schedule(name: str) -> Path:
    """The schedule of that path, or the shipped one of that name. Raises BadSchedule if there is none."""
    path = Path(name)
    try:
        if path.is_file():
            return path
        if path.is_dir():
            raise BadSchedule(
                f"{printable(short(name))} is a folder: give the file of the schedule."
            )
    except OSError:  # longer than a name can be
        raise _no_schedule(name) from None
    shipped = {one.stem: one for one in sorted((shipped_folder() / FOLDER).glob("*.*"))}
    if name in shipped:
        return shipped[name]
    raise _no_schedule(name)


def _no_schedule(name: str) -> BadSchedule:
    return BadSchedule(
        f"There is no schedule “{printable(short(name))}”: give the path of its file."
    )


def tables_of(path: Path) -> list[Table]:
    """The tables of a file. Raises BadSchedule, OSError."""
    name = printable(shown_path(path))
    size = path.stat().st_size
    if size > LARGEST:
        raise BadSchedule(
            f"{name} has {size // 1_000_000:,} MB, more than a door schedule: export the doors alone."
        )
    data = path.read_bytes()
    if not data.strip():
        raise BadSchedule(f"{name} is empty: export the schedule again.")
    if data.startswith(_IFC) or path.suffix.lower() == ".ifc":
        from guide.site.schedule.ifc_model import ifc_table

        return [ifc_table(name, path)]
    if data.startswith(_ZIP) or path.suffix.lower() in (".xlsx", ".xlsm", ".xls"):
        from guide.site.schedule.workbook import workbook_tables

        return workbook_tables(name, data)
    return [csv_table(name, data)]


def schedule_of(
    name: str,
    tables: list[Table],
    facts: Mapping[str, Fact],
    mapped: Mapping[str, Heading] | None = None,
    progress: Progress | None = None,
) -> Schedule:
    """The schedule of some tables; `name` is for messages. Raises BadSchedule if none of them is one of doors."""
    found = [(table, columns_of(table, mapped)) for table in tables]
    read = [(table, columns) for table, columns in found if columns is not None]
    if not read:
        raise BadSchedule(
            f"{name} has no row of headings with the doors' numbers and something else that is understood: name its"
            " columns in a map (--map)."
        )
    doors: list[ScheduledDoor] = []
    beside: list[ReadCell] = []
    notes: list[str] = []
    whole = sum(len(table.rows) for table, _ in read)
    for table, columns in read:
        context = context_of(table, columns, facts)
        below = columns.first + columns.rows
        notes += [*table.notes, *(told for top, told in table.merged if top >= below)]
        notes += _dashes(table, columns, unrated=context.dashes_mean_unrated)
        notes += [*once(columns.columns), *_units_found(columns, context.units)]
        for number, row, is_door in door_rows(table, columns):
            if progress is not None:
                progress(len(doors), whole)
            if is_door:
                doors.append(read_door(table, number, columns, context))
            else:
                beside += _beside(row)
    notes += _unread([table for table, columns in found if columns is None])
    if not doors:
        raise BadSchedule(
            f"{name} has headings and no door below them: give the file with the doors."
        )
    numbered, doubles = _with_doubles(doors)
    return Schedule(
        name,
        _units(numbered),
        tuple(numbered),
        read[0][1].columns,
        tuple(beside),
        (*notes, *doubles),
    )


def _beside(row: Row) -> list[ReadCell]:
    own: list[Cell] = [cell for cell in row.values() if cell.spread != "across"]
    return [
        ReadCell(
            one.where, "", one.text, NOT_UNDERSTOOD, left=one.text, why="its row is not a door"
        )
        for one in own
    ]


def _units_found(columns: Columns, units: Mapping[int, str]) -> list[str]:
    """A sentence on each column whose numbers have no unit of their own, and which was found for them."""
    by_unit: dict[str, list[str]] = defaultdict(list)
    for column in columns.columns:
        unit = units.get(column.index, "")
        if unit and not column.unit:
            by_unit[unit].append(f"“{column.heading}”")
    return [
        f"Numbers without a unit under {', '.join(names)} are read in {UNIT_WORDS[unit]}: only so they fit a leaf."
        for unit, names in by_unit.items()
    ]


def _dashes(table: Table, columns: Columns, *, unrated: bool) -> list[str]:
    """A sentence on dashes for a fire rating, which count as “not a fire door”."""
    rated = [one for one in columns.columns if one.means == "rating"]
    below = table.rows[columns.first + columns.rows :]
    count = sum(
        row[one.index].text in NOTHING for one in rated for row in below if one.index in row
    )
    if not count or not unrated:
        return []
    return [
        f"A dash under “{rated[0].heading}” counts as not a fire door (doors: {count}): look for a label at the door."
    ]


def _unread(tables: list[Table]) -> list[str]:
    return [
        f"The worksheet “{printable(table.name)}” has no headings of doors and was not read:"
        f" {sum(map(len, table.rows)):,} cells."
        for table in tables
    ]


def _with_doubles(doors: list[ScheduledDoor]) -> tuple[list[ScheduledDoor], list[str]]:
    """Each door whose number another one has is asked about."""
    count = Counter(door.number.casefold() for door in doors)
    rows: dict[str, list[str]] = defaultdict(list)
    for door in doors:
        place = f"{door.table} row {door.row}" if door.table else f"row {door.row}"
        rows[door.number.casefold()].append(place)
    found, told = [], []
    for door in doors:
        key = door.number.casefold()
        if count[key] == 1:
            found.append(door)
            continue
        sentence = (
            f"The number {door.number} is given {count[key]} times, in {', '.join(rows[key][:6])}"
        )
        question = Question(f"{sentence}: which is right?", door.found_at.get("number", ""))
        found.append(replace(door, questions=(*door.questions, question)))
        told.append(f"{sentence}.")
    return found, list(dict.fromkeys(told))


def _units(doors: list[ScheduledDoor]) -> str:
    """The system in which most lengths of the schedule are written."""
    count: Counter[str] = Counter()
    for door in doors:
        for name in LENGTHS:
            value = door.facts.get(name)
            if value is not None and not isinstance(value, str | int):
                count.update(unit_named(value.unit).systems)
    return "metric" if count["metric"] > count["inch"] else "inch"
