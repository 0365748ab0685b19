"""`hingeside plan`, as a foreman calls it."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.procedure.scenario_file import DoorShape, load_door
from guide.run.schedule_values import supplied_values
from tests.cli.program import hingeside
from tests.site.schedules import INCH, SHIPPED, procedure

SCHOOL = str(SHIPPED / INCH)


def test_a_schedule_to_a_plan(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", SCHOOL, "--sheet", "generic-a"]) == 0
    out, err = capsys.readouterr()
    assert out.splitlines()[1].startswith("Doors to fit: 7 ")
    assert err == ""  # no progress where nobody watches


def test_a_shipped_schedule_by_its_name(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "canal-house", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["units"] == "metric"


@pytest.mark.parametrize(
    ("form", "begins"), [("csv", "door,place"), ("pdf", "%PDF-"), ("json", "{")]
)
def test_a_plan_written_to_a_file(form: str, begins: str, tmp_path: Path) -> None:
    path = tmp_path / f"plan.{form}"
    assert main(["plan", SCHOOL, "--format", form, "-o", str(path)]) == 0
    assert path.read_bytes().startswith(begins.encode())


def test_a_pdf_is_not_printed_into_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", SCHOOL, "--format", "pdf"]) == 2
    assert capsys.readouterr().err == "hingeside: Say where the PDF goes: -o FILE.pdf.\n"


def test_a_map_is_saved_corrected_and_used_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    schedule, saved = tmp_path / "doors.csv", tmp_path / "office.yaml"
    schedule.write_text("Mark,Size,Fluegel\n101,3070,HM\n", "utf-8")
    assert main(["plan", str(schedule), "--save-map", str(saved)]) == 0
    text = saved.read_text("utf-8")
    saved.write_text(text.replace("Fluegel: left-out", "Fluegel: leaf"), "utf-8")
    capsys.readouterr()
    assert main(["plan", str(schedule), "--map", str(saved), "--json"]) == 0
    (door,) = json.loads(capsys.readouterr().out)["doors"]
    assert door["facts"]["leaf"] == "steel"


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("nowhere.xlsx", "There is no schedule “nowhere.xlsx”: give the path of its file."),
        (".", "is a folder: give the file of the schedule."),
        ("x" * 5000, "There is no schedule"),
    ],
)
def test_a_file_that_is_not_there(
    name: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", name]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert words in err


def test_a_plan_of_a_csv_file_loads_neither_yaml_nor_a_workbook_s_library(tmp_path: Path) -> None:
    assert hingeside("plan", SCHOOL, "--sheet", "generic-a").status == 0  # the cache is filled
    script = (
        "import sys; from guide.cli.main import main; status = main(sys.argv[1:]);"
        "heavy = {'yaml', 'pydantic', 'openpyxl', 'fpdf', 'textual'} & set(sys.modules);"
        "sys.exit(status or sorted(heavy) or 0)"
    )
    path = tmp_path / "loaded.py"
    path.write_text(script, "utf-8")
    done = subprocess.run(
        [sys.executable, str(path), "plan", SCHOOL, "--sheet", "generic-a"],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(SHIPPED.parents[1])},
    )
    assert (done.returncode, done.stderr) == (0, "")


def test_a_door_file_for_every_door_begins_its_job(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "doors"
    assert main(["plan", SCHOOL, "--sheet", "generic-a", "--door-files", str(folder)]) == 0
    names = sorted(path.name for path in folder.iterdir())
    assert names == [f"{number}.yaml" for number in (101, 102, 103, 104, 105, 108, 109)]
    read = load_door(folder / "102.yaml")
    assert isinstance(read, DoorShape)
    assert (read.name, read.sheet, read.units) == ("102 Corridor to stair", "generic-a", "inch")
    for name in names:
        door = load_door(folder / name)
        assert supplied_values(procedure(), door.door, door.units or "inch")
    assert "7 door files" in capsys.readouterr().err


def test_two_doors_of_one_number_have_two_files(tmp_path: Path) -> None:
    schedule = tmp_path / "doors.csv"
    schedule.write_text("Mark,Size\n1/A,3070\n1/A,2868\n", "utf-8")
    assert main(["plan", str(schedule), "--door-files", str(tmp_path / "doors")]) == 0
    names = sorted(path.name for path in (tmp_path / "doors").iterdir())
    assert names == ["1-A-row-3.yaml", "1-A.yaml"]


class _Terminal(io.StringIO):
    """Standard error on a terminal."""

    def isatty(self) -> bool:
        return True


def test_long_work_counts_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = _Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setattr("guide.cli.progress.AFTER", -1.0)
    assert main(["plan", SCHOOL, "--sheet", "generic-a"]) == 0
    shown = terminal.getvalue()
    assert "reading row 0 of 13" in shown
    assert "planning door 0 of 9" in shown
    assert shown.endswith("\r\x1b[K")
