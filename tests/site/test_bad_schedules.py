"""Files that are no schedules, or damaged, or made to harm: one sentence each, and no traceback."""

import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.site.schedule.cells import MOST_ROWS, BadSchedule
from guide.site.schedule.csv_table import csv_table
from guide.site.schedule.schedule import read_schedule, schedule_of
from guide.site.schedule.workbook import MOST_INFLATED, workbook_tables
from tests.site.schedules import facts, workbook

LINES = "Mark,Width,Hand\n101,36 in,LHR\n102,34 in,RH\n"
ROWS = [["Mark", "Width", "Hand"], ["101", "36 in", "LHR"]]


def _bomb() -> bytes:
    """A worksheet that unpacks to more than any schedule: a hundred megabytes of blanks."""
    out = io.BytesIO(workbook(ROWS))
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/worksheets/sheet9.xml", b" " * (MOST_INFLATED + 1))
    return out.getvalue()


def _entities() -> bytes:
    """A worksheet whose XML names a text that doubles itself many times."""
    lines = "".join(f'<!ENTITY a{n} "&a{n - 1};&a{n - 1};">' for n in range(1, 40))
    bad = (
        f'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a0 "lol">{lines}]><worksheet>&a39;</worksheet>'
    )
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(workbook(ROWS))) as good,
        zipfile.ZipFile(out, "w") as packed,
    ):
        for one in good.infolist():
            sheet = one.filename.startswith("xl/worksheets/")
            packed.writestr(one.filename, bad if sheet else good.read(one))
    return out.getvalue()


def _many_rows() -> bytes:
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(workbook(ROWS))) as good,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed,
    ):
        for one in good.infolist():
            sheet = one.filename.startswith("xl/worksheets/")
            rows = b"<sheetData>" + b'<row r="1"></row>' * 100_000 + b"</sheetData>"
            packed.writestr(one.filename, rows if sheet else good.read(one))
    return out.getvalue()


def _not_a_workbook() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("letter.txt", "Dear foreman")
    return out.getvalue()


BAD: dict[str, tuple[str, Callable[[], bytes], str]] = {
    "empty": ("s.csv", lambda: b"  \n", "is empty"),
    "no headings": ("s.csv", lambda: b"Dear foreman,\nplease fit.\n", "no row of headings"),
    "headings alone": ("s.csv", lambda: b"Mark,Width,Hand\n", "no door below them"),
    "cut off in a quoted cell": ("s.csv", lambda: b'Mark,Width\n101,"36 i', "is cut off"),
    "UTF-16 cut off": ("s.csv", lambda: LINES.encode("utf-16")[:-1], "is cut off"),
    "a picture": ("s.csv", lambda: b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR" * 9, "is not a text"),
    "100,000 rows": (
        "s.csv",
        lambda: b"Mark,Width\n" + b"101,36 in\n" * 100_000,
        f"more than {MOST_ROWS:,} rows",
    ),
    "1,000 columns": ("s.csv", lambda: b"Mark,Width" + b",x" * 1000, "columns in row 1"),
    "workbook cut off": ("s.xlsx", lambda: workbook(ROWS)[:-400], "is cut off"),
    "workbook of 100,000 rows": ("s.xlsx", _many_rows, f"more than {MOST_ROWS:,} rows"),
    "a zip bomb": ("s.xlsx", _bomb, "unpacks to far more"),
    "entities that double": ("s.xlsx", _entities, "is a damaged workbook"),
    "another zip": ("s.xlsx", _not_a_workbook, "is not a workbook"),
    "an old workbook": (
        "s.xls",
        lambda: bytes.fromhex("d0cf11e0a1b11ae1") + b"x",
        "old or a locked",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_one_sentence_says_what_to_do(name: str, tmp_path: Path) -> None:
    file, made, words = BAD[name]
    path = tmp_path / file
    path.write_bytes(made())
    with pytest.raises(BadSchedule) as caught:
        read_schedule(path, facts())
    message = str(caught.value)
    assert words in message
    assert message.count(". ") == 0
    assert message.endswith(".")


@pytest.mark.parametrize(
    ("charset", "text"),
    [
        ("utf-8", LINES),
        ("utf-8-sig", LINES),
        ("utf-16", LINES),
        ("utf-16-le", LINES),
        ("utf-16-be", LINES),
        ("cp1252", LINES.replace("LHR", "LHR\u00a0")),
        ("utf-8", LINES.replace(",", ";")),
        ("utf-8", LINES.replace(",", "\t")),
        ("utf-8", LINES.replace("\n", "\r\n")),
    ],
)
def test_character_sets_and_separators(charset: str, text: str, tmp_path: Path) -> None:
    path = tmp_path / "s.csv"
    path.write_bytes(text.encode(charset))
    found = read_schedule(path, facts())
    assert found.doors[0].door_file() == {"width": "36 in", "knuckles": "left", "outside": "pull"}


def test_inch_marks_that_are_not_doubled_are_forgiven_and_said(tmp_path: Path) -> None:
    path = tmp_path / "s.csv"
    path.write_text('Mark,Size\n101,"3\'-0" x 7\'-0""\n102,"3\'-0" x 6\'-8""\n', "utf-8")
    found = read_schedule(path, facts())
    assert [one.number for one in found.doors] == ["101", "102"]
    assert any("are not doubled" in note for note in found.notes)


@pytest.mark.parametrize(
    ("field", "number"), [('"=""0101"""', "0101"), ("=0101", "=0101"), ("'0101", "'0101")]
)
def test_a_formula_in_csv_is_kept_as_text_and_never_evaluated(
    field: str, number: str, tmp_path: Path
) -> None:
    path = tmp_path / "s.csv"
    path.write_text(f"Mark,Width,Finish\n101,{field},P1\n", "utf-8")
    (door,) = read_schedule(path, facts()).doors
    assert door.door_file() == {}
    assert door.not_understood[0].text == number


GOOD = workbook(ROWS * 40)


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.integers(0, len(GOOD) - 1), st.integers(0, 255)), min_size=1, max_size=8),
    st.integers(0, len(GOOD)),
)
def test_a_workbook_with_wrong_bytes_is_read_or_refused(
    wrong: list[tuple[int, int]], length: int
) -> None:
    data = bytearray(GOOD)
    for place, value in wrong:
        data[place] = value
    for damaged in (bytes(data), bytes(data[:length]), GOOD[:length]):
        if damaged.startswith(b"PK"):
            try:
                schedule_of("damaged.xlsx", workbook_tables("damaged.xlsx", damaged), facts())
            except BadSchedule as refused:
                assert str(refused).endswith(".")  # noqa: PT017


@settings(max_examples=30)
@given(st.binary(max_size=400))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    try:
        schedule_of("any.csv", [csv_table("any.csv", data)], facts())
    except BadSchedule as refused:
        assert "any.csv" in str(refused)  # noqa: PT017
