"""The shipped scenarios: met, not whatever is answered, on nearly every way; and the fitting job as a whole: few
questions before the first action, and every kind of opening."""

import random

import pytest

from guide.procedure.scenario_file import ScenarioShape
from guide.run.rehearse import Rehearsal, coverage
from tests.run.changed_answers import changed, unnoticed
from tests.run.shipped_runs import (
    SHIPPED,
    carried,
    carried_shipped,
    gone_on_with,
    shipped,
    shipped_graph,
)

FEW = 6
"""The most questions before the first action."""
SEED = 20_271_101
ONE_IN = 16
"""Of the changed answers one in so many is tried here, of the scenarios gone on with from the middle one in so many;
all of them by `python -m tests.campaigns.changed_answers`."""
GONE_ON_WITH = sorted(random.Random(SEED).sample(SHIPPED, len(SHIPPED) // ONE_IN))


@pytest.mark.parametrize("name", SHIPPED)
def test_a_shipped_scenario_is_met_and_fails_with_an_answer_changed(name: str) -> None:
    assert carried_shipped(name)[0].differences == []
    every = list(changed(name))
    some = random.Random(f"{SEED} {name}").sample(every, -(-len(every) // ONE_IN))
    assert some
    assert unnoticed(name, some) == []


@pytest.mark.parametrize("name", GONE_ON_WITH)
def test_gone_on_with_in_the_middle_it_comes_to_the_same_as_from_the_beginning(name: str) -> None:
    """The test above goes on from where each answer is changed, which is worth something only if this holds."""
    scenario = shipped(name)
    assert gone_on_with(name, len(scenario.answers) // 2, scenario).differences == []
    every = list(changed(name))
    number, other = every[len(every) // 2]
    assert gone_on_with(name, number, other).differences == carried(other).differences


def test_the_shipped_scenarios_take_nearly_every_way() -> None:
    edges: dict[str, set[tuple[int, int]]] = {}
    for name in SHIPPED:
        found, _ = carried_shipped(name)
        edges.setdefault(found.procedure, set()).update(found.edges)
    for procedure, taken in edges.items():
        total = coverage(shipped_graph(procedure), taken)
        assert total["percent"] >= 95, total["missed"]


@pytest.fixture(scope="module")
def jobs() -> list[tuple[ScenarioShape, Rehearsal]]:
    """Every shipped fitting job, carried through."""
    names = [name for name in SHIPPED if shipped(name).procedure == "fit-surface-closer"]
    return [(shipped(name), carried_shipped(name)[0]) for name in names]


def test_at_most_six_questions_come_before_the_first_action(
    jobs: list[tuple[ScenarioShape, Rehearsal]],
) -> None:
    for scenario, found in jobs:
        assert found.session is not None
        nodes = [found.session.state.graph.nodes[index] for index, _ in found.session.state.path]
        kinds = [node.kind for node in nodes if node.seen]
        first = kinds.index("do") if "do" in kinds else len(kinds)
        questions = [kind for kind in kinds[:first] if kind in ("ask", "check", "time")]
        assert len(questions) <= FEW, scenario.scenario


@pytest.mark.parametrize(
    ("fact", "wanted"),
    [
        ("mount", {"regular", "top-jamb", "parallel"}),
        ("hinge", {"butt", "continuous", "swing-clear", "centre-pivot", "offset-pivot"}),
        ("leaf", {"wood", "steel"}),
        ("knuckles", {"left", "right"}),
        ("din", {"left", "right"}),
    ],
)
def test_finished_jobs_cover_every(
    jobs: list[tuple[ScenarioShape, Rehearsal]], fact: str, wanted: set[str]
) -> None:
    finished = [found for _, found in jobs if found.end == "finished"]
    values = {
        str(found.session.state.known(fact)) for found in finished if found.session is not None
    }
    assert values >= wanted


def test_jobs_end_in_every_way(jobs: list[tuple[ScenarioShape, Rehearsal]]) -> None:
    ends = [found.end for _, found in jobs]
    assert ends.count("finished") >= 10
    assert ends.count("not-started") >= 2
    assert "made-safe" in ends
    assert any(scenario.units == "metric" for scenario, _ in jobs)
    assert any(found.stops for _, found in jobs)
