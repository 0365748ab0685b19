"""The shipped job as a whole: few questions before the first action, and every kind of opening rehearsed."""

import pytest

from guide.procedure.scenario_file import ScenarioShape
from guide.run.rehearse import Rehearsal
from tests.run.shipped_runs import SHIPPED, carried_shipped, shipped

FEW = 6
"""The most questions before the first action."""


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
