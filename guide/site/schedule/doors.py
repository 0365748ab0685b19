"""Rows of a table as doors: every cell read, contradictions asked, nothing dropped."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from guide.measures import KINDS
from guide.procedure.facts import Fact, Value, WrongAnswer, writing
from guide.site.schedule.cells import Cell, Row, Table, quoted
from guide.site.schedule.columns import Column, Columns
from guide.site.schedule.hands import doubtful_hand, is_reverse, read_hand
from guide.site.schedule.hardware import (
    read_arm,
    read_closer,
    read_hinge,
    read_leaves,
    read_opening,
)
from guide.site.schedule.headings import folded
from guide.site.schedule.materials import read_core, read_frame, read_leaf, read_preparation
from guide.site.schedule.ratings import read_rating
from guide.site.schedule.reading import (
    CLOSER_WANTED,
    CORE,
    FACT,
    HARDWARE,
    LEFT_OUT,
    NOT_UNDERSTOOD,
    NUMBER,
    OF_THE_DOOR,
    PLACE,
    QUESTION,
    Question,
    ReadCell,
    Reading,
    asked,
    not_understood,
)
from guide.site.schedule.remarks import read_remarks
from guide.site.schedule.sizes import bare_unit, is_bare, is_code, read_length, read_size
from guide.site.schedule.words import (
    DASHES,
    NOTHING,
    read_accessible,
    read_exterior,
    read_smoke,
)
from guide.trade.fastening.fasteners import CORES

ON_HEAD = "head_item"
"""The fact that says what else is on the head; several items at once are “several”."""
LENGTHS = ("width", "height", "thickness")


@dataclass(frozen=True, slots=True)
class ScheduledDoor:
    """One door, as its schedule knows it."""

    number: str
    row: int
    """Of its table, from 1, as a spreadsheet counts."""
    table: str = ""
    place: str = ""
    hardware: str = ""
    closer_wanted: bool | None = None
    """Whether the schedule gives it a closer; None if it does not say."""
    facts: Mapping[str, Value] = field(default_factory=dict)
    """Facts of the procedure, as a door file supplies them: each is confirmed at the door before it counts."""
    found_at: Mapping[str, str] = field(default_factory=dict)
    """The cell that each fact came from."""
    questions: tuple[Question, ...] = ()
    cells: tuple[ReadCell, ...] = ()

    @property
    def supposed(self) -> dict[str, str]:
        """What is planned with until the questions are answered; never what is known."""
        found: dict[str, str] = {}
        for question in self.questions:
            for name, value in question.supposed.items():
                if name not in self.facts:
                    found.setdefault(name, value)
        on_head = {one.supposed[ON_HEAD] for one in self.questions if ON_HEAD in one.supposed}
        if len(on_head) > 1:
            found[ON_HEAD] = "several"
            found["coordinator"] = "yes" if "coordinator" in on_head else "no"
        return found

    @property
    def not_understood(self) -> list[ReadCell]:
        """The cells with words that were not understood."""
        return [one for one in self.cells if one.became == NOT_UNDERSTOOD]

    def door_file(self) -> dict[str, str]:
        """The facts as a door file has them: exact writing by name."""
        return {name: writing(value) for name, value in self.facts.items()}


@dataclass(frozen=True, slots=True)
class Context:
    """What the reading of one table needs beside the cells."""

    facts: Mapping[str, Fact]
    """The facts that the procedure asks and a schedule can supply, by name."""
    units: Mapping[int, str]
    """The unit of bare numbers, by column; empty for one that does not tell."""
    dashes_mean_unrated: bool
    """Whether some door of the table has a rating, so that a dash says that another has none."""
    north_american: bool
    """Whether hands are named as in North America: some are reversed, or the sizes are in inches."""


_SIMPLE: dict[str, Callable[[str], Reading]] = {
    "hand": read_hand,
    "leaf": read_leaf,
    "core": read_core,
    "frame": read_frame,
    "smoke": read_smoke,
    "hinge": read_hinge,
    "leaves": read_leaves,
    "closer": read_closer,
    "arm": read_arm,
    "opening": read_opening,
    "exterior": read_exterior,
    "accessible": read_accessible,
    "preparation": read_preparation,
    "remarks": read_remarks,
}


def context_of(table: Table, columns: Columns, facts: Mapping[str, Fact]) -> Context:
    """The units of bare numbers and the use of dashes, found over the whole table."""
    below = table.rows[columns.first + columns.rows :]
    units: dict[int, str] = {}
    rated = reverse = False
    for column in columns.columns:
        texts = [row[column.index].text for row in below if column.index in row]
        if column.means in LENGTHS:
            units[column.index] = column.unit or bare_unit(texts, facts[column.means])
        elif column.means == "opening-size":
            name = "height" if _HIGH.search(folded(column.heading)) else "width"
            units[column.index] = column.unit or bare_unit(texts, facts[name])
        elif column.means == "size":
            units[column.index] = column.unit or _unit_of_sizes(texts, facts)
        elif column.means == "rating":
            rated = rated or any(read_rating(text).facts.get("rated") == "yes" for text in texts)
        elif column.means == "hand":
            reverse = reverse or any(is_reverse(text) for text in texts)
    return Context(facts, units, rated, reverse or _in_inches(below, columns, units, facts))


def _in_inches(
    rows: Iterable[Row], columns: Columns, units: Mapping[int, str], facts: Mapping[str, Fact]
) -> bool:
    """Whether widths are in feet and inches."""
    sized = [one.index for one in columns.columns if one.means in ("width", "size", "opening-size")]
    if any(units.get(index) in ("in", "ft") for index in sized):
        return True
    texts = [row[index].text for row in rows for index in sized if index in row]
    feet = sum(any(sign in one for sign in _INCH_MARKS) or is_code(one, facts) for one in texts)
    return feet * 2 > len(texts)


_INCH_MARKS = "'\"’”′″"


def _unit_of_sizes(texts: Iterable[str], facts: Mapping[str, Fact]) -> str:
    widths = [text.lower().replace("×", "x").split("x")[0] for text in texts]
    return bare_unit((one for one in widths if is_bare(one)), facts["width"])


def read_door(table: Table, number: int, columns: Columns, context: Context) -> ScheduledDoor:
    """The door of one row; `number` is that of the row, from 0."""
    row = table.rows[number]
    by_index = {one.index: one for one in columns.columns}
    readings: list[tuple[Cell, Column, Reading]] = []
    for index, cell in sorted(row.items()):
        if cell.spread == "across":
            continue
        column = by_index.get(index) or Column(index, "", "")
        readings.append((cell, column, _read(cell, column, context)))
    return _merged(table, number, _resolved(readings), context)


def _read(cell: Cell, column: Column, context: Context) -> Reading:
    """What one cell says, as its column has it."""
    text = cell.text
    if cell.why_not:
        return not_understood(text, cell.why_not)
    means = column.means
    if means == "number":
        return Reading({NUMBER: text})
    if means == "place":
        return Reading({PLACE: text})
    if means == "hardware":
        return Reading({HARDWARE: text})
    if means in ("", "left-out"):
        return not_understood(text)
    if text.lower() in DASHES and means not in (
        "rating",
        "closer",
        "exterior",
        "accessible",
        "smoke",
        "preparation",
    ):
        return not_understood(text, "it says nothing")
    return _of_column(text, column, context)


def _of_column(text: str, column: Column, context: Context) -> Reading:
    means = column.means
    unit = context.units.get(column.index, "")
    if means in LENGTHS:
        both = "x" in text.lower() or is_code(text, context.facts)
        if means == "width" and both:
            return read_size(text, context.facts, dict.fromkeys(LENGTHS, unit))
        return read_length(text, means, context.facts[means], unit)
    if means == "size":
        metric = unit if unit in ("mm", "cm", "m") else ""
        units = {"width": unit, "height": unit, "thickness": metric or "in"}
        return read_size(text, context.facts, units)
    if means == "opening-size":
        return _opening_size(text, column, unit, context)
    if means == "rating":
        return _rating(text, context)
    if means == "weight":
        return _weight(text, column.unit)
    if means == "hand" and not context.north_american:
        return doubtful_hand(text)
    return _SIMPLE[means](text)


_HIGH = re.compile(r"\b(?:h|ht|hgt|high|height)\b")


def _opening_size(text: str, column: Column, unit: str, context: Context) -> Reading:
    """A size of the opening: a leaf is never larger, so it is planned with until the leaf's own is known."""
    name = "height" if _HIGH.search(folded(column.heading)) else "width"
    if "x" in text.lower():
        found = read_size(text, context.facts, dict.fromkeys(LENGTHS, unit))
    else:
        found = read_length(text, name, context.facts[name], unit)
    sizes = {one: value for one, value in found.facts.items() if one in ("width", "height")}
    if not sizes:
        return found
    asks = f"{quoted(text)} is of the opening: {context.facts[name].ask[:1].lower()}{context.facts[name].ask[1:]}"
    return asked(asks, name, sizes)


def _rating(text: str, context: Context) -> Reading:
    if text in NOTHING and not context.dashes_mean_unrated:
        return asked(
            f"{quoted(text)} for a fire rating, and no door has one: is it a fire door?", "rated"
        )
    return read_rating(text)


def _weight(text: str, unit: str) -> Reading:
    if is_bare(text):
        if not unit:
            return asked(f"{quoted(text)} has no unit: is it kg or lb?", "weight")
        return Reading({"weight": f"{text} {unit}"})
    return Reading({"weight": text})


def _resolved(
    readings: list[tuple[Cell, Column, Reading]],
) -> list[tuple[Cell, Column, Reading]]:
    """With each core as the fact of its leaf: what is behind a wood face, or between steel ones."""
    leaf = next((one.facts["leaf"] for _, _, one in readings if "leaf" in one.facts), "")
    return [
        (cell, column, _with_core(reading, leaf, cell) if CORE in reading.facts else reading)
        for cell, column, reading in readings
    ]


_CORE_OF = {"wood": "behind", "steel": "steel_core"}


def _with_core(reading: Reading, leaf: str, cell: Cell) -> Reading:
    core = reading.facts[CORE]
    facts = {name: value for name, value in reading.facts.items() if name != CORE}
    if leaf in _CORE_OF and core in CORES[leaf]:
        return replace(reading, facts=facts | {_CORE_OF[leaf]: core})
    named = core.replace("-", " ")
    asks = Question(f"{quoted(cell.text)} names a core, {named}: what leaf is it in?", "")
    return replace(reading, facts=facts, questions=(*reading.questions, asks))


def _merged(
    table: Table, number: int, readings: list[tuple[Cell, Column, Reading]], context: Context
) -> ScheduledDoor:
    """The door of the readings of its cells."""
    values: dict[str, Value] = {}
    own: dict[str, list[str]] = {name: [] for name in OF_THE_DOOR}
    found_at: dict[str, str] = {}
    clashes: dict[str, Question] = {}
    cells: list[ReadCell] = []
    questions: list[Question] = []
    for cell, column, reading in readings:
        taken, refused = _checked(reading, context.facts)
        asks = [replace(one, where=cell.where) for one in reading.questions]
        for name, value in taken.items():
            if name in OF_THE_DOOR:
                own[name].append(str(value))
                found_at.setdefault(name, cell.where)
            elif name in values and values[name] != value:
                clash = _clash(name, values[name], found_at[name], value, cell.where, context.facts)
                clashes.setdefault(name, clash)
                asks.append(clash)
            else:
                values[name] = value
                found_at.setdefault(name, cell.where)
        questions += asks
        cells.append(_cell(cell, column, taken, refused, asks, reading))
    for name in clashes:
        values.pop(name, None)
    closers = set(own[CLOSER_WANTED])
    if len(closers) > 1:
        questions.append(
            Question("The schedule says both that it gets a closer and that it gets none.", "")
        )
    return ScheduledDoor(
        number=" ".join(own[NUMBER]),
        row=number + 1,
        table=table.name,
        place=", ".join(dict.fromkeys(own[PLACE])),
        hardware=", ".join(dict.fromkeys(own[HARDWARE])),
        closer_wanted=closers == {"yes"} if len(closers) == 1 else None,
        facts=values,
        found_at=found_at,
        questions=tuple(_not_answered(questions, values)),
        cells=tuple(cells),
    )


def _checked(
    reading: Reading, facts: Mapping[str, Fact]
) -> tuple[dict[str, Value], list[tuple[str, str]]]:
    """The values that the procedure accepts, and of the others why it does not."""
    taken: dict[str, Value] = {}
    refused = []
    for name, text in reading.facts.items():
        if name in OF_THE_DOOR:
            taken[name] = text
            continue
        fact = facts.get(name)
        if fact is None:
            refused.append((text, "the procedure does not ask it"))
            continue
        try:
            taken[name] = fact.read(text)
        except WrongAnswer as error:
            refused.append((text, str(error).rstrip(".")))
    return taken, refused


def _cell(
    cell: Cell,
    column: Column,
    taken: Mapping[str, Value],
    refused: list[tuple[str, str]],
    asks: list[Question],
    reading: Reading,
) -> ReadCell:
    left = "; ".join(filter(None, (reading.left, *(text for text, _ in refused))))
    why = reading.why or next((one for _, one in refused), "")
    if not left and not taken and not asks:
        left = cell.text
    if column.means == "left-out":
        became = LEFT_OUT
    elif left:
        became = NOT_UNDERSTOOD
    else:
        became = QUESTION if asks else FACT
    return ReadCell(
        cell.where,
        column.heading,
        cell.text,
        became,
        tuple(taken),
        tuple(one.text for one in asks),
        left,
        why,
    )


def _clash(
    name: str, one: Value, at: str, other: Value, where: str, facts: Mapping[str, Fact]
) -> Question:
    said = [f"{at} says {_shown(facts[name], one)}", f"{where} {_shown(facts[name], other)}"]
    return Question(f"{' and '.join(said)}. {facts[name].ask}", where, name)


def _shown(fact: Fact, value: Value) -> str:
    return writing(value) if fact.kind in KINDS else fact.show(value)


def _not_answered(questions: Iterable[Question], values: Mapping[str, Value]) -> Iterator[Question]:
    """Each question once, without those that another cell answers."""
    seen: set[str] = set()
    for one in questions:
        answered = one.fact in values and not one.supposed
        key = f"{one.fact}|{one.text}" if not one.fact or one.supposed else one.fact
        if not answered and key not in seen:
            seen.add(key)
            yield one


def door_rows(table: Table, columns: Columns) -> Iterator[tuple[int, Row, bool]]:
    """Every row with something in it, its number from 0, and whether it is a door: it has a number and something else,
    and is not the headings again."""
    numbers = [one.index for one in columns.columns if one.means == "number"]
    headings = {index: cell.text for index, cell in table.rows[columns.first].items()}
    for number, row in enumerate(table.rows):
        if not row:
            continue
        if columns.first <= number < columns.first + columns.rows:
            continue
        own = {index: cell for index, cell in row.items() if cell.spread != "across"}
        again = sum(headings.get(index) == cell.text for index, cell in own.items()) > 1
        numbered = any(index in own for index in numbers)
        below = number >= columns.first + columns.rows
        yield number, row, below and numbered and len(own) > 1 and not again
