"""Records: to be read, for a machine, for a spreadsheet; and whether a run is whole."""

import csv
import io
import json
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.run.store import runs_folder
from tests.cli.program import CHECKOUT, hingeside

GYM_STORE = str(CHECKOUT / "tests" / "run" / "procedures" / "gym-store.yaml")
FINISHED = (
    *("wood", "yes", "=HYPERLINK(1)", "", "36 in", "note +44 is the extension", "", "0"),
    *("yes", "begin", "done", "", "yes"),
)
Printed = pytest.CaptureFixture[str]


@pytest.fixture
def finished() -> Path:
    """A finished run of the gym store's door."""
    assert hingeside("run", GYM_STORE, "--plain", lines=FINISHED).status == 0
    (path,) = runs_folder().glob("*.run")
    return path


def test_the_record_reads_as_a_page(finished: Path, capsys: Printed) -> None:
    assert main(["record", finished.stem]) == 0
    text = capsys.readouterr().out
    for line in (
        "Outcome    Finished",
        "  How wide is the leaf? 36 in",
        "  size: 3",
        "  Drill the lead holes in the leaf: done. Which leaf: Timber; How wide: 36 in; size: 3",
        "  [read back] hold-timber",
        "The maker's sheet, the listing, the local code and the authority having jurisdiction govern.",
    ):
        assert line in text.splitlines()


def test_the_record_for_a_machine_has_the_events_with_it(finished: Path, capsys: Printed) -> None:
    assert main(["record", finished.stem, "--format", "json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["outcome"] == "finished"
    assert data["facts"]["width"]["value"] == "36 in"
    assert [event["seq"] for event in data["journal"]] == list(range(1, data["events"] + 1))
    assert data["cuts"][0]["at"] == "pilot"


def test_no_cell_for_a_spreadsheet_is_computed_by_it(finished: Path, capsys: Printed) -> None:
    assert main(["record", finished.stem, "--format", "csv"]) == 0
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert rows[0] == ["seq", "utc", "kind", "at", "value"]
    values = [row[4] for row in rows]
    assert "'=HYPERLINK(1)" in values
    assert "'+44 is the extension" in values
    assert not any(cell[:1] in tuple("=+-@") for row in rows for cell in row)


def test_the_record_of_a_job_made_safe_says_why(capsys: Printed) -> None:
    hingeside("run", GYM_STORE, "--plain", lines=("wood", "safe the frame is cracked", "yes"))
    (path,) = runs_folder().glob("*.run")
    assert main(["record", str(path)]) == 0
    assert "Made safe and handed to the foreman: the frame is cracked" in capsys.readouterr().out


def test_a_computed_fact_that_was_never_shown_is_left_out(capsys: Printed) -> None:
    """The width is known and the size could be computed from it, but the run never came so far."""
    hingeside("run", GYM_STORE, "--plain", lines=("wood", "no", "", "50 in"))
    (path,) = runs_folder().glob("*.run")
    assert main(["record", str(path)]) == 0
    assert "size" not in capsys.readouterr().out


def test_verify_names_the_last_digest_that_the_record_names(
    finished: Path, capsys: Printed
) -> None:
    assert main(["record", "--verify", str(finished)]) == 0
    verified = capsys.readouterr().out
    assert main(["record", finished.stem, "--format", "json"]) == 0
    digest = json.loads(capsys.readouterr().out)["last_digest"]
    assert f"last digest {digest}" in verified


def test_a_record_is_written_where_it_is_wanted(finished: Path, tmp_path: Path) -> None:
    wanted = tmp_path / "gym-store.txt"
    assert main(["record", finished.stem, "-o", str(wanted)]) == 0
    assert wanted.read_text("utf-8").startswith("RECORD: A closer on the gym store door")
    assert main(["record", finished.stem, "-o", str(tmp_path / "no-folder" / "x.txt")]) == 3
