"""A mark is measured blind, and is due again, with its measuring, when what it depends on changes."""

from collections.abc import Iterator

import pytest

from guide.papers.record.record import record_data
from guide.papers.record.record_forms import record_text
from guide.procedure.facts import WrongAnswer
from guide.run import replies
from guide.run.desk import Desk
from guide.run.outcomes import Refusal
from guide.run.overview import done_steps, known
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.state import HIDDEN
from guide.run.step_drawing import NOT_WHILE_BLIND
from guide.run.talk import Talk
from tests.run.cinema_marks import (
    MARKED,
    MEASURED,
    NUMBERS,
    TO_MEASURING,
    at,
    begin_cinema,
    due_after,
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


@pytest.mark.parametrize("number", range(4))
def test_at_a_blind_question_no_surface_has_the_wanted_value(session: Session, number: int) -> None:
    give(session, *NUMBERS[:number])  # those before were read as wanted; this one is not read yet
    state = session.state
    assert at(state) == MEASURED[number]
    made = prompt(state)
    told = [made.text, made.say, made.why, made.watch, made.find_out, made.drawing_says]
    told += [one.text + " ".join(one.working) for one in made.passed]
    told += done_steps(state)
    told += [one.value for one in known(state) if one.fact in state.hidden]
    assert not tells(" ".join(told))
    assert made.draws is not None
    assert made.draws.door is None
    assert not made.accepts.suggestion
    hidden = {one.fact for one in known(state) if one.value == HIDDEN}
    assert hidden == {"body_along", "body_datum", "shoe_along", "shoe_datum"}


def test_they_come_back_once_it_is_measured(session: Session) -> None:
    give(session, *NUMBERS)
    assert at(session.state) == "marks-checked"
    values = {one.fact: one.value for one in known(session.state)}
    assert values["body_along"] == values["body_along_read"] == "7 1/2 in"
    assert "Body 7 1/2 in along, 1 1/2 in from the datum" in done_steps(session.state)


def test_enter_accepts_nothing_there_and_the_drawing_waits(session: Session) -> None:
    desk = Desk(session)
    with pytest.raises(WrongAnswer):
        replies.answer(session.state, "")
    assert desk.command("draw") == Refusal(NOT_WHILE_BLIND)


def test_the_reading_of_the_round_before_is_hidden_too(session: Session) -> None:
    """It was read 7 1/2 in and told to be moved: 7 1/2 less the move is the number wanted."""
    give(session, "7 3/4 in", *NUMBERS[1:])
    assert at(session.state) == "marks-checked"
    give(session, "done")
    assert prompt(session.state).text == ("Body: move it 1/4 in toward the hinge. Shoe: leave it.")
    give(session, *["done"] * 3)
    assert at(session.state) == "body-along-measured#2"
    assert {one.fact for one in known(session.state) if one.value == HIDDEN} >= {
        "body_along",
        "body_along_read",
    }
    assert not [one for one in done_steps(session.state) if "1/4 in" in one]
    assert not prompt(session.state).accepts.suggestion


def test_whoever_looks_back_sees_them_and_the_record_says_so(session: Session) -> None:
    desk = Desk(session)
    desk.command("back")
    assert "13 in along" in desk.shown.text
    desk.command("forward")
    assert not tells(desk.shown.text)
    desk.enter("7 1/2 in")
    desk.enter("1 1/2 in")
    events = session.journal.events()
    assert record_data(session.state, events)["not_blind"] == ["body-along-measured"]
    assert "Not measured blind: the numbers were looked at first" in record_text(
        session.state, events
    )


def test_a_look_at_a_step_that_shows_none_of_them_is_still_blind(session: Session) -> None:
    desk = Desk(session)
    desk.look(next(one for one in session.state.path if one[0] == 2))
    desk.look(None)
    desk.enter("7 1/2 in")
    assert record_data(session.state, session.journal.events())["not_blind"] == []


def test_a_measurement_that_is_changed_later_is_not_blind(session: Session) -> None:
    give(session, *NUMBERS)
    desk = Desk(session)
    desk.look(
        next(
            one
            for one in session.state.path
            if session.state.answers.get(one)
            and session.state.graph.nodes[one[0]].id == MEASURED[0]
        ),
        changing=True,
    )
    desk.enter("7 9/16 in")
    assert record_data(session.state, session.journal.events())["not_blind"] == [MEASURED[0]]


CHANGES = [
    ("hinges-where", "right"),
    ("which-mount", "parallel"),
    ("which-hinges", "swing-clear"),
    ("drop-plate", "yes"),
    ("along-from-where", "edge"),
    ("datum-where", "stop"),
]


@pytest.mark.parametrize(("place", "value"), CHANGES)
def test_what_a_mark_depends_on_makes_it_and_its_measuring_due_again(
    session: Session, place: str, value: str
) -> None:
    """Every number stays as it was: only hand, mount, hinge, accessory or datum is another."""
    give(session, *NUMBERS)
    assert due_after(session, place, value) == [*MARKED, *MEASURED]


def test_a_wanted_number_that_changes_makes_the_measuring_due_again(session: Session) -> None:
    give(session, *NUMBERS)
    due = due_after(session, "body-along", "7 9/16 in")
    assert due == ["mark-the-body", *MEASURED]


def test_a_measuring_that_is_due_again_suggests_nothing(session: Session) -> None:
    give(session, *NUMBERS)
    session.send(replies.answer(session.state, "parallel", session.state.path[1]))
    give(session, "done", "done")
    assert at(session.state) == MEASURED[0]
    assert prompt(session.state).accepts.suggestion == ""
    assert not session.state.suggestions


def test_the_voice_neither_says_nor_offers_them(session: Session) -> None:
    talk = Talk(Desk(session))
    said = [talk.say_step(), talk.say_why()]
    for words in ("repeat", "why", "what is known"):
        understood = talk.asked().grammar.parse(words)
        if understood.meaning is not None:
            reply = talk.heard(understood.meaning, words, 0.9, talk.asked().turn)
            said += [reply.say, reply.show]
    assert said[0] == "Body mark along?"
    assert not tells(" ".join(said))
    assert talk.offered is None


def test_a_move_is_said_in_words(session: Session) -> None:
    give(session, "7 3/4 in", *NUMBERS[1:], "done")
    body = session.state.graph.nodes[session.state.at[0]].body
    assert body["text"] == "Body: {move_body}. Shoe: {move_shoe}."
    talk = Talk(Desk(session))
    assert "Body: move it a quarter inch toward the hinge." in talk.say_why()


def test_a_mark_that_was_made_for_another_mount_in_between_is_measured_anew(
    session: Session,
) -> None:
    """Regular, marked and measured; parallel, marked; regular again: the old marks are rubbed out."""
    give(session, *NUMBERS)
    mount = session.state.path[1]
    session.send(replies.answer(session.state, "parallel", mount))
    give(session, "done", "done")
    assert due_after(session, "which-mount", "regular") == [*MARKED, *MEASURED]


def test_a_mount_that_is_changed_and_changed_back_at_once_makes_nothing_due(
    session: Session,
) -> None:
    give(session, *NUMBERS)
    session.send(replies.answer(session.state, "parallel", session.state.path[1]))
    assert due_after(session, "which-mount", "regular") == []
