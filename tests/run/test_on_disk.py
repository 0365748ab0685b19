"""An answer is on the disk before the screen acknowledges it: seen from outside, by strace."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.run.disk_trace import calls, unsynced_acknowledgements

PROCEDURES = Path(__file__).parent / "procedures"
LOG = ".run"
NOTES = 4
WHOLE, NO_SYNC = "writing.sync", "lambda file: None"
PROGRAM = """
import sys
from guide.files import writing
writing.sync = eval(sys.argv.pop(1))
from guide.cli.main import main
raise SystemExit(main(sys.argv[1:]))
"""


def traced(tmp_path: Path, sync: str) -> str:
    """The trace of a run that is given a few notes, line by line: each waits for its echo."""
    trace = tmp_path / "trace"
    command = ["strace", "-f", "-y", "-s", "60", "-o", str(trace)]
    command += ["-e", "trace=read,write,fdatasync,fsync,pwrite64,rename,renameat,renameat2"]
    command += [sys.executable, "-u", "-c", PROGRAM, sync]
    command += ["run", str(PROCEDURES / "gym-store.yaml"), "--plain"]
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=dict(os.environ)
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write("\n")  # the door is not named
        for number in range(NOTES):
            process.stdin.write(f"note hinge screw {number} is loose\n")
            process.stdin.flush()
            while "Noted." not in process.stdout.readline():
                assert process.poll() is None
        process.stdin.close()
        assert "Paused." in process.stdout.read()
    assert process.returncode == 0
    return trace.read_text("utf-8")


@pytest.mark.needs("strace")
def test_every_acknowledged_line_was_synced_before(tmp_path: Path) -> None:
    trace = traced(tmp_path, WHOLE)
    assert sum('"Noted.' in call.rest for call in calls(trace)) == NOTES
    assert unsynced_acknowledgements(trace, LOG, '"Noted.') == []


@pytest.mark.needs("strace")
def test_a_log_that_is_not_synced_would_be_found_out(tmp_path: Path) -> None:
    trace = traced(tmp_path, NO_SYNC)
    assert len(unsynced_acknowledgements(trace, LOG, '"Noted.')) == NOTES


@pytest.mark.needs("strace")
def test_a_run_has_its_name_only_once_its_first_lines_are_on_the_disk(tmp_path: Path) -> None:
    """Written and synced under another name, renamed, and then the folder synced."""
    steps = [
        match[1]
        for line in traced(tmp_path, WHOLE).splitlines()
        if (match := re.search(r"\b(write|fsync|rename\w*)\(.*/runs(/.*\.new|>)", line))
    ]
    assert steps == ["write", "fsync", "rename", "fsync"]
