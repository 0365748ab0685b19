"""A question that shows a value asks about that value: where it changes, the answer counts no longer."""

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.run import replies
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session
from guide.run.state import label, occurrence_of
from guide.run.step import fold

ANSWERS = {
    "hinge": "butt",
    "rated": "yes",
    "rating": "longer",
    "closer_listed": "yes",
    "accessible": "yes",
    "gap_sides": "1/8 in",
    "gap_narrowest": "1/16 in",
    "gap_bottom": "1/2 in",
    "leaf": "wood",
    "prep": "plain",
    "frame": "steel",
    "behind": "solid-wood",
    "thickness": "1 3/4 in",
    "steel_core": "foam",
    "frame_plate": "yes",
    "knuckles": "left",
    "outside": "push",
    "leaves": "single",
    "width": "36 in",
    "height": "80 in",
    "mount": "parallel",
    "soffit": "flat",
    "room": "fits",
    "head_item": "clear",
    "opening": "100 deg",
    "exterior": "no",
    "would_hang_at": "79 in",
    "reveal": "0 in",
    "harder": "no",
    "draught": "no",
    "heavy": "no",
    "size_ok": "yes",
    "frame_side": "yes",
    "special": "ordinary",
    "closer": "surface",
    "arm": "plain",
    "way_out": "no",
    "swings_free": "yes",
    "stopper": "fixed",
    "template": "numbers",
    "typed_along_from": "pin",
    "typed_datum": "stop",
    "typed_body_along": "9 1/2 in",
    "typed_body_across": "2 in",
    "typed_shoe_along": "9 1/2 in",
    "typed_shoe_across": "3 1/4 in",
    "typed_body_pattern": "through",
    "typed_thread": "quarter-20",
}
"""A fire door on a corridor, the closer on the push side."""
MARKING = "holes/mark-the-body"


def come_to(session: Session, block: str) -> list[str]:
    """Answer for the corridor door and do every step, as far as a block; the questions that were asked."""
    asked: list[str] = []
    for _ in range(200):
        state = session.state
        at = label(state.graph, state.at)
        if at == block:
            return asked
        kind = prompt(state).accepts.kind
        if kind in ("choice", "measure"):
            asked.append(at)
            session.send(replies.answer(state, ANSWERS[state.node.body["fact"]]))
        elif kind == "read-back":
            session.send(replies.confirm(state, yes=True))
        else:
            session.send(replies.done(state))
    raise AssertionError(f"{block} was not come to")


@pytest.fixture
def marking() -> Session:
    """The corridor door, about to be marked by the numbers of the sheet."""
    graph = graph_of(find("procedure", "fit-surface-closer"))
    session = Session.begin(MemoryJournal(), graph, device="bench")
    come_to(session, MARKING)
    return session


def change(session: Session, block: str, answer: str) -> None:
    session.send(replies.answer(session.state, answer, occurrence_of(session.state.graph, block)))


def test_what_was_asked_of_the_old_mount_is_asked_of_the_new_one(marking: Session) -> None:
    change(marking, "mount/which-mount", "top-jamb")
    assert come_to(marking, MARKING) == [
        "mount/on-push-side",
        "mount/enough-room",
        "right-size/body-has-it",
        "holes/along-from-where",
        "holes/datum-where",
        "holes/body-how-far-along",
        "holes/body-how-far-from-datum",
        "holes/shoe-how-far-along",
        "holes/shoe-how-far-from-datum",
        "holes/body-pattern",
    ]


def test_an_answer_about_the_old_mount_is_not_offered_for_the_new_one(marking: Session) -> None:
    change(marking, "mount/which-mount", "top-jamb")
    come_to(marking, "holes/body-how-far-along")
    assert prompt(marking.state).accepts.suggestion == ""


def test_what_does_not_rest_on_the_changed_answer_stays(marking: Session) -> None:
    change(marking, "mount/hangs-on", "continuous")
    assert come_to(marking, MARKING) == ["holes/paper-or-numbers"]


def test_another_opening_has_other_numbers_and_wants_its_own_stop(marking: Session) -> None:
    change(marking, "how-far/opening-angle", "110 deg")
    assert come_to(marking, MARKING) == [
        "how-far/how-deep",
        "how-far/stopped-by",
        "holes/body-how-far-along",
        "holes/body-how-far-from-datum",
        "holes/shoe-how-far-along",
        "holes/shoe-how-far-from-datum",
    ]


def test_a_change_taken_back_at_once_costs_the_first_of_these_questions_only(
    marking: Session,
) -> None:
    change(marking, "mount/which-mount", "top-jamb")
    change(marking, "mount/which-mount", "parallel")
    assert len(come_to(marking, MARKING)) <= 1


def test_such_a_run_is_read_back_from_its_journal_as_it_stood(marking: Session) -> None:
    change(marking, "mount/which-mount", "top-jamb")
    come_to(marking, MARKING)
    for afresh in (False, True):
        again = fold(marking.journal.events(), afresh=afresh)
        assert (again.path, again.answers) == (marking.state.path, marking.state.answers)


def test_a_value_read_back_is_named_without_the_mark_of_its_question(marking: Session) -> None:
    draft = replies.answer(
        marking.state, "25 in", occurrence_of(marking.state.graph, "mount/how-wide")
    )
    marking.send(draft)
    assert prompt(marking.state).read_back == [("How wide", "25 in")]
