"""A run of another version of the program is not damaged: it is left as it is, and named so."""

import shutil
import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from guide.files.stored_form import STORED_FORM
from guide.run import journal
from guide.run.journal import Damaged, Journal, OtherVersion, read_events
from guide.run.store import list_runs, open_run, read_run, recover
from tests.run.kept_runs import kept_run, kept_session, path_of, tamper
from tests.run.other_versions import OTHERS, chained_anew, folder_of, run_with_a_photo


def test_a_run_carries_the_number_of_its_form() -> None:
    with sqlite3.connect(kept_run()) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (STORED_FORM,)
    db.close()


@pytest.mark.parametrize("said", OTHERS)
def test_it_is_left_untouched_and_named_so(said: str) -> None:
    path = OTHERS[said]()
    before = folder_of(path)
    for use in (read_events, read_run, open_run, Journal):
        with pytest.raises(OtherVersion) as found:
            use(path)
        sentence = str(found.value)
        assert said in sentence
        assert sentence.startswith(f"The job {path.stem} was made by a")
        assert sentence.endswith("; nothing was changed; open it with that version.")
        assert folder_of(path) == before


@pytest.mark.parametrize("said", OTHERS)
def test_it_stays_on_the_list_with_what_it_is(said: str) -> None:
    path, sound = OTHERS[said](), kept_run("Library stacks")
    before = folder_of(path)
    listed = {run.path: run for run in list_runs()}
    assert said in listed[path].problem
    assert listed[sound].door == "Library stacks"
    assert folder_of(path) == before


def test_one_that_a_newer_version_left_open_keeps_its_log(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Without power the log stays beside the file; reading a log with SQLite would fold it in."""
    monkeypatch.setattr(journal, "STORED_FORM", STORED_FORM + 1)
    session = kept_session()
    running = path_of(session)
    left = running.with_name("gym-store-left.run")
    for ending in ("", "-wal"):
        shutil.copy(f"{running}{ending}", f"{left}{ending}")
    session.close()
    monkeypatch.undo()
    before = {ending: Path(f"{left}{ending}").read_bytes() for ending in ("", "-wal")}
    for use in (read_run, open_run):
        with pytest.raises(OtherVersion, match="made by a newer version"):
            use(left)
    assert {ending: Path(f"{left}{ending}").read_bytes() for ending in before} == before


def test_a_strange_kind_in_a_broken_chain_is_damage() -> None:
    path = run_with_a_photo()
    tamper(path, "UPDATE event SET body = '{}' WHERE seq = 6")
    with pytest.raises(Damaged, match="changed or damaged after its event 3") as found:
        open_run(path)
    assert [event.seq for event in found.value.good] == [1, 2, 3]
    assert "the 3 events before the damage are saved" in recover(path, found.value)


def test_a_strange_kind_reaches_the_person_without_signs_that_a_terminal_obeys() -> None:
    path = kept_run()
    *events, last = read_events(path)
    clears = replace(last, kind="\x1b[2Jphoto")
    with pytest.raises(OtherVersion, match=r"“\[2Jphoto”"):
        read_events(chained_anew(path, [*events, clears]))
