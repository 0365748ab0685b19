"""A schedule as CSV: any of the usual character sets and separators."""

import codecs
import csv
import io
import re

from guide.site.schedule.cells import (
    MOST_COLUMNS,
    MOST_ROWS,
    BadSchedule,
    Row,
    Table,
    cell,
    row_of,
    too_long,
)

SEPARATORS = (",", ";", "\t", "|")
LOOKED_AT = 40
"""Lines by which the separator is found."""
_UTF_16 = {codecs.BOM_UTF16_LE: "utf-16-le", codecs.BOM_UTF16_BE: "utf-16-be"}
_AS_TEXT = re.compile(r'="([^"]*)"\Z')
"""How spreadsheets are made to keep 0101 as a text: a formula that is only that text."""


def csv_table(name: str, data: bytes) -> Table:
    """The table of a CSV file. `name` is for messages. Raises BadSchedule."""
    text, notes = _decoded(name, data)
    separator = _separator(text)
    lines, more = _parsed(name, text, separator)
    rows = []
    for number, fields in enumerate(lines):
        if number >= MOST_ROWS:
            raise too_long(name)
        rows.append(_row(name, number, fields))
    return Table("", tuple(rows), notes=(*notes, *more))


def _decoded(name: str, data: bytes) -> tuple[str, tuple[str, ...]]:
    """The text, and a sentence on the character set if it was not UTF-8."""
    if data.startswith(codecs.BOM_UTF8):
        return _strictly(name, data.removeprefix(codecs.BOM_UTF8), "utf-8"), ()
    for mark, charset in _UTF_16.items():
        if data.startswith(mark):
            return _strictly(name, data.removeprefix(mark), charset), ()
    if data[1:200:2].count(0) > len(data[1:200:2]) // 2:
        return _strictly(name, data, "utf-16-le"), ("It was read as UTF-16.",)
    if data[:200:2].count(0) > len(data[:200:2]) // 2:
        return _strictly(name, data, "utf-16-be"), ("It was read as UTF-16.",)
    if b"\0" in data:
        raise BadSchedule(
            f"{name} is not a text: export the schedule as CSV or XLSX and give that file."
        )
    try:
        return data.decode("utf-8"), ()
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace"), ("It was read as Windows-1252.",)


def _strictly(name: str, data: bytes, charset: str) -> str:
    try:
        return data.decode(charset)
    except UnicodeDecodeError as error:
        raise BadSchedule(
            f"{name} is cut off or damaged at byte {error.start:,}: export the schedule again."
        ) from error


def _separator(text: str) -> str:
    """The separator that gives most lines the same number of fields."""
    sample = "\n".join(text.splitlines()[:LOOKED_AT])

    def agreement(separator: str) -> int:
        counts = [len(fields) for fields in csv.reader(io.StringIO(sample), delimiter=separator)]
        several = [count for count in counts if count > 1]
        return max((several.count(count) * count for count in set(several)), default=0)

    try:
        return max(SEPARATORS, key=agreement)
    except csv.Error:
        return ","


def _parsed(name: str, text: str, separator: str) -> tuple[list[list[str]], tuple[str, ...]]:
    """The fields of each line. Inch marks inside a quoted cell are forgiven, with a sentence about it."""
    try:
        return _fields(text, separator, strict=True), ()
    except csv.Error as error:
        if "unexpected end of data" in str(error):
            raise BadSchedule(
                f"{name} ends inside a quoted cell, so it is cut off: export the schedule again."
            ) from error
    try:
        lines = _fields(text, separator, strict=False)
    except csv.Error as error:
        raise BadSchedule(
            f"{name} is not CSV ({error}): export the schedule again as CSV or XLSX."
        ) from error
    return lines, (
        "Some quotation marks in it are not doubled; compare sizes in inches with the schedule.",
    )


def _fields(text: str, separator: str, *, strict: bool) -> list[list[str]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=strict)
    lines = []
    for fields in reader:
        lines.append(fields)
        if len(lines) > MOST_ROWS:
            break
    return lines


def _row(name: str, number: int, fields: list[str]) -> Row:
    if len(fields) > MOST_COLUMNS:
        raise BadSchedule(
            f"{name} has {len(fields):,} columns in row {number + 1}: export the doors alone."
        )
    cells = []
    for column, field in enumerate(fields):
        plain = _AS_TEXT.match(field.strip())
        text = plain[1] if plain else field
        formula = not plain and field.lstrip().startswith("=")
        cells.append(cell(text, number, column, why_not=FORMULA if formula else ""))
    return row_of(cells)


FORMULA = "it holds a formula, which is never evaluated; put its value there"
