"""The program itself, in a pseudo-terminal, read as a person reads the screen."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.screens.back_door import PROCEDURE
from tests.screens.window import Window


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
    assert window.shows("The job is paused and kept.")
    assert window.process.wait(30) == 0
    from guide.run.run_list import list_runs
    from guide.run.store import read_run

    _, events = read_run(list_runs()[0].path)
    assert [event.kind for event in events] == ["started", "noted", "paused"]


def test_the_signal_of_a_key_reaches_the_help(window: Window) -> None:
    assert window.shows("Wedge the leaf")
    window.press("?")
    assert window.shows("Keys and words")
