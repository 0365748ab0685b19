"""How a job ends, how it is taken up again, and the job that follows it at the same door."""

from functools import cache

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.graph import Graph
from guide.procedure.outcomes import OUTCOMES
from guide.run import replies
from guide.run.carried import carried
from guide.run.catalogue import summary_of
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.making_safe import FIRE, LADDER, LEAF, UNTOUCHED, WAY_OUT, to_make_safe
from guide.run.next_job import begin_after
from guide.run.prompt import OUTCOME_WORDS, prompt
from guide.run.session import Session
from guide.run.state import State, label
from guide.run.step import Refused, fold
from guide.run.store import begin_run, open_run
from tests.run.kept_runs import path_of
from tests.run.shipped_runs import carried_shipped
from tests.run.small_procedures import NOON, begin, give
from tests.run.spoken import Voice

WORN_HINGES = (
    *("no", "stops", "nothing", "no", "done", "done", "no", "heavy", "no", "done", "no", "hinges"),
)
"""A door at a workshop: the fault is in its hinges, and the job stands at its end."""
THIRTEEN_HOURS_LATER = "2026-03-03T01:00:00.001Z"


@cache
def shipped(name: str) -> Graph:
    return graph_of(find("procedure", name))


def began(name: str, *answers: str) -> Session:
    session = Session.begin(MemoryJournal(), shipped(name), device="bench", clock=lambda: NOON)
    give(session, *answers)
    return session


def not_known_leaf() -> Session:
    """A leaf that nobody knows: the fitting ends before it begins."""
    session = began("fit-surface-closer", "unsure")
    give(session, "done")
    return session


def test_every_outcome_has_its_words() -> None:
    assert OUTCOME_WORDS.keys() == set(OUTCOMES)


def test_enter_ends_nothing() -> None:
    desk = Desk(began("fit-surface-closer", "unsure"))
    told = desk.command("done").told
    assert told == "This ends the job: press Y to end it."
    assert desk.session.state.ended == ""
    desk.command("yes")
    assert desk.session.state.ended == "not-started"


def test_a_job_that_was_not_started_is_taken_up_with_what_has_changed() -> None:
    session = not_known_leaf()
    assert prompt(session.state).again
    session.send(replies.take_up(session.state, "The schedule was found."))
    assert session.state.ended == ""
    assert session.state.notes[-1][2] == "Taken up again: The schedule was found."
    state = give(session, "may-i-drill/special-leaf = ordinary")
    assert label(state.graph, state.at) == "may-i-drill/right-closer"
    assert fold(session.journal.events()).path == session.state.path


def test_taking_up_needs_words_and_a_job_that_did_not_come_to_its_purpose() -> None:
    session = not_known_leaf()
    with pytest.raises(Refused, match="what the foreman said"):
        session.send(("taken up", {"why": " "}))
    found = began("find-the-fault", *WORN_HINGES, "done")
    assert found.state.ended == "found"
    assert not prompt(found.state).again
    with pytest.raises(Refused, match="came to its purpose"):
        found.send(replies.take_up(found.state, "Once more."))


def test_a_cut_that_was_under_way_is_reported_when_the_job_is_taken_up() -> None:
    session = begin("gym-store")
    give(session, "wood", "no", "done", "36 in", "done", "0", "hold", "begin")
    session.send(replies.make_safe(session.state, "The drill broke."))
    state = session.send(replies.take_up(session.state, "A new drill."))
    assert prompt(state).kind == "report"
    state = give(session, "part drilled")
    assert label(state.graph, state.at) == "pilot"


def test_the_list_of_jobs_knows_that_one_was_taken_up() -> None:
    session = begin_run(shipped("fit-surface-closer"), units="inch")
    give(session, "unsure", "done")
    session.close()
    path = path_of(session)
    assert summary_of(path).outcome == "not-started"
    again = open_run(path)
    assert again.state.ended == "not-started"
    again.send(replies.take_up(again.state, "It is an ordinary leaf."))
    again.close()
    assert summary_of(path).outcome == ""
    assert summary_of(path).problem == ""


# --- making safe ---


def test_before_anything_is_done_the_door_is_left_as_it_was() -> None:
    assert to_make_safe(began("adjust-a-closer", "no").state) == [UNTOUCHED]
    assert to_make_safe(began("adjust-a-closer", "yes").state) == [UNTOUCHED, FIRE]


def test_what_must_be_safe_goes_by_what_was_done() -> None:
    begun = began(
        "find-the-fault", "yes", "stops", "nothing", "yes", "done", "clear", "done", "done"
    )
    assert to_make_safe(begun.state) == [WAY_OUT, LADDER, FIRE]
    with_arm = began("find-the-fault", *WORN_HINGES)
    assert to_make_safe(with_arm.state) == [LEAF, LADDER]


def test_holes_that_were_begun_are_named() -> None:
    session = begin("gym-store")
    state = give(session, "wood", "no", "done", "36 in", "done", "0", "hold", "begin")
    (hole,) = [line for line in to_make_safe(state) if line.startswith("Cut so far: ")]
    assert "begun and not finished" in hole


def test_the_list_is_asked_with_the_yes_and_kept() -> None:
    desk = Desk(began("find-the-fault", *WORN_HINGES))
    told = desk.command("safe", "The ladder is cracked.").told
    assert LADDER in told
    assert told.endswith("Press Y if all of it is safe, N to go on with the job.")
    desk.command("yes")
    ended = desk.session.journal.events()[-1]
    assert ended.body["safe"] == [LEAF, LADDER]


# --- the next job ---


def test_the_end_offers_the_next_job_by_its_title() -> None:
    state = began("find-the-fault", *WORN_HINGES).state
    made = prompt(state)
    assert made.text == "Cause: hinges. Tighten or change them, steel screws only."
    assert made.next_title == "Adjust a closer in service"


def test_one_command_ends_this_job_and_leaves_it_for_the_next() -> None:
    desk = Desk(began("find-the-fault", *WORN_HINGES))
    desk.command("next job")
    assert desk.session.state.ended == "found"
    assert (desk.left, desk.onward) == (True, "adjust-a-closer")


def test_no_job_follows_where_none_is_named() -> None:
    desk = Desk(began("fit-surface-closer", "unsure"))
    assert desk.command("next job").told == "No other job follows from here."
    assert desk.session.state.ended == ""


def test_what_is_known_of_the_door_goes_on_to_the_next_job() -> None:
    before = began("find-the-fault", *WORN_HINGES, "done").state
    brought = carried(before, shipped("adjust-a-closer"), NOON)
    assert brought.supplied == {
        "arm": "heavy",
        "rated": "no",
        "way_out": "no",
    }
    assert set(brought.used) == {"rated", "way_out"}
    assert brought.about["after"] == before.run


def test_readings_are_never_carried() -> None:
    for name, fact in shipped("adjust-a-closer").facts.items():
        if fact.schedule or fact.once_a_visit:
            assert fact.kind not in ("time", "force", "pressure"), name


def test_another_day_asks_everything_again() -> None:
    before = began("find-the-fault", *WORN_HINGES, "done").state
    brought = carried(before, shipped("adjust-a-closer"), THIRTEEN_HOURS_LATER)
    assert brought.used == ()
    assert "way_out" not in brought.supplied


def followed() -> State:
    session = begin_run(shipped("find-the-fault"), units="inch", about={"door": "12"})
    give(session, *WORN_HINGES, "done")
    session.close()
    after = begin_after(session.state, "adjust-a-closer")
    after.close()
    assert after.told == "A new job at the same door; 3 answers are carried over."
    return after.state


def test_fire_and_way_out_are_not_asked_twice_in_one_visit() -> None:
    state = followed()
    assert state.about["door"] == "12"
    assert state.known("rated") == "no"
    assert label(state.graph, state.at) == "look/seen-first"
    assert state.route() == ["fire-door"]


# --- by voice ---


def test_the_next_job_is_begun_by_word() -> None:
    voice = Voice(began("find-the-fault", *WORN_HINGES))
    assert "Next: Adjust a closer in service. Say “next job” to begin it." in voice.opening
    assert voice.say("next job").sent == ("ended",)
    assert voice.talk.desk.onward == "adjust-a-closer"


def test_a_job_is_taken_up_by_word_and_its_reason_written() -> None:
    voice = Voice(not_known_leaf())
    assert voice.say("open the job again").show == "Write what has changed, then Enter."
    assert voice.talk.desk.purpose == "take up"


def test_an_end_tells_the_last_readings_and_what_was_found() -> None:
    found, _ = carried_shipped("seminar-room-continuous")
    assert found.session is not None
    assert prompt(found.session.state).readings == [
        "As left:",
        "Seconds to the mark: 6.2 s (was 7.2 s)",
        "Force to open: 4.3 lbf (was 3.6 lbf)",
        "Seconds from mark to shut: 2 s",
        "Last timing, seconds: 6.2 s",
    ]


def test_each_leaf_of_a_pair_has_its_own_readings_at_the_end() -> None:
    found, _ = carried_shipped("guildhall-uneven-pair")
    assert found.session is not None
    lines = prompt(found.session.state).readings
    assert [line for line in lines if line.endswith(":")] == [
        "First leaf, as left:",
        "Other leaf, as left:",
    ]


def test_a_job_that_read_nothing_tells_nothing_at_its_end() -> None:
    found, _ = carried_shipped("refuse-deep-reveal")
    assert found.session is not None
    assert prompt(found.session.state).readings == []
