"""Tables of cells, whatever kind of file they came from."""

from collections.abc import Iterable
from dataclasses import dataclass

from guide.errors import UNKNOWN, HingesideError
from guide.text import printable, short, tidy

MOST_ROWS = 20_000
"""Rows of one table: more doors than any building has."""
MOST_COLUMNS = 300
LONGEST_CELL = 2_000
"""Characters. A longer cell is kept, cut off, and never understood."""


class BadSchedule(HingesideError, ValueError):
    """A schedule that cannot be read; the message says which file, why, and what to do."""

    status = UNKNOWN


@dataclass(frozen=True, slots=True)
class Cell:
    """One filled cell."""

    text: str
    """One line; the lines of a cell are joined by “; ”."""
    where: str
    """As a spreadsheet names it, such as B7, or Level 2!B7 where there are several worksheets."""
    column: int
    """From 0."""
    why_not: str = ""
    """Why its text must not be understood, as for a formula; empty for an ordinary cell."""
    spread: str = ""
    """"down" or "across" for a cell that is covered by a merged one and has its text; else empty."""


Row = dict[int, Cell]
"""The filled cells of one row by their column."""


@dataclass(frozen=True, slots=True)
class Table:
    """One table of a file."""

    name: str
    """Of the worksheet; empty for a file that has only one table."""
    rows: tuple[Row, ...]
    merged: tuple[tuple[int, str], ...] = ()
    """Cells merged over several rows: the first row, from 0, and a sentence about it."""
    notes: tuple[str, ...] = ()
    """What a person should know of how it was read, a sentence each."""


def cell(
    text: str, row: int, column: int, table: str = "", why_not: str = "", spread: str = ""
) -> Cell | None:
    """A cell of a table, row and column from 0; None if there is nothing in it."""
    line = "; ".join(filter(None, map(tidy, text[: LONGEST_CELL + 1].splitlines())))
    if not line:
        return None
    if len(text) > LONGEST_CELL:
        line, why_not = (
            f"{line[:LONGEST_CELL]}…",
            f"it is longer than {LONGEST_CELL:,} characters",
        )
    return Cell(line, address(row, column, table), column, why_not, spread)


def address(row: int, column: int, table: str = "") -> str:
    """A cell's place as a spreadsheet names it; row and column from 0."""
    letters = ""
    number = column + 1
    while number:
        number, letter = divmod(number - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return f"{table}!{letters}{row + 1}" if table else f"{letters}{row + 1}"


def row_of(cells: Iterable[Cell | None]) -> Row:
    """The row of those cells that have something in them."""
    return {one.column: one for one in cells if one is not None}


def quoted(text: str) -> str:
    """A cell's text as a message quotes it."""
    return f"“{printable(short(text))}”"


def too_long(name: str) -> BadSchedule:
    """The refusal of a table with too many rows."""
    return BadSchedule(
        f"{name} has more than {MOST_ROWS:,} rows, which no door schedule has: export the doors alone, or one floor"
        " at a time."
    )
