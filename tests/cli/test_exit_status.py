"""What scripts rely on: exit statuses, what is printed where, and never a traceback."""

import json
import random
import string
from pathlib import Path

import pytest

from guide.cli.main import VERBS, main
from tests.cli.program import started

Printed = pytest.CaptureFixture[str]
SMALL = Path(__file__).parents[1] / "run" / "procedures"
GYM_STORE = str(SMALL / "gym-store.yaml")


def called(capsys: Printed, *arguments: str) -> tuple[int, str, str]:
    """Call the program within this process: status, standard output, standard error."""
    try:
        status = main(arguments)
    except SystemExit as leaving:
        status = int(leaving.code or 0)
    printed = capsys.readouterr()
    return status, printed.out, printed.err


@pytest.mark.parametrize(
    ("arguments", "status", "sentence"),
    [
        (["rum"], 2, "“rum” is not a command; did you mean “run”?"),
        (["run", "fit-surface-closr"], 2, "did you mean “fit-surface-closer”?"),
        (["run"], 2, "Name a procedure, or --resume JOB."),
        (["run", GYM_STORE, "--resume", "gym-store"], 2, "Give --resume the job alone"),
        (["run", "--resume", "gym-store-monday"], 2, "There is no run “gym-store-monday”"),
        (["run", GYM_STORE, "--door", "demi"], 2, "did you mean “demo”?"),
        (["run", GYM_STORE, "--door", "demo"], 2, "which gym-store does not ask"),
        (["run", GYM_STORE, "--sheet", "generic-z"], 2, "There is no sheet “generic-z”"),
        (["run", GYM_STORE, "--doors", "demo"], 2, "unrecognized arguments: --doors"),
        (["rehearse", "dmeo"], 2, "did you mean “demo”?"),
        (["work", "spring-sise"], 2, "spring-size"),
        (["work", "spring-size", "widht=36 in"], 2, "width"),
        (["work", "spring-size", "width"], 2, "write key=value"),
        (["work", "spring-size", "width=36 in", "width=38 in"], 2, "given twice"),
        (["work", "spring-size", "width=9 ft"], 1, "No EN size covers a leaf 9 ft wide"),
        (["record", "gym-store-monday"], 2, "There is no run"),
        (["record"], 2, "Name a job"),
        (["record", "--verify", "no-such.run"], 2, "There is no run"),
        (["settings", "unit=metric"], 2, "did you mean “units”?"),
        (["settings", "units=cubits"], 2, "units is one of inch, metric"),
        (["check", "fit-surface-closr"], 2, "did you mean “fit-surface-closer”?"),
    ],
)
def test_a_failure_is_one_sentence_and_prints_no_result(
    capsys: Printed, arguments: list[str], status: int, sentence: str
) -> None:
    got, out, err = called(capsys, *arguments)
    assert (got, out) == (status, "")
    assert sentence in err
    assert err.startswith("hingeside: ")
    assert err.count("\n") == 1


def test_work_gives_one_json_object(capsys: Printed) -> None:
    """EN 1154 table 1: up to 950 mm is size 3; 36 in is 914.4 mm."""
    status, out, err = called(capsys, "work", "spring-size", "width=36 in", "--json")
    assert (status, err) == (0, "")
    data = json.loads(out)
    assert list(data) == ["name", "inputs", "value", "working", "source", "cautions"]
    assert data["value"] == 3
    assert data["inputs"]["width"] == {"magnitude": 36, "unit": "in", "text": "36 in"}
    assert out.count("\n") == 1


def test_the_flag_may_stand_anywhere(capsys: Printed) -> None:
    """Hinges at the left seen from the push side are at the right seen from the pull side: DIN right."""
    for arguments in (
        ["work", "--json", "handing", "hinges=left", "swing=away"],
        ["work", "handing", "--json", "hinges=left", "swing=away"],
        ["work", "handing", "hinges=left", "swing=away", "--json"],
    ):
        status, out, _ = called(capsys, *arguments)
        assert (status, json.loads(out)["value"]) == (0, {"hand": "LH", "din": "right"})


def test_work_without_an_answer_prints_no_result(capsys: Printed) -> None:
    """EN 1154 table 1 ends at 1600 mm (size 7)."""
    status, out, err = called(capsys, "work", "spring-size", "width=1650 mm", "--json")
    assert (status, out) == (1, "")
    assert err


def test_check_prints_its_findings_and_their_status(capsys: Printed, tmp_path: Path) -> None:
    faulty = tmp_path / "lobby.yaml"
    faulty.write_text("procedure: lobby\ntitle: Lobby\nsteps:\n  - do: {id: look, txt: Look.}\n")
    status, out, _ = called(capsys, "check", str(faulty), GYM_STORE, "--json")
    assert status == 1
    first, second = (json.loads(line) for line in out.splitlines())
    assert {"file", "findings", "nodes", "proved"} == set(first)
    finding = first["findings"][0]
    keys = ["file", "line", "column", "code", "level", "message", "example"]
    assert list(finding) == keys
    assert finding["line"] == 4
    assert second["findings"] == []
    assert second["nodes"] > 10
    status, out, err = called(capsys, "check", "no-such-file", GYM_STORE, "--json")
    assert (status, out.count("\n")) == (2, 1)
    assert "no-such-file" in err


def test_rehearse_prints_an_object_a_scenario_and_the_coverage_last(capsys: Printed) -> None:
    status, out, err = called(
        capsys, "rehearse", "demo", "refuse-lead-lined", "--coverage", "--json"
    )
    assert (status, err) == (0, "")
    demo, refused, last = (json.loads(line) for line in out.splitlines())
    assert {"scenario", "route", "facts", "expected"} <= set(demo)
    assert (demo["scenario"], demo["expected"], demo["facts"]["width"]) == ("demo", "met", "36 in")
    assert refused["route"][-1].endswith("not-this-leaf")
    assert list(last) == ["coverage"]


def test_rehearse_goes_on_behind_a_scenario_it_cannot_read(capsys: Printed, tmp_path: Path) -> None:
    broken = tmp_path / "broken.yaml"
    broken.write_text("scenario: broken\nprocedur: gym-store\n")
    status, out, err = called(capsys, "rehearse", str(broken), "demo", "--json")
    assert (status, json.loads(out)["scenario"]) == (1, "demo")
    assert "broken.yaml:2" in err


def test_the_demonstration_ends_well_and_prints_its_record() -> None:
    done = started("run", "fit-surface-closer", "--door", "demo")
    assert (done.status, done.err) == (0, "")
    assert "RECORD: Fit a surface closer" in done.out
    assert "\nFinished\n" in done.out


def test_it_works_from_another_folder(tmp_path: Path) -> None:
    done = started("rehearse", "adjust-ladder-slipped", folder=tmp_path)
    assert (done.status, done.out) == (0, "adjust-ladder-slipped: met (made-safe)\n")


def test_settings_are_kept_and_shown(capsys: Printed) -> None:
    assert called(capsys, "settings", "units=metric", "name=A. Fitter")[0] == 0
    status, out, _ = called(capsys, "settings", "--json")
    assert (status, json.loads(out)["units"], json.loads(out)["name"]) == (0, "metric", "A. Fitter")


def test_a_settings_file_that_is_wrong_is_named(capsys: Printed, own_home: Path) -> None:
    (own_home / "settings.toml").write_text('units = "furlongs"\n')
    status, out, err = called(capsys, "settings")
    assert (status, out) == (2, "")
    assert "units takes one of inch, metric, not 'furlongs'" in err


def test_a_full_output_is_told_and_a_reader_gone_is_not() -> None:
    done = started("work", "handing", "hinges=left", "swing=away", output="/dev/full")
    assert done.status == 3
    assert done.err.count("\n") == 1
    gone = started("work", output="closed")
    assert (gone.status, gone.err) == (0, "")


ENDING = [verb for verb in VERBS if verb != "serve"]
"""Every verb but the one that waits for Ctrl-C."""
WORDS = [
    *ENDING, "--json", "--plain", "--door", "demo", "--sheet", "--resume", "--coverage", "--verify",
    "--format", "csv", "-o", "/", ".", "..", "", " ", "=", "width=", "width=36 in", "width=1e999 in",
    "width=-0 in", "width=1/0 in", "units=", "spring-size", "handing", "generic-a", "\x00", "é½″",
    "x" * 5000, "/dev/null", "/etc", "fit-surface-closer", "--", "-", "--help", "-1", "\udcff",
    "sheet=generic-a", "sheet=/dev/null", "opening=110 deg", "mount=regular",
]  # fmt: skip


def test_no_call_however_odd_ends_in_a_traceback(
    capsys: Printed, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    pick = random.Random(7)
    for _ in range(200):
        arguments = [pick.choice(WORDS) for _ in range(pick.randrange(1, 6))]
        if pick.random() < 0.7:
            arguments[0] = pick.choice(ENDING)
        if pick.random() < 0.2:
            arguments.append("".join(pick.choices(string.printable, k=8)))
        status, _, err = called(capsys, *arguments)
        assert status in (0, 1, 2, 3), arguments
        assert "Traceback" not in err, arguments
        assert (status == 0) or err or arguments[0] in ("check", "rehearse"), arguments
