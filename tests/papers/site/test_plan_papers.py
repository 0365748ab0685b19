"""The plan on paper: text, JSON, CSV and PDF say the same of the same doors."""

import csv
import io
import json
from typing import Any

from pypdf import PdfReader

from guide.files.library import find
from guide.papers.site.plan import CSV_COLUMNS, FORM, plan_csv, plan_json, plan_text
from guide.papers.site.plan_pdf import plan_pdf
from guide.procedure.sheet_cache import sheet_of
from guide.site.plan.known import Planning
from guide.site.plan.site_plan import SitePlan, plan_site
from tests.site.schedules import INCH, MESSY, METRIC, procedure, schedule, shipped


def _plan(name: str, sheet: str = "generic-a") -> SitePlan:
    read = shipped(name)
    loaded = sheet_of(find("sheet", sheet))
    return plan_site(Planning(procedure(), read.units, loaded, {"rules": "us"}), read)


def _printed(plan: SitePlan) -> str:
    pages = PdfReader(io.BytesIO(plan_pdf(plan))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_the_text_begins_with_what_there_is_to_do() -> None:
    lines = plan_text(_plan(INCH)).splitlines()
    assert lines[1] == "Doors to fit: 7 (5 with questions from the schedule). Set aside: 2."
    assert lines[2] == "Closer: generic-a"
    assert lines[4] == "The sheet is invented, for practice: never drill from it."
    (row,) = (line for line in lines if line.startswith("102 "))
    assert "parallel arm" in row
    assert max(map(len, lines)) <= 110


def test_the_text_says_every_door_that_is_set_aside_and_every_cell_that_was_not_understood() -> (
    None
):
    plan = _plan(MESSY)
    text = " ".join(plan_text(plan).split())
    for one in plan.set_aside:
        assert f"{one.door.number} {one.door.place}: {one.set_aside}" in text
    for door in plan.schedule.doors:
        for cell in door.not_understood:
            assert f"“{cell.left}”" in text
    for note in plan.schedule.notes:
        assert note in text


def test_a_question_that_every_door_has_is_printed_once() -> None:
    text = plan_text(_plan(INCH))
    assert text.count("Is the door on a route that wheelchairs and the public or staff use?") == 1


def test_the_json_has_the_keys_that_scripts_rely_on() -> None:
    data: dict[str, Any] = json.loads(plan_json(_plan(INCH)))
    assert data["format"] == FORM
    assert {"doors", "pick_list", "set_aside"} <= data.keys()
    door = data["doors"][1]
    assert {"door", "facts", "worked", "open", "cautions"} <= door.keys()
    assert door["facts"]["width"] == {"magnitude": 36, "unit": "in", "text": "36 in"}
    assert door["worked"]["mount"] == "parallel"
    assert door["worked"]["size"] == 4
    assert door["open"][0]["cell"] == "N6"
    assert plan_json(_plan(INCH)).count("\n") == 1


def test_the_json_of_a_messy_schedule_keeps_what_was_not_understood() -> None:
    data = json.loads(plan_json(_plan(MESSY)))
    formula = next(one for one in data["not_understood"] if one["text"] == "=D8")
    assert formula["cell"] == "Doors!D12"
    assert [one["door"] for one in data["set_aside"]] == ["003", "2A"]


def test_the_csv_has_a_line_for_every_door() -> None:
    plan = _plan(METRIC)
    rows = list(csv.DictReader(io.StringIO(plan_csv(plan))))
    assert list(rows[0]) == list(CSV_COLUMNS)
    assert [row["door"] for row in rows] == [one.door.number for one in plan.doors]
    assert {row["state"] for row in rows} == {"to fit", "set aside"}


def test_a_spreadsheet_computes_nothing_of_the_csv() -> None:
    read = schedule("Mark;Location;Width", "@SUM(A1);+1;36 in")
    text = plan_csv(plan_site(Planning(procedure(), read.units), read))
    (row,) = csv.DictReader(io.StringIO(text))
    assert (row["door"], row["place"]) == ("'@SUM(A1)", "'+1")


def test_the_pdf_has_a_box_for_every_door_and_the_pick_list_first() -> None:
    plan = _plan(INCH)
    words = _printed(plan)
    for one in plan.planned:
        assert f"{one.door.number} {one.door.place}:" in words
    assert words.index("PICK LIST") < words.index("DOORS") < words.index("SET ASIDE")
    assert "coordinator bracket for the shoe" in words


def test_the_pdf_is_letter_in_inches_and_a4_in_millimetres() -> None:
    sizes = []
    for name in (INCH, METRIC):
        page = PdfReader(io.BytesIO(plan_pdf(_plan(name)))).pages[0]
        sizes.append((round(page.mediabox.width), round(page.mediabox.height)))
    assert sizes == [(612, 792), (595, 842)]


def test_the_same_plan_is_the_same_pdf() -> None:
    assert plan_pdf(_plan(METRIC)) == plan_pdf(_plan(METRIC))
