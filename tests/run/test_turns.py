"""The same steps for each leaf of a pair: what a turn knows and suggests, what it cannot undo, and what is told."""

from pathlib import Path

import pytest

from guide.papers.record.record import record_data
from guide.papers.record.record_forms import record_text
from guide.procedure.compiler import compile_procedure
from guide.procedure.load import load
from guide.run.journal import MemoryJournal
from guide.run.overview import known
from guide.run.prompt import TURN_BEFORE, prompt
from guide.run.session import Session
from guide.run.stages import standing
from guide.run.state import STOPPED, label, occurrence_of
from guide.run.step import fold
from guide.run.turn_views import turn_views
from tests.papers.carried import carried_through
from tests.run.small_procedures import FOLDER, NOON, begin, give, small

FIRST = ("yes", "oak", "30 in", "hold", "begin", "done", "level")
"""The first leaf, 30 in wide, with its sign; the other gets one too."""
OTHER = ("done", "oak", "24 in", "hold", "begin", "done", "low", "done", "level")
"""The other, narrower one, whose sign is put straight."""


def chapel(*lines: str) -> Session:
    session = begin("chapel-pair")
    give(session, *lines)
    return session


def at(session: Session) -> str:
    return label(session.state.graph, session.state.at)


def test_the_other_leaf_begins_without_what_the_first_was_asked() -> None:
    session = chapel(*FIRST)
    assert at(session) == "go-over#2"
    state = session.state
    assert [state.known(name) for name in ("leaf", "width", "middle", "hangs")] == [None] * 4
    assert (state.known("both"), state.known("this_leaf")) == ("yes", "other")
    assert [one.fact for one in known(state)] == ["both"]


def test_one_leaf_alone_is_done_once() -> None:
    assert at(chapel("no", *FIRST[1:])) == "done"


def test_both_leaves_come_to_the_end_and_no_third() -> None:
    session = chapel(*FIRST, *OTHER)
    assert at(session) == "done"
    assert str(session.state.known("width")) == "24 in"
    give(session, "done")
    assert session.state.ended == "finished"


def test_only_what_the_procedure_lists_is_suggested_from_the_leaf_before() -> None:
    session = chapel(*FIRST, "done")
    accepts = prompt(session.state).accepts
    assert (accepts.suggestion, accepts.suggested_by) == ("Oak", TURN_BEFORE)
    give(session, "")
    assert prompt(session.state).accepts.suggestion == ""


def test_the_schedule_speaks_of_the_first_leaf_alone() -> None:
    session = begin("chapel-pair", {"width": small("chapel-pair").facts["width"].decode("30 in")})
    give(session, *FIRST[:2])
    assert prompt(session.state).accepts.suggestion == "30 in"
    give(session, *FIRST[2:], "done", "oak")
    assert (at(session), prompt(session.state).accepts.suggestion) == ("how-wide#2", "")


def test_a_later_turn_is_told_by_name() -> None:
    session = chapel(*FIRST[:2])
    assert (prompt(session.state).turn, standing(session.state).turn) == ("", "")
    give(session, *FIRST[2:])
    assert prompt(session.state).turn == standing(session.state).turn == "Other leaf"


def test_a_repeat_that_begins_with_turns_counts_its_own_rounds(tmp_path: Path) -> None:
    """Both loops begin at one node; the leaves are two, and the rounds up to four."""
    text = (FOLDER / "chapel-pair.yaml").read_text("utf-8").replace("chapel-pair", "again")
    head, each = text.split("steps:\n", 1)
    body, end = each.split("  - end: {id: done", 1)
    inner = "".join(f"      {line}\n" for line in body.splitlines())
    again = "  - repeat:\n      id: again\n      at_most: 4\n      until: {hangs: level}\n      steps:\n"
    otherwise = (
        "      otherwise: {steps: [{end: {id: given-up, outcome: made-safe, text: Stop.}}]}\n"
    )
    path = tmp_path / "again.yaml"
    path.write_text(f"{head}steps:\n{again}{inner}{otherwise}  - end: {{id: done{end}")
    graph = compile_procedure(load(path))[0]
    assert graph is not None
    session = Session.begin(MemoryJournal(), graph, device="bench", clock=lambda: NOON)
    low = ("low", "done", "low", "done", "done")
    give(session, "no", *FIRST[1:-1], *low, "no", *FIRST[1:-1], *low, "no")
    assert (session.state.known("this_leaf"), at(session)) == ("first", "what-leaf#3.1")


@pytest.mark.parametrize("written", ["look", "look#2", "look#2.1", "look#2.2", "drill#2", "drill"])
def test_a_first_turn_is_left_out_of_a_label(written: str) -> None:
    graph = begin("chapel-pair").state.graph
    occurrence = occurrence_of(graph, written)
    assert occurrence is not None
    assert label(graph, occurrence) == written


def test_a_hole_in_the_first_leaf_stays_while_the_other_is_drilled() -> None:
    session = chapel(*FIRST, *OTHER)
    assert [(label(session.state.graph, cut.at), cut.done) for cut in session.state.cuts] == [
        ("drill", True),
        ("drill#2", True),
    ]


def test_a_width_of_the_first_leaf_changed_after_its_hole_stops_the_job() -> None:
    session = chapel(*FIRST, *OTHER[:3])
    give(session, "how-wide = 31 in")
    assert session.state.status == STOPPED
    assert "it was 15 in, now it is 15 1/2 in" in session.state.why


def test_a_leaf_that_cannot_be_done_leaves_the_other_one_done() -> None:
    session = chapel(*FIRST, "done", "glass")
    words = "Done: first leaf. Left to do, other leaf: Drill nothing in glass."
    assert prompt(session.state).text == words
    give(session, "done")
    assert session.state.ended == "left-to-do"
    assert prompt(session.state).text.endswith(words)


def test_the_first_leaf_that_cannot_be_done_is_not_started() -> None:
    session = chapel("yes", "glass", "done")
    assert session.state.ended == "not-started"


def test_a_job_in_its_second_turn_is_read_again_as_it_was() -> None:
    session = chapel(*FIRST, *OTHER[:4])
    assert fold(session.journal.events()) == session.state


def test_each_turn_is_seen_by_itself() -> None:
    views = turn_views(chapel(*FIRST, *OTHER).state)
    assert [name for name, _ in views] == ["First leaf", "Other leaf"]
    assert [str(view.known("width")) for _, view in views] == ["30 in", "24 in"]
    assert [len(view.cuts) for _, view in views] == [1, 1]
    assert turn_views(chapel(*FIRST[:3]).state) == []


def test_the_record_tells_of_each_leaf() -> None:
    session = chapel(*FIRST, *OTHER, "done")
    turns = record_data(session.state, session.journal.events())["turns"]
    assert [turn["facts"]["width"]["shown"] for turn in turns] == ["30 in", "24 in"]
    assert [turn["found_and_left"] for turn in turns] == [
        [{"asked": "Level", "found": "Level", "left": "Level"}],
        [{"asked": "Level", "found": "Low on one side", "left": "Level"}],
    ]


def test_the_tests_of_the_other_leaf_are_its_own() -> None:
    events = carried_through("guildhall-uneven-pair").journal.events()
    advised = [event.body["inputs"] for event in events if event.kind == "worked"]
    readings = [inputs["reading"] for inputs in advised if "reading" in inputs]
    assert {reading.count("\n") for reading in readings} == {0}


def test_the_uneven_pair_of_the_guildhall_has_two_closers_in_one_record() -> None:
    """Spring and hand are each leaf's own; the order of closing is tested once, with both."""
    session = carried_through("guildhall-uneven-pair")
    text = record_text(session.state, session.journal.events())
    first, other = (
        text.split("\nOther leaf: the closer\n")[0],
        text.split("Other leaf: the closer")[1],
    )
    assert "Size the leaf needs: 4" in first
    assert "Size the leaf needs: 3" in other
    assert "From the side the leaf opens toward, where are the hinges? Left; keyed" in text
    assert (
        text.count("Does the pair shut: Both shut and latch every time") == 2
    )  # as left, and the test
