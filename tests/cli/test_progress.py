"""Long work counts on a terminal, in one line that is gone at the end; a pipe gets nothing."""

import io
import sys
from collections.abc import Iterator
from itertools import count

import pytest

from guide.cli.main import main
from guide.cli.progress import Progress

GONE = "\r\x1b[K"


class Screen(io.StringIO):
    """Standard error on a terminal."""

    def isatty(self) -> bool:
        return True


def on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> Screen:
    """Standard error from here on; pytest sets its own before each test is called."""
    found = Screen()
    monkeypatch.setattr(sys, "stderr", found)
    return found


def halves() -> Iterator[float]:
    """A clock that is half a second later at each look."""
    return (number / 2 for number in count())


def test_the_line_comes_after_a_while_and_goes_at_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = on_a_terminal(monkeypatch)
    clock = halves()
    with Progress("planning door", clock.__next__) as progress:
        progress.count(1, 1200)
        assert screen.getvalue() == ""
        progress.count(2, 1200)
        assert screen.getvalue() == f"{GONE}planning door 2 of 1,200 "
    assert screen.getvalue().endswith(f"of 1,200 {GONE}")


def test_short_work_shows_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = on_a_terminal(monkeypatch)
    with Progress("planning door", lambda: 0.0) as progress:
        progress.count(1, 2)
    assert screen.getvalue() == ""


@pytest.mark.parametrize(
    ("call", "shown"),
    [
        (("check", "generic-a", "generic-b"), "checking file 1 of 2"),
        (("rehearse", "demo", "demo"), "rehearsing scenario 1 of 2"),
    ],
)
def test_many_files_are_counted(
    call: tuple[str, ...],
    shown: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = on_a_terminal(monkeypatch)
    monkeypatch.setattr("guide.cli.progress.AFTER", -1.0)
    assert main(call) == 0
    assert shown in screen.getvalue()
    assert screen.getvalue().endswith(GONE)
    assert len(capsys.readouterr().out.splitlines()) == 2


def test_a_pipe_gets_nothing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("guide.cli.progress.AFTER", -1.0)
    assert main(["check", "generic-a", "generic-b"]) == 0
    assert capsys.readouterr().err == ""
