"""The ways that known facts leave open, compared with every shipped job that was carried through.

A job is the judge: a plan that knows some of its facts must leave open the way that it took, must have every block that
it calls certain on that way, and must not set aside a door that was finished.
"""

from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

from guide.files.library import catalogue, find
from guide.procedure.facts import Value
from guide.procedure.scenario_file import ScenarioShape, load_scenario
from guide.procedure.sheet_cache import sheet_of
from guide.run.state import State
from guide.run.turns import later_turn
from guide.site.plan.known import Known, Planning
from guide.site.plan.way import Way, way_of
from guide.trade.sheet.sheet import Sheet
from tests.run.shipped_runs import carried_shipped, shipped
from tests.site.schedules import procedure

JOBS = [
    entry.path
    for entry in catalogue("scenario")
    if "procedure: fit-surface-closer\n" in entry.path.read_text("utf-8")
    and not load_scenario(entry.path).aloud
]


def _sheet(scenario: ScenarioShape) -> Sheet | None:
    return None if scenario.sheet == "none" else sheet_of(find("sheet", scenario.sheet))


@cache
def _job(path: Path) -> tuple[State, Planning]:
    """A job at its end, and the planning of its door."""
    scenario = shipped(path.stem)
    found = carried_shipped(path.stem)[0]
    assert found.met, found.differences
    assert found.session is not None
    own = {"rules": scenario.rules, "nfpa_80": scenario.nfpa_80, "ibc": scenario.ibc}
    return found.session.state, Planning(procedure(), scenario.units, _sheet(scenario), own)


def _told(state: State) -> dict[str, Value]:
    """What a schedule could have told of the door of a job: facts that were answered with one value only."""
    answers: dict[str, set[Value]] = defaultdict(set)
    for at in state.path:
        answer = state.answers.get(at)
        if answer is not None:
            answers[state.graph.nodes[at[0]].body["fact"]].add(answer.value)
    return {
        name: next(iter(values))
        for name, values in answers.items()
        if state.graph.facts[name].schedule and len(values) == 1 and "unsure" not in values
    }


def _way(planning: Planning, values: dict[str, Value]) -> Way:
    return way_of(planning, Known(planning, values, {}))


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_job_goes_a_way_that_was_open(path: Path) -> None:
    state, planning = _job(path)
    told = _told(state)
    passed = {at[0] for at in state.path if not later_turn(state, at)}  # a plan is of one leaf
    for share in (1, 2, 3):  # all that could be told, every second, every third
        values = dict(list(told.items())[::share])
        way = _way(planning, values)
        if state.ended != "finished":
            continue
        assert way.stopped is None
        open_ones = {node.index for node in way.nodes}
        assert [planning.graph.nodes[i].id for i in sorted(passed - open_ones)] == []
        assert [planning.graph.nodes[i].id for i in sorted(way.certain - passed)] == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_door_is_set_aside_only_where_its_job_was_not_finished(path: Path) -> None:
    state, planning = _job(path)
    way = _way(planning, _told(state))
    if way.stopped is not None:
        assert state.ended not in ("finished", "left-to-do")


def test_the_jobs_judge_both_ways() -> None:
    ended = [_job(path)[0].ended for path in JOBS]
    stopped = [_way(_job(path)[1], _told(_job(path)[0])).stopped for path in JOBS]
    assert ended.count("finished") > 10
    assert sum(one is not None for one in stopped) > 5


def test_more_knowledge_never_opens_a_way() -> None:
    for path in JOBS[::7]:
        state, planning = _job(path)
        told = _told(state)
        nodes = {node.index for node in _way(planning, {}).nodes}
        values: dict[str, Value] = {}
        for name, value in told.items():
            values[name] = value
            way = _way(planning, dict(values))
            assert {node.index for node in way.nodes} <= nodes
            nodes = {node.index for node in way.nodes} or nodes
