"""A computation that reads every round so far: a line for each, and what changing an earlier one does."""

import pytest

from guide.run.session import Session
from guide.run.state import label
from guide.run.swings import goes_on
from tests.run.small_procedures import begin, draft


def given(*lines: str) -> Session:
    """The ferry's saloon door, 36 in wide, with these answers and reports."""
    session = begin("ferry-tests")
    for line in ("36 in", *lines):
        session.send(draft(session.state, line))
    return session


def readings(session: Session) -> list[str]:
    """The lines that the adviser was last asked with."""
    worked = [event for event in session.journal.events() if event.kind == "worked"]
    return str(worked[-1].body["inputs"]["reading"]).split("\n")


FIRST = ("slams", "3 s", "0.5 s", "4 lbf", "done")
"""The first test, and the turning after it."""


def test_each_round_is_a_line_with_what_was_asked_in_it() -> None:
    session = given(*FIRST, "latches", "6 s", "1.5 s")
    assert readings(session) == ["slams,3 s,0.5 s,4 lbf", "latches,6 s,1.5 s,"]
    assert str(session.state.known("next")) == "done"


def test_what_a_round_did_not_ask_is_left_empty() -> None:
    session = given("high", "4 lbf")
    assert readings(session) == ["high,,,4 lbf"]


def test_before_the_first_round_nothing_is_known_of_it() -> None:
    assert given().state.known("next") is None


def test_the_step_says_what_the_rounds_come_to() -> None:
    session = given(*FIRST[:-1])
    assert label(session.state.graph, session.state.at) == "turn-now#2"
    assert str(session.state.known("turn")).startswith("Sweep valve: half a turn by the")


def test_a_changed_earlier_round_changes_the_line_and_what_rests_on_it() -> None:
    """The valves were turned for a slam that was none: the turning must be looked at again."""
    session = given(*FIRST, "latches", "4 s", "1 s")
    assert label(session.state.graph, session.state.at) == "turn-now#3"
    session.send(draft(session.state, "to-the-mark = 9 s"))
    assert readings(session)[0] == "slams,9 s,0.5 s,4 lbf"
    assert label(session.state.graph, session.state.at) == "turn-now#2"
    assert "faster" in str(session.state.known("turn"))


def test_a_round_that_goes_another_way_drops_what_it_no_longer_asks() -> None:
    session = given(*FIRST, "latches", "4 s", "1 s")
    session.send(draft(session.state, "what-it-does#1 = short"))
    session.send(draft(session.state, "done"))
    assert readings(session) == ["short,3 s,,4 lbf", "latches,4 s,1 s,"]


@pytest.mark.parametrize(("seen", "goes"), [("latches", "to-shut"), ("short", "")])
def test_the_watch_goes_on_where_the_run_will_ask_for_the_rest_of_the_swing(
    seen: str, goes: str
) -> None:
    after = goes_on(given(seen).state)
    assert (after.id if after is not None else "") == goes
