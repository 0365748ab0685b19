"""What a kill at the birth of a run leaves beside it goes at the next start, and nothing else does."""

from pathlib import Path

import pytest

from guide.files.library import runs_folder
from guide.run.log.lock import RunLock
from guide.run.store import begin_run, open_run
from tests.run.kept_runs import kept_run, lines_of
from tests.run.small_procedures import small

HALF = b'{"device":"0a1b'
AT_BIRTH = ".gym-store-2026-11-30-070000-0a1b.0123abcd.new"
AT_REPAIR = ".gym-store-2026-11-30-070000-0a1b.run.0123abcd4567.new"


def left(name: str, holds: bytes = HALF) -> Path:
    path = runs_folder() / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(holds)
    return path


def start_a_run() -> None:
    begin_run(small("gym-store"), units="inch").close()


@pytest.mark.parametrize("name", [AT_BIRTH, AT_REPAIR])
@pytest.mark.parametrize("holds", [b"", HALF, b'{"device":"0a1b2c3d4e5f","digest":"00"}\n'])
def test_it_goes_at_the_next_start(name: str, holds: bytes) -> None:
    path = left(name, holds)
    start_a_run()
    assert not path.exists()


def test_it_goes_when_a_run_is_taken_up_again_and_the_run_stays_whole() -> None:
    run = kept_run()
    before = lines_of(run)
    path = left(f".{run.name}.0123abcd4567.new", b"".join(before))
    open_run(run).close()
    assert not path.exists()
    assert lines_of(run)[: len(before)] == before


def test_it_stays_while_its_writer_lives() -> None:
    path = left(AT_BIRTH)
    lock = RunLock(runs_folder() / "gym-store-2026-11-30-070000-0a1b.run")
    start_a_run()
    assert path.exists()
    lock.release()
    start_a_run()
    assert not path.exists()


@pytest.mark.parametrize(
    "name",
    [
        ".notes.new",
        ".door-list.0123.new",
        "gym-store.0123abcd.new",
        ".gym-store.0123ABCD.new",
        ".gym-store.0123abcd.txt",
        ".new",
    ],
)
def test_a_file_of_another_name_stays(name: str) -> None:
    path = left(name)
    start_a_run()
    assert path.read_bytes() == HALF


def test_a_file_of_that_name_that_is_no_log_stays() -> None:
    path = left(AT_BIRTH, b"Tender for nine closers.")
    start_a_run()
    assert path.exists()


def test_a_link_or_a_folder_of_that_name_stays(tmp_path: Path) -> None:
    elsewhere = tmp_path / "tender.docx"
    elsewhere.write_bytes(HALF)
    link = left(AT_REPAIR)
    link.unlink()
    link.symlink_to(elsewhere)
    folder = runs_folder() / AT_BIRTH
    folder.mkdir()
    start_a_run()
    assert link.readlink() == elsewhere
    assert elsewhere.read_bytes() == HALF
    assert folder.is_dir()


def test_outside_the_folder_of_the_runs_nothing_goes(own_home: Path) -> None:
    path = own_home / AT_BIRTH
    path.write_bytes(HALF)
    start_a_run()
    assert path.exists()
