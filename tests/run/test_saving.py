"""Settings and results are kept whole, whoever else saves at the same moment and whatever was cut off before."""

import errno
import json
import subprocess
import sys
from pathlib import Path

import pytest

from guide.files import writing
from guide.files.writing import append_line, why_not, write_beside, write_in_place
from guide.practice.practice import Practice
from guide.practice.random_door import random_door
from guide.practice.score import Score
from guide.run.practice_results import keep, kept_in
from guide.run.settings import (
    DETAILS,
    BadSettings,
    Settings,
    load_settings,
    save_settings,
    settings_path,
)

SAVE = (
    "import sys; from guide.run.settings import *; save_settings(Settings(name=sys.argv[1] * 40))"
)


@pytest.mark.usefixtures("own_cache")
def test_eight_saves_at_once_leave_one_of_them_whole() -> None:
    names = [chr(ord("a") + number) for number in range(8)]
    saving = [subprocess.Popen([sys.executable, "-c", SAVE, name]) for name in names]
    assert [one.wait() for one in saving] == [0] * 8
    assert load_settings().name in [name * 40 for name in names]
    assert [one.name for one in settings_path().parent.iterdir()] == ["settings.toml"]


def test_settings_that_cannot_be_written_stay_as_they_were(monkeypatch: pytest.MonkeyPatch) -> None:
    save_settings(Settings(detail=DETAILS[1]))

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(writing, "write_all", full)
    with pytest.raises(OSError, match="No space"):
        save_settings(Settings(detail=DETAILS[2]))
    assert load_settings().detail == DETAILS[1]


def test_settings_nested_beyond_reason_are_told_in_a_sentence() -> None:
    settings_path().write_text(f"name = {'[' * 200_000}")
    with pytest.raises(BadSettings):
        load_settings()


def test_a_result_is_not_glued_to_a_line_that_was_cut_off() -> None:
    kept_in().parent.mkdir(parents=True, exist_ok=True)
    kept_in().write_text('{"door": "office-door", "poi')
    practice = Practice(random_door(7))
    assert keep(practice, Score(())) == ""
    assert keep(practice, Score(())) == ""
    torn, first, second = kept_in().read_text("utf-8").splitlines()
    assert torn == '{"door": "office-door", "poi'
    assert json.loads(first)["door"] == json.loads(second)["door"] == practice.at.name


def test_a_full_disk_and_a_folder_that_cannot_be_written_are_told_apart() -> None:
    path = Path("/data/runs")
    assert "The disk is full" in why_not(OSError(errno.ENOSPC, "x"), path)
    assert "/data/runs cannot be written" in why_not(OSError(errno.EROFS, "x"), path)
    assert "does not answer (Input/output error)" in why_not(
        OSError(errno.EIO, "Input/output error"), path
    )


def test_an_output_keeps_its_mode_and_where_its_link_leads(tmp_path: Path) -> None:
    record = tmp_path / "record.txt"
    record.write_text("old")
    record.chmod(0o640)
    link = tmp_path / "latest.txt"
    link.symlink_to(record)
    write_beside(link, b"new")
    assert link.is_symlink()
    assert record.read_bytes() == b"new"
    assert record.stat().st_mode & 0o777 == 0o640
    write_beside(Path("/dev/null"), b"new")
    with pytest.raises(IsADirectoryError):
        write_beside(tmp_path, b"new")


def test_what_fails_leaves_nothing_beside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise OSError(errno.EIO, "Input/output error")

    monkeypatch.setattr("os.fsync", broken)
    with pytest.raises(OSError, match="Input/output"):
        write_in_place(tmp_path / "record.txt", b"new")
    assert list(tmp_path.iterdir()) == []


def test_lines_are_added_behind_each_other(tmp_path: Path) -> None:
    for word in ("one", "two"):
        append_line(tmp_path / "results" / "class.jsonl", word)
    assert (tmp_path / "results" / "class.jsonl").read_text() == "one\ntwo\n"
