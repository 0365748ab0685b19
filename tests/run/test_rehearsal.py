"""Rehearsal: what goes otherwise is named, and no shipped scenario holds whatever is answered."""

from collections.abc import Iterator
from typing import Any

import pytest

from guide.measures import Quantity
from guide.procedure.facts import UNSURE, Fact, writing
from guide.procedure.graph import Graph
from guide.procedure.scenario_file import AnswerShape, ScenarioShape
from guide.run.rehearse import coverage
from guide.run.state import occurrence_of
from guide.run.step import CUT_REPORTS, RESOLUTIONS
from tests.run.shipped_runs import (
    SHIPPED,
    carried,
    carried_shipped,
    gone_on_with,
    shipped,
    shipped_graph,
)


def another(fact: Fact, text: str, units: str) -> str:
    """Another answer that the fact takes."""
    value = fact.read(text, units)
    if fact.options:
        labels = [*fact.options, *([UNSURE] if fact.unsure else [])]
        return labels[(labels.index(str(value)) + 1) % len(labels)]
    if fact.kind == "count" and isinstance(value, int):
        return str(value - 1 if value == fact.high else value + 1)
    if isinstance(value, Quantity):
        low, high = fact.low, fact.high
        other = high if value == low else low
        if isinstance(other, Quantity) and isinstance(high, Quantity):
            return writing(other)
    return f"{text} too"


def changed(scenario: ScenarioShape) -> Iterator[tuple[int, ScenarioShape]]:
    """The scenario with one answer changed, for each answer that a run can tell from another, by its index."""
    graph = shipped_graph(scenario.procedure)
    for number, answer in enumerate(scenario.answers):
        later = scenario.answers[number + 1 :]
        again = [one for one in later if one.at == answer.at]
        if any(one.revise is not None or one.value is not None for one in again):
            continue  # what was put right or asked again later leaves nothing to expect
        new = _changed_answer(graph, answer, scenario.units)
        if new == [answer]:
            continue
        answers = [*scenario.answers[:number], *new, *later]
        yield number, scenario.model_copy(update={"answers": answers})


def _changed_answer(graph: Graph, answer: AnswerShape, units: str) -> list[AnswerShape]:
    """The answer otherwise; none where it is a step that is left out; itself for a note."""
    if answer.resolve is not None:
        other = RESOLUTIONS[(RESOLUTIONS.index(answer.resolve) + 1) % 3]
        return [answer.model_copy(update={"resolve": other})]
    if answer.report is not None:
        other = CUT_REPORTS[(CUT_REPORTS.index(answer.report) + 1) % 3]
        return [answer.model_copy(update={"report": other})]
    if answer.note is not None:
        return [answer]
    if answer.yes is not None:
        return [answer.model_copy(update={"yes": not answer.yes})]
    for key in ("value", "revise"):
        text = getattr(answer, key)
        if text is not None:
            at = occurrence_of(graph, answer.at)
            assert at is not None
            fact = graph.facts[graph.nodes[at[0]].body["fact"]]
            return [answer.model_copy(update={key: another(fact, text, units)})]
    return []


@pytest.mark.parametrize("name", SHIPPED)
def test_a_shipped_scenario_is_met_and_fails_with_any_one_answer_changed(name: str) -> None:
    scenario = shipped(name)
    assert carried_shipped(name)[0].differences == []
    unnoticed = [
        f"{scenario.answers[number].at} (answer {number + 1})"
        for number, other in changed(scenario)
        if gone_on_with(name, number, other).met
    ]
    assert unnoticed == []


@pytest.mark.parametrize("name", SHIPPED)
def test_gone_on_with_in_the_middle_it_comes_to_the_same_as_from_the_beginning(name: str) -> None:
    """The test above goes on from where each answer is changed, which is worth something only if this holds."""
    scenario = shipped(name)
    assert gone_on_with(name, len(scenario.answers) // 2, scenario).differences == []
    every = list(changed(scenario))
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


def demo_expecting(**expect: Any) -> list[str]:
    """What the demonstration's rehearsal says where one thing is expected otherwise."""
    scenario = shipped("demo")
    assert scenario.expect is not None
    other = scenario.expect.model_copy(update=expect)
    return carried(scenario.model_copy(update={"expect": other})).differences


def test_each_difference_is_named_in_a_sentence() -> None:
    expect = shipped("demo").expect
    assert expect is not None
    assert expect.route is not None
    route = expect.route
    assert demo_expecting(end="refused") == ["It ended finished at “done”, not refused."]
    assert demo_expecting(facts={"width": "34 in"}) == ["width is 36 in, not 34 in."]
    assert demo_expecting(facts={"size": "4"}) == ["size is 3, not 4."]
    assert demo_expecting(facts={"width": "914.4 mm"}) == []
    assert demo_expecting(facts={"depth": "2 in"}) == ["depth is not known; 2 in was expected."]
    assert demo_expecting(stops=["holes/punch-marks"]) == [
        "It was stopped by [], not by ['holes/punch-marks']."
    ]
    assert demo_expecting(route=[*route[:3], *route[4:]]) == [
        f"Step 4 of the route is “{route[3]}”, not “{route[4]}”."
    ]
    assert demo_expecting(route=route[:-1]) == [f"The route goes on to “{route[-1]}”."]


def test_an_answer_for_another_place_is_named() -> None:
    scenario = shipped("demo")
    without = scenario.model_copy(update={"answers": scenario.answers[1:]})
    assert carried(without).differences[0] == (
        "The run stands at “may-i-drill/special-leaf”; the next answer is for "
        "“may-i-drill/right-closer”."
    )


def test_an_answer_that_is_not_taken_is_named_with_its_place() -> None:
    scenario = shipped("demo")
    first = scenario.answers[0].model_copy(update={"value": "cardboard"})
    wrong = scenario.model_copy(update={"answers": [first, *scenario.answers[1:]]})
    assert carried(wrong).differences[0].startswith("At “may-i-drill/special-leaf”: “cardboard”")


def test_a_door_that_does_not_fit_is_named() -> None:
    scenario = shipped("demo")
    wrong = scenario.model_copy(update={"door": {**scenario.door, "widht": "36 in"}})
    assert carried(wrong).differences[0].startswith("The door gives “widht”, which")


def test_a_stop_may_be_expected_with_what_became_of_the_cut() -> None:
    scenario = shipped("kitchen-after-punching")
    assert scenario.expect is not None
    for stop, met in (("", True), (" plugged", True), (" remade", False)):
        stops = [f"holes/punch-through-paper{stop}"]
        expect = scenario.expect.model_copy(update={"stops": stops})
        assert carried(scenario.model_copy(update={"expect": expect})).met == met
