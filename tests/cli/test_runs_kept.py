"""Runs from one call to the next: gone on with, damaged, locked, and with no room left."""

import io
import json
import os
import pty
import select
import signal
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.files.library import runs_folder
from guide.run.events import Event
from guide.run.log.writing import Log
from guide.run.store import read_run
from tests.cli.program import CHECKOUT, COMMAND, PATIENCE, hingeside, started
from tests.run.kept_runs import tamper

GYM_STORE = str(CHECKOUT / "tests" / "run" / "procedures" / "gym-store.yaml")
TO_THE_HOLD = ("wood", "no", "", "36 in", "", "0")


def begun(*lines: str) -> Path:
    """A run of the gym store's door that was paused after these lines; its file."""
    done = hingeside("run", GYM_STORE, "--plain", lines=lines)
    assert (done.status, done.err) == (0, "")
    (path,) = runs_folder().glob("*.run")
    return path


def notes(path: Path) -> list[str]:
    return [text for _, _, text in read_run(path)[0].notes]


def test_a_run_that_was_put_by_is_gone_on_with_by_its_name() -> None:
    path = begun(*TO_THE_HOLD)
    done = started("run", "--resume", path.stem, "--plain", lines=("yes", "begin", "", "", "yes"))
    assert (done.status, done.err) == (0, "")
    assert done.out.startswith("--- hold-timber")
    assert "\nFinished\n" in done.out


def test_the_pause_says_how_to_go_on() -> None:
    done = hingeside("run", GYM_STORE, "--plain", lines=("wood",))
    (path,) = runs_folder().glob("*.run")
    assert f"hingeside run --resume {path.stem} --plain" in done.out


def test_a_damaged_run_is_repaired_and_its_sound_part_gone_on_with() -> None:
    path = begun(*TO_THE_HOLD)
    tamper(path, 2, b'"wood"', b'"steel"')
    checked = hingeside("record", "--verify", str(path))
    assert (checked.status, checked.out) == (1, "")
    assert "BROKEN" in checked.err
    done = hingeside("run", "--resume", str(path), "--plain", lines=("steel",))
    assert done.status == 0
    assert "What follows is kept aside as" in done.err
    assert done.out.startswith("--- leaf-of") or done.out.startswith("--- fire-door")
    assert hingeside("record", "--verify", str(path)).status == 0


def test_a_file_that_is_no_run_is_told_in_a_sentence() -> None:
    path = begun("wood")
    path.write_bytes(b"not a run at all")
    done = hingeside("run", "--resume", str(path), "--plain")
    assert (done.status, done.out) == (2, "")
    assert done.err.count("\n") == 1
    assert "is not a run" in done.err
    assert path.read_bytes() == b"not a run at all"


def in_its_folder(path: Path) -> dict[str, tuple[int, int]]:
    return {
        one.name: (one.lstat().st_size, one.lstat().st_mtime_ns) for one in path.parent.iterdir()
    }


def a_document(path: Path) -> Path:
    path.write_text("Tender for nine closers.")
    return path


def a_database(path: Path) -> Path:
    path.write_bytes(b"SQLite format 3\0" + bytes(4080))
    return path


def a_pipe(path: Path) -> Path:
    os.mkfifo(path)
    return path


def a_folder(path: Path) -> Path:
    path.mkdir()
    return path


def a_link(path: Path) -> Path:
    path.symlink_to(a_document(path.with_name("tender.docx")))
    return path


NOT_RUNS: dict[str, Callable[[Path], Path]] = {
    "tender.docx": a_document,
    "stock.sqlite": a_database,
    "gate": a_pipe,
    "drawings": a_folder,
    "latest.run": a_link,
    "zero": lambda path: Path("/dev/zero"),
}


@pytest.mark.parametrize("name", NOT_RUNS)
def test_what_is_not_a_run_is_told_and_left_alone(name: str, tmp_path: Path) -> None:
    path = NOT_RUNS[name](tmp_path / name)
    before = in_its_folder(tmp_path / name)
    for call in (("run", "--resume", str(path), "--plain"), ("record", "--verify", str(path))):
        done = hingeside(*call)
        assert (done.status, done.out) == (2, "")
        assert "not a run" in done.err or "no run" in done.err
        assert done.err.count("\n") == 1
    assert in_its_folder(tmp_path / name) == before


def test_a_run_that_is_open_elsewhere_is_left_alone() -> None:
    path = begun("wood")
    before = len(read_run(path)[1])
    held, _ = Log.open(path)
    done = hingeside("run", "--resume", path.stem, "--plain")
    assert (done.status, done.out) == (3, "")
    assert "open in another window" in done.err
    for call in (("record", path.stem), ("record", "--verify", str(path))):
        done = hingeside(*call)
        assert (done.status, done.err) == (0, "")
    held.close()
    assert len(read_run(path)[1]) == before


def test_with_no_room_left_nothing_acknowledged_is_lost() -> None:
    path = begun("wood")
    room = path.stat().st_size + 6_000
    words = [f"Hinge screw {number} was loose and is tightened." for number in range(150)]
    lines = [f"note {one}" for one in words]
    done = started("run", "--resume", path.stem, "--plain", lines=lines, largest_file=room)
    assert done.status == 3
    assert done.err.count("\n") == 1
    assert "The disk is full" in done.err
    acknowledged = done.out.count("Noted.")
    assert 0 < acknowledged < 150
    assert notes(path) == words[:acknowledged]
    again = hingeside("run", "--resume", path.stem, "--plain", lines=lines[acknowledged:])
    assert again.status == 0
    assert notes(path) == words


def test_with_no_room_at_all_no_run_is_begun() -> None:
    done = started("run", GYM_STORE, "--plain", largest_file=2_000)
    assert done.status == 3
    assert "Traceback" not in done.err
    assert list(runs_folder().glob("*.run")) == []


def test_a_home_that_cannot_be_made_is_told(
    own_home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = own_home / "in-the-way"
    file.write_text("A file where a folder should be.")
    monkeypatch.setenv("HINGESIDE_HOME", str(file))
    done = hingeside("run", GYM_STORE, "--plain")
    assert (done.status, done.out) == (3, "")
    assert done.err.count("\n") == 1


def test_ctrl_c_at_the_prompt_pauses() -> None:
    with subprocess.Popen(
        [*COMMAND, "run", GYM_STORE, "--plain"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=CHECKOUT,
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        assert process.stdin is not None
        process.stdin.write(b"\n")  # the door has no number
        process.stdin.flush()
        said = b""
        while not said.endswith(b"Answer: "):
            piece = os.read(process.stdout.fileno(), 4096)
            assert piece, said.decode()
            said += piece
        process.send_signal(signal.SIGINT)
        rest = process.stdout.read().decode()
        assert process.stderr.read() == b""
    assert process.returncode == 0
    assert "Paused." in rest
    (path,) = runs_folder().glob("*.run")
    assert read_run(path)[1][-1].kind == "paused"


def test_ctrl_c_while_an_answer_is_kept_pauses_behind_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    append = Log.append

    def interrupted(log: Log, events: Sequence[Event], at: str) -> None:
        if events[0].kind == "answered":
            signal.raise_signal(signal.SIGINT)
        append(log, events, at)

    monkeypatch.setattr("sys.stdin", io.StringIO("\nwood\nno\n\n"))
    monkeypatch.setattr(Log, "append", interrupted)
    assert main(["run", GYM_STORE, "--plain"]) == 0
    assert "Paused." in capsys.readouterr().out
    (path,) = runs_folder().glob("*.run")
    assert [event.kind for event in read_run(path)[1]] == ["started", "answered", "paused"]


def wait_for(terminal: int, shown: bytes) -> None:
    """Read the terminal until this was shown and a line is awaited; it fails if nothing more comes."""
    said = b""
    while shown not in said or not said.endswith(b"Answer: "):
        ready, _, _ = select.select([terminal], [], [], PATIENCE)
        assert ready, said.decode()
        said += os.read(terminal, 4096)


def test_a_hold_takes_no_line_that_was_typed_before_it_was_shown() -> None:
    ours, theirs = pty.openpty()
    with subprocess.Popen(
        [*COMMAND, "run", GYM_STORE, "--plain"], stdin=theirs, stdout=theirs, cwd=CHECKOUT
    ) as process:
        os.close(theirs)
        ahead = ["", *TO_THE_HOLD, "yes", "begin", "done", "", "yes"]
        os.write(ours, "".join(f"{line}\n" for line in ahead).encode())
        wait_for(ours, b"--- hold-timber")
        os.write(ours, b"\x04")
        process.wait()
    os.close(ours)
    (path,) = runs_folder().glob("*.run")
    kinds = [event.kind for event in read_run(path)[1]]
    assert kinds[-1] == "paused"
    assert not {"hold passed", "cut begun"} & {*kinds}


def test_a_note_is_kept_as_one_line_that_prints_and_no_longer_than_a_page() -> None:
    lines = ("note hinge\x1b[31m screw\x9b loose\u202e", f"note {'screw ' * 400}", "flush")
    done = hingeside("run", GYM_STORE, "--plain", lines=lines)
    assert done.status == 0
    assert "2,000 are kept; write less." in done.out
    (path,) = runs_folder().glob("*.run")
    assert notes(path) == ["hinge[31m screw loose", "flush"]


def test_ctrl_d_in_a_terminal_pauses() -> None:
    ours, theirs = pty.openpty()
    with subprocess.Popen(
        [*COMMAND, "run", GYM_STORE, "--plain"], stdin=theirs, stdout=theirs, cwd=CHECKOUT
    ) as process:
        os.close(theirs)
        os.write(ours, b"\n")  # the door has no number
        wait_for(ours, b"")
        os.write(ours, b"wood\n")
        wait_for(ours, b"fire-door")
        os.write(ours, b"\x04")
        process.wait()
    os.close(ours)
    assert process.returncode == 0
    (path,) = runs_folder().glob("*.run")
    assert [event.kind for event in read_run(path)[1]] == ["started", "answered", "paused"]


def test_a_line_that_is_no_text_is_asked_again() -> None:
    done = subprocess.run(
        [*COMMAND, "run", GYM_STORE, "--plain"],
        input=b"\nw\xff\xfeod\nwood\n",
        capture_output=True,
        cwd=CHECKOUT,
        check=False,
    )
    assert done.returncode == 0
    assert "--- fire-door" in done.stdout.decode()


def test_a_terminal_without_our_signs_gets_marks_not_a_traceback(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("PYTHONIOENCODING", "ascii")
    done = started("run", GYM_STORE, "--plain", lines=("wood",))
    assert (done.status, done.err) == (0, "")


def modules_after(code: str) -> set[str]:
    """The modules that a fresh process has loaded after some code."""
    done = subprocess.run(
        [sys.executable, "-c", f"{code}\nimport json, sys\nprint(json.dumps(list(sys.modules)))"],
        capture_output=True,
        text=True,
        cwd=CHECKOUT,
        check=True,
    )
    loaded: list[str] = json.loads(done.stdout.splitlines()[-1])
    return {name.partition(".")[0] for name in loaded}


HEAVY = {"pydantic", "yaml", "textual"}


@pytest.mark.parametrize("module", ["guide.run.session", "guide.cli.main", "guide.cli.run"])
def test_importing_the_run_loads_nothing_heavy(module: str) -> None:
    assert modules_after(f"import {module}") & HEAVY == set()


def test_a_run_line_by_line_from_a_warm_cache_loads_nothing_heavy() -> None:
    begun("wood")
    code = (
        "import sys, io\n"
        "from guide.cli.main import main\n"
        "sys.stdin = io.StringIO('wood\\nno\\n\\n36 in\\n\\n')\n"
        f"assert main(['run', {GYM_STORE!r}, '--plain']) == 0"
    )
    assert modules_after(code) & HEAVY == set()


def test_how_much_is_told_line_by_line_is_kept_for_the_next_run() -> None:
    first = hingeside("run", GYM_STORE, "--plain", lines=("detail", "detail"))
    assert "Detail: cards." in first.out
    assert "Detail: spoken." in first.out
    assert json.loads(hingeside("settings", "--json").out)["detail"] == "spoken"
    second = hingeside("run", GYM_STORE, "--plain", lines=("detail",))
    assert "Detail: full." in second.out
