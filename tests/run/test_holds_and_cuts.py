"""Hold points and cuts: what lapses, what stops the run, and what never un-happens."""

import pytest

from guide.run import replies
from guide.run.session import Session
from guide.run.state import CUT_OPEN, FAULT, STANDING, STOPPED, State, label
from guide.run.step import Refused, fold
from tests.run.small_procedures import begin, give

TO_THE_HOLD = ("wood", "no", "done", "36 in", "done", "0")


def stands(state: State) -> str:
    return label(state.graph, state.at)


def timber() -> Session:
    """The gym store's timber leaf, its hold passed, at the cut."""
    session = begin("gym-store")
    give(session, *TO_THE_HOLD, "hold")
    assert stands(session.state) == "pilot"
    return session


def test_a_hold_lapses_when_a_value_it_read_back_changes() -> None:
    state = give(timber(), "count-holes = 2")
    assert stands(state) == "hold-timber"


def test_a_hold_lapses_when_only_a_computed_value_changes() -> None:
    """EN 1154 table 1: 950 mm is the widest leaf of size 3, so 38 in takes size 4."""
    session = begin("gym-store")
    before = give(session, *TO_THE_HOLD)
    read_back = replies.pass_hold(before)[1]["values"]
    assert read_back["size"] == "3"
    state = give(session, "hold", "how-wide = 38 in")
    assert stands(state) == "show-size"
    state = give(session, "done")
    assert stands(state) == "hold-timber"
    assert replies.pass_hold(state)[1]["values"]["size"] == "4"


def test_putting_a_value_back_brings_the_hold_back_too() -> None:
    session = timber()
    give(session, "count-holes = 2")
    assert stands(give(session, "count-holes = 0")) == "pilot"


def test_a_hold_takes_only_the_values_of_this_moment() -> None:
    session = begin("gym-store")
    kind, body = replies.pass_hold(give(session, *TO_THE_HOLD))
    stale = {**body, "values": {**body["values"], "width": "34 in"}}
    with pytest.raises(Refused, match="read them back again"):
        session.send((kind, stale))


def test_a_hold_within_a_loop_is_passed_anew_for_each_leaf() -> None:
    session = begin("school-pair")
    give(session, "yes", "no", "36 in", "done", "yes", "hold", "begin", "done", "yes")
    state = give(session, "36 in", "done", "yes")
    assert stands(state) == "leaf/before-drill#2"


def test_nothing_is_cut_while_a_correction_waits_for_its_yes() -> None:
    session = timber()
    width = next(at for at in session.state.answers if "how-wide" in label(session.state.graph, at))
    session.send(replies.answer(session.state, "38 in", width, heard=True))
    assert session.state.pending is not None
    with pytest.raises(Refused, match="waiting for yes or no"):
        session.send(replies.begin(session.state))
    session.send(replies.confirm(session.state, yes=False))
    assert stands(session.send(replies.begin(session.state))) == "pilot"


def test_a_cut_must_be_begun_before_it_is_done() -> None:
    session = timber()
    with pytest.raises(Refused, match="say first that you begin"):
        session.send(replies.done(session.state))


def test_a_cut_is_refused_where_a_fact_was_asked_again_behind_its_hold(
    asked_after_hold: Session,
) -> None:
    session = asked_after_hold
    state = give(session, "36 in", "hold", "34 in")
    assert state.status == FAULT
    with pytest.raises(Refused, match="cuts before “width” has been read back"):
        session.send(replies.begin(state))
    session.send(replies.make_safe(state, "The file asks the width behind its hold."))
    assert session.state.ended == "made-safe"


def test_a_cut_whose_basis_changed_stops_the_run_until_it_is_resolved() -> None:
    session = timber()
    state = give(session, "begin", "done", "how-wide = 34 in")
    assert state.status == STOPPED
    assert state.why == (
        "“Drill the lead holes in the leaf” was already cut on other values:"
        " How wide: it was 36 in, now it is 34 in."
    )
    for forbidden in (replies.done, replies.begin):
        with pytest.raises(Refused, match="stopped"):
            session.send(forbidden(session.state))
    with pytest.raises(Refused, match="note"):
        session.send(replies.resolve(session.state, "plugged", "  "))
    with pytest.raises(Refused, match="remade, plugged, abandoned"):
        session.send(replies.resolve(session.state, "forgotten", "Nobody saw."))
    state = give(session, "plugged: Glued dowels into both holes.")
    assert state.status == STANDING
    assert state.cuts[0].resolution == "plugged"
    assert [words for _, _, words in state.notes] == ["plugged: Glued dowels into both holes."]


def test_a_resolved_cut_is_made_again_behind_a_new_hold() -> None:
    session = timber()
    give(session, "begin", "done", "how-wide = 34 in", "plugged: Dowelled.")
    assert stands(session.state) == "hold-timber"
    state = give(session, "hold", "begin", "done")
    assert stands(state) == "set-spring"
    assert [(cut.done, cut.resolution) for cut in state.cuts] == [(True, "plugged"), (True, "")]


def test_what_was_done_after_a_cut_is_done_again_after_it_is_made_again() -> None:
    """The spring was set on a closer that hung elsewhere, though the size is the same."""
    session = timber()
    assert stands(give(session, "begin", "done", "done")) == "shut"
    state = give(session, "how-wide = 35 in", "plugged: Dowelled.", "hold", "begin", "done")
    assert state.env["size"] == 3
    assert stands(state) == "set-spring"


def test_undoing_the_revision_lifts_the_stop() -> None:
    session = timber()
    give(session, "begin", "done", "how-wide = 34 in")
    state = give(session, "how-wide = 36 in")
    assert (state.status, stands(state)) == (STANDING, "set-spring")


def test_a_cut_whose_basis_changes_while_it_is_under_way_stops_the_run() -> None:
    state = give(timber(), "begin", "leaf-of = steel")
    assert state.status == STOPPED
    assert "Drill the lead holes" in state.why


def test_a_change_the_cut_does_not_rest_on_only_asks_for_the_hold_again() -> None:
    session = timber()
    state = give(session, "begin", "count-holes = 1")
    assert (state.status, stands(state)) == (STANDING, "hold-timber")
    state = give(session, "hold")
    assert stands(state) == "pilot"
    assert stands(give(session, "done")) == "set-spring"


def drilled_and_left() -> Session:
    """A school entrance drilled for a coordinator which, it turns out, is not there."""
    session = begin("school-pair")
    leaf = ("36 in", "done", "yes", "hold", "begin", "done")
    give(session, "no", "yes", *leaf, "no", "36 in", "hold", "begin", "done")
    assert stands(session.state) == "both-shut"
    give(session, "on-head = no")
    return session


def test_leaving_the_branch_that_was_cut_stops_the_run() -> None:
    session = drilled_and_left()
    assert session.state.status == STOPPED
    assert "Drill for the coordinator" in session.state.why
    state = give(session, "plugged: Filled the bracket's holes.")
    assert (state.status, stands(state)) == (STANDING, "swing-both")


def test_coming_back_to_the_branch_lifts_the_stop_and_cuts_nothing_twice() -> None:
    session = drilled_and_left()
    state = give(session, "on-head = yes")
    assert (state.status, stands(state)) == (STANDING, "last-width")
    assert state.suggestions[state.at] == state.env["width"]
    state = give(session, "36 in", "hold")
    assert stands(state) == "both-shut"
    assert len(state.cuts) == 2


def test_a_jump_past_a_cut_that_was_made_stops_the_run() -> None:
    session = begin("bakery-skip")
    give(session, "butt", "no", "32 in", "hold", "begin", "done", "done")
    state = give(session, "bare = yes")
    assert state.status == STOPPED
    assert "does without it" in state.why
    assert give(session, "bare = no").status == STANDING


def test_a_value_still_to_be_asked_again_does_not_count_against_a_cut() -> None:
    """The second leaf was drilled at 30 in; back at the first one, 36 in is known, and that is right."""
    session = begin("school-pair")
    leaf = ("done", "yes", "hold", "begin", "done")
    give(session, "yes", "no", "36 in", *leaf, "yes", "30 in", *leaf, "no")
    assert stands(session.state) == "swing-both"
    state = give(session, "leaf/square-yet = no")
    assert (state.status, stands(state)) == (STANDING, "leaf/mark#1.2")
    assert stands(give(session, "done", "yes")) == "swing-both"


@pytest.mark.parametrize(
    ("report", "place", "done", "left"),
    [("all", "set-spring", [True], 1), ("part", "pilot", [False], 1), ("none", "pilot", [], 0)],
)
def test_after_a_kill_inside_a_cut_the_person_says_what_was_drilled(
    report: str, place: str, done: list[bool], left: int
) -> None:
    session = timber()
    state = give(session, "begin", "killed")
    assert state.status == CUT_OPEN
    assert state.why == (
        "The program was closed in the middle of a cut, “Drill the lead holes in the leaf”."
    )
    with pytest.raises(Refused, match="what was drilled"):
        session.send(replies.done(state))
    with pytest.raises(Refused, match="all, part, none"):
        session.send(replies.report(state, "most"))
    state = give(session, f"{report} drilled")
    assert (state.status, stands(state)) == (STANDING, place)
    assert [cut.done for cut in state.cuts] == done
    assert len(state.cuts) == left


def test_a_cut_that_was_only_part_drilled_is_finished_without_beginning_again() -> None:
    state = give(timber(), "begin", "killed", "part drilled", "done")
    assert stands(state) == "set-spring"


def test_a_second_kill_asks_once_more() -> None:
    assert give(timber(), "begin", "killed", "part drilled", "killed").status == CUT_OPEN


def test_a_kill_outside_a_cut_asks_nothing() -> None:
    assert give(timber(), "killed").status == STANDING


def test_a_done_lapses_when_a_fact_it_showed_changes() -> None:
    session = begin("gym-store")
    give(session, "unsure", "no", "done", "36 in", "done", "done", "done")
    assert stands(session.state) == "shut"
    assert stands(give(session, "how-wide = 40 in")) == "show-size"
    state = give(session, "done")
    assert stands(state) == "set-spring"


def test_a_done_stays_where_nothing_it_showed_changes() -> None:
    session = begin("gym-store")
    give(session, "unsure", "no", "done", "36 in", "done", "done", "done")
    state = give(session, "how-wide = 35 in")
    assert stands(state) == "shut", (
        "a 35 in leaf takes the same spring, and nothing showed the width"
    )


def test_a_cut_never_leaves_the_record() -> None:
    session = timber()
    give(session, "begin", "killed", "none drilled", "begin", "done", "how-wide = 34 in")
    give(session, "abandoned: The foreman saw it.")
    kinds = [event.kind for event in session.journal.events()]
    assert kinds.count("cut begun") == 2
    assert kinds.count("cut resolved") == 2
    assert fold(session.journal.events()).cuts[0].resolution == "abandoned"


def test_the_job_can_always_be_made_safe_even_while_it_is_stopped() -> None:
    session = timber()
    give(session, "begin", "done", "how-wide = 34 in")
    session.send(replies.make_safe(session.state, "The leaf is cracked at the hinge."))
    assert session.state.ended == "made-safe"
