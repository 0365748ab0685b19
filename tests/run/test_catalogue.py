"""The catalogue: made from the logs, thrown away at any doubt, and a witness of how far each run had come."""

import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from guide.files.stored_form import STORED_FORM
from guide.run import catalogue
from guide.run.catalogue import RunSummary, at_once, read_now
from guide.run.run_list import list_runs
from guide.run.state import STOPPED
from guide.run.store import open_run, read_run
from tests.run.kept_runs import kept_run, kept_session, lines_of, path_of
from tests.run.small_procedures import give


@pytest.fixture
def kept_in(own_home: Path) -> Path:
    """Where the catalogue is."""
    return own_home / "catalogue.sqlite"


def never(path: Path) -> object:
    raise AssertionError(f"{path} was read")


def test_a_run_is_listed_with_the_step_it_stands_at_and_read_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = kept_run("Library stacks")
    (first,) = list_runs()
    assert (first.path, first.door, first.outcome) == (path, "Library stacks", "")
    assert (first.at, first.lines) == ("hold-timber", len(lines_of(path)) - 1)
    monkeypatch.setattr(catalogue, "_read", never)
    assert list_runs() == [first]


def test_a_line_written_since_is_seen() -> None:
    path = kept_run()
    (before,) = list_runs()
    session = open_run(path)
    give(session, "hold")
    assert list_runs()[0].at == "pilot"
    assert list_runs()[0].lines == before.lines + 2
    session.close()


def test_the_latest_run_is_first_and_an_ended_one_has_its_outcome() -> None:
    kept_run("Library stacks")
    session = kept_session("Boiler room")
    session.send(("ended", {"outcome": "made-safe", "why": '","ended",{"outcome":"finished"'}))
    session.send(("noted", {"at": "hold-timber", "text": "The foreman has seen it."}))
    session.close()
    assert [(run.door, run.outcome) for run in list_runs()] == [
        ("Boiler room", "made-safe"),
        ("Library stacks", ""),
    ]


def test_a_run_that_is_stopped_is_listed_so() -> None:
    session = kept_session()
    give(session, "hold", "begin", "done")
    state = give(session, "how-wide = 34 in")
    session.close()
    assert state.status == STOPPED
    assert list_runs()[0].stopped


def replaced_by_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def altered(path: Path, statement: str) -> None:
    with sqlite3.connect(path) as db:
        db.execute(statement)
    db.close()


DOUBTS: dict[str, Callable[[Path], object]] = {
    "gone": lambda path: path.unlink(),
    "empty": lambda path: path.write_bytes(b""),
    "not a database": lambda path: path.write_bytes(b"Screws, wedges.\n" * 400),
    "cut short": lambda path: path.write_bytes(path.read_bytes()[:5000]),
    "of another version": lambda path: altered(path, f"PRAGMA user_version={STORED_FORM + 1}"),
    "of another table": lambda path: altered(path, "ALTER TABLE run DROP COLUMN step"),
    "a folder": replaced_by_folder,
}


@pytest.mark.parametrize("doubt", DOUBTS)
def test_at_any_doubt_it_is_made_again_and_no_answer_fails(kept_in: Path, doubt: str) -> None:
    path = kept_run()
    (before,) = list_runs()
    DOUBTS[doubt](kept_in)
    assert list_runs() == [before]
    session = open_run(path)
    give(session, "hold")
    session.close()
    assert list_runs()[0].at == "pilot"


def test_a_catalogue_that_another_program_holds_is_not_waited_for(kept_in: Path) -> None:
    path = kept_run()
    holder = sqlite3.connect(kept_in, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    session = open_run(path)
    give(session, "hold")
    session.close()
    assert list_runs()[0].at == "pilot"
    assert holder.execute("SELECT count(*) FROM witness").fetchone() == (1,)
    holder.close()
    path.write_bytes(b"".join(lines_of(path)[:-4]))
    assert list_runs()[0].missing, "what it witnessed before is kept"


def test_a_file_that_is_gone_is_listed_no_more() -> None:
    path = kept_run()
    list_runs()
    path.unlink()
    assert list_runs() == []


def test_one_run_in_two_files_is_listed_once_and_said() -> None:
    path = kept_run()
    copy = path.with_name("as-it-was.run")
    shutil.copy(path, copy)
    open_run(path).close()
    (only,) = list_runs()
    assert (only.path, only.twin) == (path, "as-it-was")


def test_lines_that_are_gone_are_missed_in_the_list_and_on_going_on() -> None:
    path = kept_run()
    path.write_bytes(b"".join(lines_of(path)[:-2]))
    assert list_runs()[0].missing == "2 lines known here are gone"
    session = open_run(path)
    assert session.told == "2 lines known here are gone; ask who had it."
    session.close()


def test_a_file_made_longer_after_a_cut_does_not_buy_the_witness() -> None:
    path = kept_run()
    path.write_bytes(b"".join(lines_of(path)[:-2]))
    for _ in range(3):
        open_run(path).close()
    assert list_runs()[0].missing == "it is not the file that is known here"


def test_what_is_known_comes_at_once_and_the_rest_as_it_is_read() -> None:
    known = kept_run("Library stacks")
    session = kept_session("Boiler room")
    found, unread = at_once()
    assert ([run.path for run in found], unread) == ([known], [path_of(session)])
    assert [run.door for run in read_now(unread)] == ["Boiler room"]
    assert at_once()[1] == []
    session.close()


def test_a_summary_says_what_folding_the_whole_run_says() -> None:
    path = kept_run()
    state, events = read_run(path)
    (found,) = list_runs()
    assert found == RunSummary(
        path,
        path.stem,
        run=state.run,
        title=state.graph.title,
        procedure="gym-store",
        door=str(state.about["door"]),
        device=events[0].device,
        started=state.started,
        updated=state.last_utc,
        outcome=state.ended,
        at="hold-timber",
        step="hold-timber",
        lines=len(lines_of(path)) - 1,
        digest=events[-1].digest,
    )
