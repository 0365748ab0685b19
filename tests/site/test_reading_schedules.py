"""Whole schedules: headings, units of a column, dashes, doubles, and the three invented buildings."""

from pathlib import Path

import pytest

from guide.files.findings import BadFile
from guide.site.schedule.map_file import load_map, map_text
from guide.site.schedule.reading import FACT, LEFT_OUT, NOT_UNDERSTOOD
from guide.site.schedule.schedule import schedule_of
from guide.site.schedule.workbook import workbook_tables
from tests.site.schedules import INCH, MESSY, METRIC, facts, schedule, shipped, table, workbook


def test_a_school_in_inches() -> None:
    found = shipped(INCH)
    assert found.units == "inch"
    assert [one.number for one in found.doors] == [str(n) for n in range(101, 110)]
    pair = found.doors[1]
    assert pair.place == "Corridor to stair"
    assert pair.door_file()["leaves"] == "active"
    assert pair.door_file()["mount"] == "parallel"
    assert pair.supposed["coordinator"] == "yes"
    assert [one.number for one in found.doors if one.closer_wanted is False] == ["107"]


def test_offices_in_millimetres_from_windows_1252() -> None:
    found = shipped(METRIC)
    assert found.units == "metric"
    assert "It was read as Windows-1252." in found.notes
    assert found.doors[1].place == "Büro 1"
    assert found.doors[0].door_file()["width"] == "985 mm"
    assert found.doors[6].questions[0].text.startswith("“36” has no unit, and does not fit in")


def test_a_messy_workbook() -> None:
    found = shipped(MESSY)
    assert [one.number for one in found.doors] == ["001", "002", "003", "2A", "2A", "2B", "2C"]
    assert [one.heading for one in found.columns][3:6] == ["SIZE W", "SIZE H", "SIZE THK"]
    loft = found.doors[3]
    (formula,) = (one for one in loft.not_understood if one.text.startswith("="))
    assert formula.why == "it holds a formula, which is never evaluated; put its value there"
    assert "The number 2A is given 2 times, in Doors row 12, Doors row 13." in found.notes
    assert [one.text for one in found.beside][-1] == "NOTES: all frames to be verified"


def test_the_same_door_from_either_kind_of_file() -> None:
    rows = [["Mark", "Size", "Hand"], ["101", "3070", "LHR"]]
    (read,) = workbook_tables("one.xlsx", workbook(rows))
    from_workbook = schedule_of("one.xlsx", [read], facts()).doors[0].door_file()
    assert from_workbook == schedule("Mark;Size;Hand", "101;3070;LHR").doors[0].door_file()


def test_headings_below_titles_and_in_two_rows() -> None:
    found = schedule(
        "Any House;;;",
        ";;;",
        "DOOR;SIZE;;FIRE",
        "NO;W;H;RATING",
        "101;3'-0”;7'-0”;20 MIN",
    )
    assert [one.means for one in found.columns] == ["number", "width", "height", "rating"]
    assert found.doors[0].door_file() == {
        "width": "36 in",
        "height": "84 in",
        "rated": "yes",
        "rating": "twenty",
    }


def test_a_heading_that_is_not_understood_keeps_its_cells() -> None:
    (door,) = schedule("Mark;Size;Sill detail", "101;3070;4/A9").doors
    assert [(one.where, one.heading, one.left) for one in door.not_understood] == [
        ("C2", "Sill detail", "4/A9")
    ]


def test_a_unit_in_the_heading_counts() -> None:
    (door,) = schedule("Mark;Width [in];Height (mm)", "101;36;2134").doors
    assert door.door_file() == {"width": "36 in", "height": "2134 mm"}


def test_the_odd_number_of_a_column_is_asked() -> None:
    doors = schedule("Mark;Width", "101;900", "102;36", "103;1000").doors
    assert [one.door_file() for one in doors] == [{"width": "900 mm"}, {}, {"width": "1000 mm"}]
    assert doors[1].questions[0].where == "B3"


def test_numbers_that_tell_no_unit_are_asked() -> None:
    doors = schedule("Mark;Width", "101;52").doors  # 52 in, or 52 cm
    assert doors[0].questions[0].text == (
        "“52” has no unit, and its column does not tell which: how wide is the leaf?"
    )


def test_a_dash_says_not_rated_only_where_others_are_rated() -> None:
    some = schedule("Mark;Fire rating", "101;-", "102;90 MIN")
    assert some.doors[0].door_file() == {"rated": "no"}
    assert any("counts as not a fire door (doors: 1)" in note for note in some.notes)
    none = schedule("Mark;Fire rating", "101;-", "102;-")
    assert none.doors[0].door_file() == {}
    assert none.doors[0].questions[0].fact == "rated"


def test_a_value_merged_over_several_doors_counts_for_each() -> None:
    rows: list[list[object]] = [
        ["Mark", "Width", "Fire rating"],
        ["101", "36 in", "90 MIN"],
        ["102", "34 in", None],
    ]
    (read,) = workbook_tables("merged.xlsx", workbook(rows, ["C2:C3"]))
    found = schedule_of("merged.xlsx", [read], facts())
    assert [one.door_file()["rated"] for one in found.doors] == ["yes", "yes"]
    assert "C2 is merged over C2:C3: it counts in each of those rows." in found.notes


def test_headings_said_again_on_the_next_page_are_not_a_door() -> None:
    found = schedule("Mark;Size", "101;3070", "Mark;Size", "102;2868")
    assert [one.number for one in found.doors] == ["101", "102"]
    assert [one.text for one in found.beside] == ["Mark", "Size"]


MAP = """\
schedule_map: canal-office
columns:
  Tür: number
  Türbreite: width mm
  Oberfläche: left-out
"""
GERMAN = ("Tür;Türbreite;Oberfläche", "T1;985;lackiert")


def test_a_map_names_the_columns_of_another_language(tmp_path: Path) -> None:
    path = tmp_path / "map.yaml"
    path.write_text(MAP, "utf-8")
    mapped = load_map(path)
    found = schedule_of("german.csv", [table(*GERMAN)], facts(), mapped)
    (door,) = found.doors
    assert door.door_file() == {"width": "985 mm"}
    assert [one.became for one in door.cells] == [FACT, FACT, LEFT_OUT]
    again = tmp_path / "again.yaml"
    again.write_text(map_text("canal-office", found.columns), "utf-8")
    assert load_map(again) == mapped


def test_a_map_with_a_column_that_there_is_not(tmp_path: Path) -> None:
    path = tmp_path / "map.yaml"
    path.write_text(MAP.replace("width mm", "widht mm"), "utf-8")
    with pytest.raises(BadFile, match="did you mean width"):
        load_map(path)


def test_a_saved_map_marks_what_is_not_understood_as_left_out() -> None:
    found = schedule("Mark;Size;Sill detail", "101;3070;4/A9")
    assert "Sill detail: left-out" in map_text("any-house", found.columns)
    assert found.doors[0].cells[2].became == NOT_UNDERSTOOD
