"""Where the app opens, and where the program goes line by line or says what to call."""

import sys

import pytest

from guide.cli.terminal import app_can_open, person_types
from tests.screens.window import Window


class Stream:
    """Standard input or error, a terminal or not."""

    def __init__(self, terminal: bool) -> None:
        self.terminal = terminal

    def isatty(self) -> bool:
        return self.terminal


@pytest.mark.parametrize(
    ("typed", "drawn", "term", "opens"),
    [
        (True, True, "xterm-256color", True),
        (True, True, "dumb", False),
        (True, False, "xterm-256color", False),
        (False, True, "xterm-256color", False),
    ],
)
def test_the_app_opens_only_where_a_person_types_and_it_can_be_drawn(
    monkeypatch: pytest.MonkeyPatch, typed: bool, drawn: bool, term: str, opens: bool
) -> None:
    monkeypatch.setattr(sys, "stdin", Stream(typed))
    monkeypatch.setattr(sys, "__stderr__", Stream(drawn))
    monkeypatch.setenv("TERM", term)
    assert app_can_open() == opens
    assert person_types() == typed


def test_a_program_started_without_its_standard_streams_has_no_terminal(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys, "stdin", None)
    monkeypatch.setattr(sys, "__stderr__", None)
    assert not app_can_open()


def test_a_terminal_that_cannot_move_its_cursor_is_told_what_to_call() -> None:
    window = Window(TERM="dumb")
    assert window.shows("--plain” works line by line")
    assert window.process.wait(30) == 2
