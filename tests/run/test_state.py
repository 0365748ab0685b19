"""State is a fold over events, and a run stands where a fresh run with the same answers would."""

import random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide.procedure.facts import writing
from guide.run import replies
from guide.run.session import Session
from guide.run.state import FAULT, State
from guide.run.step import fold
from tests.run.random_runs import random_run
from tests.run.small_procedures import SMALL, begin, small

RUNS = st.tuples(st.sampled_from(SMALL), st.integers(0, 10**9), st.integers(1, 70))
MANY = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))


def carried(run: tuple[str, int, int]) -> Session:
    name, seed, turns = run
    return random_run(name, random.Random(seed).randrange, turns)


@given(RUNS)
@MANY
def test_one_event_at_a_time_comes_to_the_same_as_beginning_afresh(
    run: tuple[str, int, int],
) -> None:
    session = carried(run)
    events = session.journal.events()
    quick, thorough = fold(events), fold(events, afresh=True)
    for state in (quick, thorough):
        assert state.path == session.state.path
        assert state.env.asked == session.state.env.asked
        assert list(state.env.taken.items()) == list(session.state.env.taken.items())
        assert (state.status, state.why) == (session.state.status, session.state.why)
        assert state.answers == session.state.answers
        assert state.dones == session.state.dones
        assert state.suggestions == session.state.suggestions
        assert state.cuts == session.state.cuts
        assert state.hidden == session.state.hidden


@given(RUNS)
@MANY
def test_a_run_stands_where_a_fresh_run_would(run: tuple[str, int, int]) -> None:
    end = carried(run).state
    fresh = begin(run[0])
    for at in end.path:
        assert fresh.state.status != FAULT
        if at == fresh.state.at and at != end.at:
            follow(fresh, end)
    assert fresh.state.path == end.path
    assert fresh.state.env.asked == end.env.asked
    there = known(end)
    assert all(there[name] == value for name, value in known(fresh.state).items())


def follow(fresh: Session, end: State) -> None:
    """Give the fresh run what is in force in the other, at the visit where it stands."""
    state = fresh.state
    at, kind = state.at, state.node.kind
    if at in end.answers:
        text = writing(end.answers[at].value)
        place = replies.done(state)[1]["at"]
        fresh.send(("answered", {"at": place, "value": text}))
    elif kind == "hold":
        fresh.send(replies.pass_hold(state))
    else:
        if state.node.body.get("cuts"):
            fresh.send(replies.begin(state))
        fresh.send(replies.done(fresh.state))


def known(state: State) -> dict[str, str]:
    """The facts of the path in their exact writing; a computed one where it has been needed."""
    shown = {name for at in state.path for name in state.graph.nodes[at[0]].shows}
    values = {name: state.known(name) for name in shown}
    return {name: writing(value) for name, value in values.items() if value is not None}


@pytest.mark.parametrize("name", SMALL)
def test_random_runs_come_everywhere(name: str) -> None:
    """The property tests above are worth something only if their runs pass every node."""
    missed = {node.index: node.id for node in small(name).nodes}
    for seed in range(150):
        for at in random_run(name, random.Random(seed).randrange, 70).state.path:
            missed.pop(at[0], None)
        if not missed:
            return
    assert missed == {}
