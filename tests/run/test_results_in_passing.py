"""A computed result with nothing to decide is journalled and shown with the next step; the run does not wait at it."""

import pytest

from guide.plain.loop import run_plain
from guide.run.desk import Desk
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.step import Refused, fold
from guide.run.talk import Talk
from guide.screens.step_words import passed_words
from tests.run.desk_hands import kinds, stands
from tests.run.small_procedures import begin, give


@pytest.fixture
def measured() -> Session:
    """The harbour office's door, its leaf 36 in wide."""
    session = begin("harbour-office")
    give(session, "36 in")
    return session


def test_the_run_goes_on_to_the_next_step(measured: Session) -> None:
    assert stands(measured) == "chalk"
    events = [event.kind for event in measured.journal.events()]
    assert events == ["started", "answered", "worked", "done", "worked", "done"]
    assert measured.state.route() == ["how-wide", "twelve-degrees", "thirty-degrees"]


def test_the_next_step_shows_every_result_on_the_way_with_its_working(measured: Session) -> None:
    twelve, thirty = prompt(measured.state).passed
    assert twelve.text == "Twelve degrees are 7 1/2 in at the latch edge."
    assert twelve.say == "7 1/2 in from shut."
    assert "the sine of half of 12 deg" in twelve.working[0]
    assert thirty.say == thirty.text == "Thirty degrees are 18 5/8 in."
    give(measured, "done")
    assert prompt(measured.state).passed == []


def test_looked_at_again_the_step_shows_them_still(measured: Session) -> None:
    at = measured.state.at
    give(measured, "done")
    assert [one.at for one in prompt(measured.state, at).passed] == [
        "twelve-degrees",
        "thirty-degrees",
    ]


def test_every_front_end_shows_or_says_them(measured: Session) -> None:
    (words,) = passed_words(prompt(measured.state), "full")
    assert "Twelve degrees are 7 1/2 in" in str(words)
    printed: list[str] = []
    run_plain(Desk(measured, "cards"), lambda: None, printed.append)
    assert "Twelve degrees are 7 1/2 in at the latch edge." in printed
    assert (
        Talk(Desk(measured))
        .say_step()
        .startswith("Seven and a half inches from shut. Thirty degrees are ")
    )


def test_a_changed_width_computes_and_passes_them_again(measured: Session) -> None:
    give(measured, "done", "how-wide = 48 in")
    assert stands(measured) == "before-drilling"
    assert [event.kind for event in measured.journal.events()][-5:] == [
        *("revised", "worked", "done", "worked", "done"),
    ]
    assert prompt(measured.state).read_back[1] == ("twelve", "10 in")
    fresh = begin("harbour-office")
    give(fresh, "48 in", "done")
    assert (fresh.state.path, fresh.state.dones) == (measured.state.path, measured.state.dones)


def test_the_journal_alone_leads_to_the_same_place(measured: Session) -> None:
    give(measured, "done", "how-wide = 48 in", "how-wide = 36 in")
    events = measured.journal.events()
    for state in (fold(events), fold(events, afresh=True)):
        assert (state.path, state.dones, state.memo) == (
            measured.state.path,
            measured.state.dones,
            measured.state.memo,
        )


def test_a_hold_reads_the_computed_value_back(measured: Session) -> None:
    give(measured, "done")
    assert prompt(measured.state).read_back == [("How wide", "36 in"), ("twelve", "7 1/2 in")]


def test_a_result_with_more_to_tell_is_waited_at_and_a_caution_is_shown_with_the_next_step(
    measured: Session,
) -> None:
    give(measured, "done", "hold", "begin", "done")
    assert stands(measured) == "swing-it"
    give(measured, "done")
    assert stands(measured) == "fitted"
    (size,) = prompt(measured.state).passed
    assert size.cautions
    printed: list[str] = []
    run_plain(Desk(measured, "cards"), lambda: None, printed.append)
    assert f"NOTICE: {size.cautions[0][1]}"[:60] in "\n".join(printed)


def test_where_there_is_no_result_it_is_waited_at() -> None:
    session = begin("harbour-office")
    give(session, "118 in", "done", "hold", "begin", "done", "done")
    assert stands(session) == "show-size"
    assert "No answer" in prompt(session.state).text


def test_nobody_need_say_that_such_a_result_was_seen(measured: Session) -> None:
    with pytest.raises(Refused):
        measured.send(("done", {"at": "twelve-degrees"}))
    assert kinds(measured)[-1] == "done"
