"""The program itself, in a pseudo-terminal, read as a person reads the screen."""

import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator
from pathlib import Path

import pyte
import pytest

from tests.screens.back_door import PROCEDURE

ROOT = Path(__file__).resolve().parents[2]


class Window:
    """A terminal of 80 by 24 with the program in it."""

    def __init__(self, *arguments: str, **environment: str) -> None:
        self.screen = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.screen)
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.process = subprocess.Popen(
            [sys.executable, "-m", "guide.cli.main", *arguments],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            cwd=ROOT,
            env={**os.environ, "TERM": "xterm-256color", "LANG": "C.UTF-8", **environment},
        )
        os.close(theirs)
        self.file = ours

    def shows(self, text: str, seconds: float = 30.0) -> bool:
        """Whether the text comes on the screen within so many seconds."""
        until = time.monotonic() + seconds
        while not any(text in line for line in self.screen.display):
            left = until - time.monotonic()
            if left <= 0 or not select.select([self.file], [], [], left)[0]:
                return False
            try:
                self.stream.feed(os.read(self.file, 65536))
            except OSError:
                return False
        return True

    def press(self, keys: str) -> None:
        """Keys as the terminal sends them."""
        os.write(self.file, keys.encode())


@pytest.fixture
def window(tmp_path: Path) -> Iterator[Window]:
    """The small job, just begun."""
    path = tmp_path / "fit-kick-plate.yaml"
    path.write_text(PROCEDURE, "utf-8")
    opened = Window("run", str(path))
    assert opened.shows("Door number")
    opened.press("\r")
    yield opened
    opened.process.kill()
    opened.process.wait()
    os.close(opened.file)


def test_the_program_shows_a_step_takes_keys_and_closes_with_nothing_lost(window: Window) -> None:
    assert window.shows("Wedge the leaf so that it cannot move.")
    window.press("m")
    assert window.shows("Write the note")
    window.press("Old holes in the rail\r")
    assert window.shows("Noted.")
    window.press("\x11")
    assert window.process.wait(30) == 0
    from guide.run.run_list import list_runs
    from guide.run.store import read_run

    _, events = read_run(list_runs()[0].path)
    assert [event.kind for event in events] == ["started", "noted", "paused"]


def test_the_signal_of_a_key_reaches_the_help(window: Window) -> None:
    assert window.shows("Wedge the leaf")
    window.press("?")
    assert window.shows("Keys and words")
