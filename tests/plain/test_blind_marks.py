"""A mark is measured blind line by line: what is printed from the question on holds no number that is wanted."""

from collections.abc import Iterator

import pytest

from guide.plain.loop import run_plain
from guide.run.desk import Desk
from guide.run.session import Session
from tests.run.cinema_marks import (
    MARKED,
    MEASURED,
    NUMBERS,
    READ,
    TO_MEASURING,
    at,
    begin_cinema,
    tells,
)
from tests.run.small_procedures import give


@pytest.fixture
def session() -> Iterator[Session]:
    """The cinema's door, marked, and the first mark to be measured."""
    begun = begin_cinema()
    give(begun, *TO_MEASURING)
    yield begun
    begun.close()


def printed(session: Session, *lines: str, detail: str = "full") -> str:
    """What is printed while these lines are typed; then the job is paused."""
    waiting = iter(lines)
    shown: list[str] = []
    run_plain(Desk(session, detail), lambda: next(waiting, None), shown.append)
    return "\n".join(shown)


@pytest.mark.parametrize("detail", ["full", "cards", "spoken"])
def test_no_line_gives_it_away(session: Session, detail: str) -> None:
    asks = ("status", "why", "draw", "help", "repeat", "detail", "")
    lines = [line for read in READ[:3] for line in (*asks, read)]
    shown = printed(session, *lines, *asks, detail=detail)
    assert at(session.state) == MEASURED[3]
    assert "hidden for now" in shown
    assert "The drawing comes back once you have measured." in shown
    assert not [line for line in shown.split("\n") if tells(line)]


def test_they_are_told_again_after_the_last(session: Session) -> None:
    assert tells(printed(session, *NUMBERS, "status"))


def test_another_mount_makes_marks_and_measurings_due_again(session: Session) -> None:
    give(session, *NUMBERS)
    back = ["back"] * (len(session.state.route()) - 1)
    shown = printed(session, *back, "change", "parallel", "done", "done", *NUMBERS)
    heads = [line.split()[1] for line in shown.split("\n") if line.startswith("--- ")]
    after = heads[heads.index("which-mount") + 1 :]
    assert [one for one in after if one in (*MARKED, *MEASURED)] == [*MARKED, *MEASURED]
