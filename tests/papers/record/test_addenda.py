"""A finished record is corrected by an addendum: nothing in it is rewritten, and the addendum is told apart."""

import json
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.run.log.reading import read_log
from guide.run.settings import Settings, save_settings
from tests.run.kept_runs import kept_run, kept_session, path_of
from tests.run.small_procedures import give

Printed = pytest.CaptureFixture[str]
WIDTH = "3"
"""The number of the width among the answers of the gym store's record."""


@pytest.fixture
def ended() -> Path:
    """The gym store's door, finished."""
    session = kept_session()
    give(session, "hold", "begin", "done", "done", "done")
    assert session.state.ended == "finished"
    session.close()
    save_settings(Settings(name="R. Foreman"))
    return path_of(session)


def test_a_note_and_a_correction_follow_the_end(ended: Path, capsys: Printed) -> None:
    before = ended.read_bytes()
    assert main(["record", ended.stem, "--add", "The key is with the caretaker."]) == 0
    words = "is 36 1/4 in; the tape was read at the stop."
    assert main(["record", ended.stem, "--add", words, "--correct", WIDTH]) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[0].startswith("Added after the end, by R. Foreman. The last digest is now ")
    assert ended.read_bytes().startswith(before)
    assert said[1].endswith(read_log(ended).digest)

    assert main(["record", ended.stem]) == 0
    text = capsys.readouterr().out
    added = text.partition("Added after the end\n")[2].partition("\n\n")[0].splitlines()
    assert added[0].endswith("R. Foreman: The key is with the caretaker.")
    assert added[1].endswith(f"R. Foreman: Correction of “How wide is the leaf?”: {words}")
    assert f"  {WIDTH}. How wide is the leaf? 36 in; keyed" in text.splitlines()

    assert main(["record", "--verify", str(ended)]) == 0
    assert "lines, ended, 2 added after the end; " in capsys.readouterr().out


def test_every_form_shows_an_addendum_as_one(ended: Path, capsys: Printed, tmp_path: Path) -> None:
    assert main(["record", ended.stem, "--add", "The key is with the caretaker."]) == 0
    capsys.readouterr()
    assert main(["record", ended.stem, "--format", "json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert [one["by"] for one in data["addenda"]] == ["R. Foreman"]
    assert data["notes"] == []
    assert main(["record", ended.stem, "--format", "csv"]) == 0
    assert capsys.readouterr().out.splitlines()[-1].endswith("The key is with the caretaker.,yes")
    assert main(["record", ended.stem, "--format", "html"]) == 0
    assert ">Added after the end</h2>" in capsys.readouterr().out


def test_an_open_job_is_not_added_to(capsys: Printed) -> None:
    save_settings(Settings(name="R. Foreman"))
    path = kept_run()
    before = path.read_bytes()
    assert main(["record", path.stem, "--add", "A word"]) == 2
    assert "This job has not ended" in capsys.readouterr().err
    assert path.read_bytes() == before


def test_who_adds_and_what_is_corrected_must_be_known(ended: Path, capsys: Printed) -> None:
    assert main(["record", ended.stem, "--add", "A word", "--correct", "99"]) == 2
    assert "no answer 99" in capsys.readouterr().err
    assert main(["record", ended.stem, "--correct", "1"]) == 2
    save_settings(Settings())
    assert main(["record", ended.stem, "--add", "A word"]) == 2
    assert "who wrote it" in capsys.readouterr().err
    assert main(["record", ended.stem, "--add", "   "]) != 0
