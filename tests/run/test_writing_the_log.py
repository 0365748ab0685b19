"""Writing the log of a run: one writer, and what happens when the disk does not take it."""

import os
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import pytest

from guide.files import writing
from guide.files.library import runs_folder
from guide.run.journal import JournalError, Locked
from guide.run.log import lock
from guide.run.run_list import list_runs
from guide.run.state import label
from guide.run.store import open_run, read_run
from tests.run.kept_runs import kept_run, kept_session, path_of
from tests.run.small_procedures import give


def note(words: str) -> tuple[str, dict[str, str]]:
    return "noted", {"at": "hold-timber", "text": words}


@pytest.mark.parametrize("system", ["linux", "win32"])
def test_a_run_open_elsewhere_is_read_and_listed_and_not_written(
    monkeypatch: pytest.MonkeyPatch, system: str
) -> None:
    monkeypatch.setattr(lock, "sys", SimpleNamespace(platform=system))
    session = kept_session()
    (only,) = list_runs()
    assert (only.problem, only.at) == ("", "hold-timber")
    assert len(read_run(only.path)[1]) == 8
    with pytest.raises(Locked, match="open in another window"):
        open_run(only.path)
    session.close()
    open_run(only.path).close()


def short_write(at_most: int) -> Callable[[int, bytes], int]:
    """A system that writes no more than so many bytes, as on a full disk."""
    write = os.write
    return lambda file, data: write(file, bytes(data)[:at_most])


def test_a_full_disk_loses_nothing_and_the_run_stands_where_it_stood(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    session = kept_session()
    session.send(note("Screws waxed."))
    kept = session.state
    before = path_of(session).read_bytes()
    with monkeypatch.context() as patched:
        patched.setattr(os, "write", short_write(40))
        with pytest.raises(JournalError, match="disk is full"):
            session.send(note("Screws waxed again."))
    assert session.state is kept
    assert path_of(session).read_bytes() == before
    give(session, "hold")
    session.close()
    state, _ = read_run(path_of(session))
    assert len(state.notes) == 1
    assert label(state.graph, state.at) == "pilot"


def failing(*_: object) -> None:
    raise OSError(5, "Input/output error")


def test_after_a_failed_sync_nothing_more_is_written(monkeypatch: pytest.MonkeyPatch) -> None:
    session = kept_session()
    with monkeypatch.context() as patched:
        patched.setattr(writing, "sync", failing)
        with pytest.raises(JournalError, match="Whether the last answer was kept is not known"):
            session.send(note("The frame is sound."))
    with pytest.raises(JournalError, match="Close this job and open it again"):
        session.send(note("The frame is sound."))
    session.close()
    state, _ = read_run(path_of(session))
    assert len(state.notes) <= 1


def test_a_file_that_another_program_writes_is_written_no_more() -> None:
    session = kept_session()
    with path_of(session).open("ab") as file:
        file.write(b"a word\n")
    with pytest.raises(JournalError, match="Another program has moved or changed the file"):
        session.send(note("The frame is sound."))
    session.close()


@pytest.mark.parametrize("call", ["write_new", "sync_folder"])
def test_a_run_that_cannot_be_born_leaves_nothing(
    monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    path = kept_run()
    monkeypatch.setattr(writing, call, failing)
    with pytest.raises(JournalError, match="No job was begun"):
        kept_session()
    assert list(runs_folder().iterdir()) == [path]


@pytest.mark.parametrize(
    ("system", "call"), [("linux", "fcntl.flock"), ("win32", "filelock.lock_descriptor")]
)
def test_a_folder_that_takes_no_locks_is_refused(
    monkeypatch: pytest.MonkeyPatch, system: str, call: str
) -> None:
    def no_locks(*_: object, **__: object) -> bool:
        raise OSError(38, "Function not implemented")

    path = kept_run()
    monkeypatch.setattr(lock, "sys", SimpleNamespace(platform=system))
    monkeypatch.setattr(call, no_locks)
    with pytest.raises(JournalError, match="cannot lock files"):
        open_run(path)
    with pytest.raises(JournalError, match="cannot lock files"):
        kept_session()
    assert len(read_run(path)[1]) == 9


def test_a_run_on_a_disk_that_cannot_be_written_can_be_read_but_not_gone_on_with(
    nobody: Path,
) -> None:
    (path,) = nobody.glob("runs/*.run")
    state, events = read_run(path)
    assert (len(events), label(state.graph, state.at)) == (9, "hold-timber")
    with pytest.raises(JournalError, match="cannot be written; make its folder writable"):
        open_run(path)
    with pytest.raises(JournalError, match="cannot be written"):
        kept_session()
