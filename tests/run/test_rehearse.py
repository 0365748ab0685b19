"""Rehearsal: what goes otherwise is named."""

from typing import Any

from tests.run.shipped_runs import (
    carried,
    shipped,
)


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
