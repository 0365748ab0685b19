"""`hingeside site`, and the verbs that take a site: `run --site` and `record SITE`."""

import csv
import io
import json
import re
import shutil
from pathlib import Path

import pytest

from guide.checker.graph_cache import graph_of
from guide.cli.main import main
from guide.files.library import find
from guide.run.run_list import list_runs
from guide.run.store import read_run
from guide.site.site_files import find_site, read_site
from tests.site.site_jobs import AJAR, CLASSROOM, SOUND, job

SCHOOL = "Elm Lane School"
Captured = pytest.CaptureFixture[str]


def said(capsys: Captured, *words: str, status: int = 0) -> str:
    """What is printed; on standard error, if the call is refused."""
    assert main(list(words)) == status, capsys.readouterr().err
    out, err = capsys.readouterr()
    return err if status else out


@pytest.fixture(scope="module")
def home_with_school(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A home with the site, and with the procedures compiled."""
    home = tmp_path_factory.mktemp("school")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("HINGESIDE_HOME", str(home))
        main(["site", "new", SCHOOL, "elm-lane-school", "--sheet", "generic-a"])
        for name in ("inspect-a-closing-door", "adjust-a-closer"):
            graph_of(find("procedure", name))
    return home


@pytest.fixture
def school(home_with_school: Path, own_home: Path) -> str:
    """The site, in a home of the test's own."""
    shutil.copytree(home_with_school, own_home, dirs_exist_ok=True)
    return "elm"


def test_a_site_is_made_from_a_schedule_and_listed(capsys: Captured, school: str) -> None:
    find_site(school).unlink()
    assert said(capsys, "site").startswith("No site yet.")
    assert main(["site", "new", SCHOOL, "elm-lane-school"]) == 0
    told = capsys.readouterr().err
    assert "Elm Lane School: 9 doors. See them: hingeside site" in told
    assert "cells not understood: 4" in told
    assert (
        said(capsys, "site")
        == "Elm Lane School: 9 doors; 9 not started (2 set aside by the plan).\n"
    )
    assert json.loads(said(capsys, "site", "--json"))["sites"][0]["counts"] == {"not-started": 9}


def test_its_doors_with_what_became_of_each(capsys: Captured, school: str) -> None:
    job(SCHOOL, "101", "2027-03-01T09:00", CLASSROOM)
    job(SCHOOL, "103", "2027-03-02T09:00", CLASSROOM, answers=8, end="Rain.")
    text = said(capsys, "site", school)
    assert "7 not started, 1 finished, 1 made safe" in text
    assert re.search(r"^103 +Classroom 1 +20 MIN +made safe +Made safe", text, re.MULTILINE)
    assert "Next: 102 Corridor to stair." in text
    assert said(capsys, "site", school, "--next") == "102 Corridor to stair (not started)\n"
    safe = said(capsys, "site", school, "--state", "made-safe").splitlines()
    assert [line.split()[0] for line in safe[-1:]] == ["103"]
    rated = said(capsys, "site", school, "--rating", "90").splitlines()[-1]
    assert rated.startswith("102 ")
    assert said(capsys, "site", school, "--find", "attic").endswith("No door is like that.\n")
    data = json.loads(said(capsys, "site", school, "--json", "--state", "finished"))
    (door,) = data["doors"]
    assert (door["door"], door["jobs"][0]["outcome"]) == ("101", "finished")
    assert data["next"] == "102"


def test_one_door_over_the_years(capsys: Captured, school: str) -> None:
    job(SCHOOL, "104", "2026-03-01T09:00", CLASSROOM)
    job(SCHOOL, "104", "2027-03-01T09:00", AJAR)
    text = said(capsys, "site", school, "104")
    assert "How wide: 36 in (C8)" in text
    jobs = text.partition("JOBS, the latest first\n")[2]
    assert jobs.index("2027-03-01 Yearly check") < jobs.index("2026-03-01 Fit a surface closer")
    assert "2 at fault: Closes fully, Measured, by the rules" in " ".join(jobs.split())
    data = json.loads(said(capsys, "site", school, "104", "--json"))
    assert data["state"] == "failed"
    assert "did you mean" in said(capsys, "site", school, "10", status=2)


def test_a_site_that_grows_door_by_door(capsys: Captured, school: str) -> None:
    said(capsys, "site", "new", "Corner shop")
    assert "has no door yet" in said(capsys, "site", "corner")
    said(capsys, "site", "corner", "add", "114", "back", "door", "width=36in", "rated=yes")
    door = read_site(find_site("corner")).door("114")
    assert (door.place, door.facts) == ("back door", {"width": "36 in", "rated": "yes"})
    assert "has a door 114 already" in said(capsys, "site", "corner", "add", "114", status=2)
    assert "is not a fact of a door" in said(
        capsys, "site", "corner", "add", "1", "wdth=3", status=2
    )
    assert "The door gives width" in said(
        capsys, "site", "corner", "add", "1", "width=far", status=2
    )
    said(capsys, "site", "corner", "remove", "114")
    assert read_site(find_site("corner")).doors == ()


def test_a_newer_schedule(capsys: Captured, school: str, tmp_path: Path) -> None:
    newer = tmp_path / "b.csv"
    newer.write_text("Mark,Location,Width\n101,Entrance,34 in\n120,Attic,30 in\n", "utf-8")
    assert main(["site", school, "schedule", str(newer)]) == 0
    assert (
        "1 doors added, 1 with other facts; no longer in the schedule: 102"
        in capsys.readouterr().err
    )
    site = read_site(find_site(school))
    assert (site.doors[0].facts["width"], site.doors[-1].number) == ("34 in", "120")


def test_a_job_begins_with_what_the_site_knows_and_goes_on_where_it_stood(
    capsys: Captured, school: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    begin = ["run", "fit-surface-closer", "--site", school, "--door", "104", "--plain"]
    monkeypatch.setattr("sys.stdin", io.StringIO("1\n"))
    out = said(capsys, *begin)
    assert out.startswith("104 Classroom 2. Answers offered: 12 from the schedule.")
    (run,) = list_runs()
    assert (run.site, run.door, run.place) == (SCHOOL, "104", "Classroom 2")
    state, _ = read_run(run.path)
    assert state.sheet is not None
    assert str(state.sheet["sheet"]) == "generic-a"
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    assert main(begin) == 0
    assert f"104: the job there goes on ({run.name})" in capsys.readouterr().err
    assert len(list_runs()) == 1
    assert said(capsys, "site", school, "--next") == "104 Classroom 2 (in work)\n"


def test_a_round_from_the_first_door_to_its_papers(
    capsys: Captured, school: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "has no round yet; begin it" in said(capsys, "site", school, "round", status=2)
    said(
        capsys,
        "site",
        school,
        "round",
        "new",
        "2027",
        "--since",
        "2026-01-01",
        "--doors",
        "102,104",
    )
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    check = ["run", "inspect-a-closing-door", "--site", school, "--plain"]
    assert said(capsys, *check).startswith("102 Corridor to stair.")
    assert "1 to do, 1 in work" in said(capsys, "site", school, "round")
    job(SCHOOL, "104", "2027-03-01T09:00", AJAR)
    text = said(capsys, "site", school, "round", "2027")
    assert re.search(r"^104 +Classroom 2 +20 MIN +with faults +Closes fully", text, re.MULTILINE)
    data = json.loads(said(capsys, "site", school, "round", "--json"))
    assert [fault["item"] for fault in data["deficiencies"]] == ["closes_fully", "verdict"]
    rows = list(
        csv.DictReader(io.StringIO(said(capsys, "site", school, "round", "--format", "csv")))
    )
    assert {row["door"] for row in rows} == {"102", "104"}
    paper = tmp_path / "round.pdf"
    said(capsys, "site", school, "round", "--format", "pdf", "-o", str(paper))
    assert paper.read_bytes().startswith(b"%PDF-")
    assert "-o FILE.pdf" in said(capsys, "site", school, "round", "--format", "pdf", status=2)
    assert "102" in said(capsys, "site", school, "round", "--next")


@pytest.mark.parametrize("form", ["text", "html", "json", "csv", "pdf"])
def test_the_record_of_a_site_and_of_a_door(
    capsys: Captured, school: str, form: str, tmp_path: Path
) -> None:
    path = job(SCHOOL, "104", "2027-03-01T09:00", CLASSROOM, answers=8, end="Rain on the stair.")
    for words in (["elm"], ["elm", "104"]):
        paper = tmp_path / f"{len(words)}.{form}"
        said(capsys, "record", *words, "--format", form, "-o", str(paper))
        told = paper.read_bytes()
        if form == "pdf":
            assert told.startswith(b"%PDF-")
        else:
            assert path.stem.encode() in told
        if form in ("text", "json", "html"):
            assert b"Rain on the stair." in told


def test_a_job_s_own_name_still_means_the_job(capsys: Captured, school: str) -> None:
    path = job(SCHOOL, "104", "2027-03-01T09:00", SOUND)
    assert said(capsys, "record", path.stem).startswith("RECORD: Yearly check")
    assert "-o FILE.pdf" in said(capsys, "record", path.stem, "--format", "pdf", status=2)
    assert "There is no run" in said(capsys, "record", "nothing", status=2)
    assert "There is no site" in said(capsys, "record", "nothing", "104", status=2)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["round"], "Name the site first"),
        (["new"], "Name the site and its schedule"),
        (["nowhere"], "There is no site “nowhere”"),
        (["elm", "101", "102"], "Give one door"),
        (["elm", "add"], "Name the door"),
        (["elm", "remove"], "Give one DOOR"),
        (["elm", "round", "new", "2027", "--procedure", "adjust-a-closer"], "is not an inspection"),
        (["elm", "round", "new", "2027", "--since", "1 March"], "Write the date as 2027-03-01"),
        (["elm", "round", "new", "2027", "--doors", "999"], "has no door “999”"),
        (["elm", "--format", "csv"], "hingeside record"),
        (["new", "Other", "no-such-file.csv"], "There is no schedule"),
    ],
)
def test_a_call_that_is_wrong_is_told_what_to_write(
    capsys: Captured, school: str, words: list[str], told: str
) -> None:
    assert told in said(capsys, "site", *words, status=2)


def test_a_renamed_site_keeps_its_jobs_and_a_deleted_one_leaves_them(
    capsys: Captured, school: str
) -> None:
    job(SCHOOL, "104", "2027-03-01T09:00", SOUND)
    assert main(["site", school, "rename", "Oak Academy"]) == 0
    assert "Elm Lane School is called Oak Academy now." in capsys.readouterr().err
    assert "104" in said(capsys, "site", "oak", "--state", "finished")
    assert "it is called Oak Academy now" in said(capsys, "site", SCHOOL, status=2)
    told = said(capsys, "site", "oak", "delete", status=2)
    assert "its list of 9 doors and its rounds (0). Its jobs (1) stay. Add --yes." in told
    assert main(["site", "oak", "delete", "--yes"]) == 0
    assert "Its jobs (1) are kept." in capsys.readouterr().err
    assert said(capsys, "site").startswith("No site yet.")
    assert [run.site for run in list_runs()] == [SCHOOL]
