"""A schedule as an XLSX workbook, read by openpyxl; formulas are never evaluated and macros never looked at."""

import datetime
import re
import warnings
import zipfile
import zlib
from io import BytesIO
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import ParseError

from guide.site.schedule.cells import (
    MOST_COLUMNS,
    MOST_ROWS,
    BadSchedule,
    Cell,
    Row,
    Table,
    address,
    cell,
    too_long,
)
from guide.site.schedule.csv_table import FORMULA

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell as OwnCell
    from openpyxl.worksheet.worksheet import Worksheet

MOST_INFLATED = 100_000_000
"""Bytes of everything in the workbook, unpacked: a schedule of 20,000 doors has a third of it."""
MOST_INSIDE = 2_000
"""Files inside a workbook."""
MOST_WORKSHEETS = 60
_OLD_WORKBOOK = bytes.fromhex("d0cf11e0a1b11ae1")
_WORKSHEET = re.compile(r"xl/worksheets/[^/]+\.xml")
_DATE = "the spreadsheet has turned it into a date; type it again as a text"
_ERROR = "the spreadsheet could not work it out"
_ZEROS = re.compile(r"0{2,12}")
_PIECE = 1 << 20

_BROKEN = (
    *(KeyError, ValueError, TypeError, AttributeError, IndexError, OSError, EOFError),
    *(OverflowError, RecursionError, NotImplementedError, RuntimeError, ParseError),
    *(zipfile.BadZipFile, zlib.error),
)
"""What openpyxl and zipfile raise for a damaged workbook."""


def workbook_tables(name: str, data: bytes) -> list[Table]:
    """The tables of a workbook, one for each worksheet that has cells. Raises BadSchedule."""
    if data.startswith(_OLD_WORKBOOK):
        raise BadSchedule(
            f"{name} is an old or a locked workbook: save it as XLSX without a password, or as CSV."
        )
    _look_inside(name, data)
    from openpyxl import load_workbook  # takes a while, and a CSV file needs none of it

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of drawings and styles that it leaves out
            book = load_workbook(BytesIO(data), keep_links=False)
            several = len(book.worksheets) > 1
            return [
                table
                for worksheet in book.worksheets[:MOST_WORKSHEETS]
                if (table := _table(name, worksheet, several=several)).rows
            ]
    except BadSchedule:
        raise
    except _BROKEN as error:
        raise BadSchedule(
            f"{name} is a damaged workbook: open it in a spreadsheet program and save it again."
        ) from error


def _look_inside(name: str, data: bytes) -> None:
    """Refuse what would fill the memory, before any of it is read as a workbook."""
    try:
        with zipfile.ZipFile(BytesIO(data)) as packed:
            inside = packed.infolist()
            if len(inside) > MOST_INSIDE or sum(one.file_size for one in inside) > MOST_INFLATED:
                raise BadSchedule(
                    f"{name} unpacks to far more than a door schedule holds, and is not opened: export the doors alone."
                )
            if any(one.flag_bits & 1 for one in inside):
                raise BadSchedule(f"{name} is locked: save it without a password.")
            if "[Content_Types].xml" not in {one.filename for one in inside}:
                raise BadSchedule(
                    f"{name} is not a workbook: export the schedule as CSV or XLSX and give that file."
                )
            for one in inside:
                if _WORKSHEET.fullmatch(one.filename) and _rows(packed, one) > MOST_ROWS:
                    raise too_long(name)
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError) as error:
        raise BadSchedule(
            f"{name} is cut off or is not a workbook: export the schedule again."
        ) from error


def _rows(packed: zipfile.ZipFile, one: zipfile.ZipInfo) -> int:
    """How many rows a worksheet has, without understanding it."""
    found, tail = 0, b""
    with packed.open(one) as stream:
        while piece := stream.read(_PIECE):
            found += (tail + piece).count(b"<row ")
            tail = piece[-4:]
    return found


def _table(name: str, worksheet: "Worksheet", *, several: bool) -> Table:
    title = worksheet.title if several else ""
    if (worksheet.max_column or 0) > MOST_COLUMNS:
        raise BadSchedule(
            f"{name} has {worksheet.max_column:,} columns on “{worksheet.title}”: export the doors alone."
        )
    rows: list[Row] = []
    for number, cells in enumerate(worksheet.iter_rows()):
        row: Row = {}
        for column, one in enumerate(cells):
            found = _cell(one, number, column, title)
            if found is not None:
                row[column] = found
        rows.append(row)
    merged = _spread_merged(worksheet, rows, title)
    while rows and not rows[-1]:
        rows.pop()
    return Table(title, tuple(rows), tuple(merged), tuple(_hidden(worksheet, rows, title)))


def _cell(one: "OwnCell | Any", row: int, column: int, title: str) -> Cell | None:
    value = one.value
    if value is None:
        return None
    if one.data_type == "f":
        shown = value if isinstance(value, str) else getattr(value, "text", None) or "={…}"
        return cell(str(shown), row, column, title, FORMULA)
    if one.data_type == "e":
        return cell(str(value), row, column, title, _ERROR)
    if isinstance(value, datetime.date | datetime.time | datetime.timedelta):
        return cell(str(value).removesuffix(" 00:00:00"), row, column, title, _DATE)
    if isinstance(value, bool):
        return cell("yes" if value else "no", row, column, title)
    if isinstance(value, int | float):
        return cell(_number(value, one.number_format), row, column, title)
    return cell(str(value), row, column, title)


def _number(value: float, number_format: str) -> str:
    """A number as the worksheet shows it: 101 and not 101.0, and 007 where its format has three digits."""
    if not float(value).is_integer():
        return repr(value)
    digits = str(int(value))
    return digits.zfill(len(number_format)) if _ZEROS.fullmatch(number_format) else digits


def _spread_merged(worksheet: "Worksheet", rows: list[Row], title: str) -> list[tuple[int, str]]:
    """Give the cells under a merged one its text, as a reader of the printed schedule sees it."""
    told = []
    for area in sorted(worksheet.merged_cells.ranges, key=str):
        top, left = area.min_row - 1, area.min_col - 1
        shown = rows[top].get(left) if top < len(rows) else None
        if shown is None:
            continue
        for number in range(top, min(area.max_row, len(rows))):
            for column in range(left, min(area.max_col, MOST_COLUMNS)):
                if (number, column) == (top, left):
                    continue
                spread = "down" if column == left else "across"
                place = address(number, column, title)
                rows[number][column] = Cell(shown.text, place, column, shown.why_not, spread)
        if area.max_row > area.min_row:
            told.append(
                (top, f"{shown.where} is merged over {area}: it counts in each of those rows.")
            )
    return told


def _hidden(worksheet: "Worksheet", rows: list[Row], title: str) -> list[str]:
    hidden = [
        number
        for number, row in enumerate(rows, start=1)
        if row and worksheet.row_dimensions[number].hidden
    ]
    if not hidden:
        return []
    on = f" on “{title}”" if title else ""
    return [f"Rows hidden in the workbook{on}: {len(hidden)}, from row {hidden[0]}; they count."]
