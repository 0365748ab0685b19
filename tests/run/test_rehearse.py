"""Rehearsal: what goes otherwise is named, and no shipped scenario holds whatever is answered."""

import random
from typing import Any

import pytest

from guide.run.rehearse import coverage
from tests.run.changed_answers import changed, unnoticed
from tests.run.shipped_runs import (
    SHIPPED,
    carried,
    carried_shipped,
    gone_on_with,
    shipped,
    shipped_graph,
)

SEED = 20_271_101
ONE_IN = 8
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


def demo_expecting(**expect: Any) -> list[str]:
    """What the demonstration's rehearsal says where one thing is expected otherwise."""
    scenario = shipped("demo")
    assert scenario.must_show is not None
    other = scenario.must_show.model_copy(update=expect)
    return carried(scenario.model_copy(update={"must_show": other})).differences


def test_each_difference_is_named_in_a_sentence() -> None:
    expect = shipped("demo").must_show
    assert expect is not None
    assert expect.route is not None
    route = expect.route
    assert demo_expecting(end="found") == ["It ended finished at “done”, not found."]
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
        "The job is at “may-i-drill/special-leaf”; the next answer is for “may-i-drill/which-arm”."
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
    assert scenario.must_show is not None
    for stop, met in (("", True), (" plugged", True), (" remade", False)):
        stops = [f"holes/punch-through-paper{stop}"]
        expect = scenario.must_show.model_copy(update={"stops": stops})
        assert carried(scenario.model_copy(update={"must_show": expect})).met == met
