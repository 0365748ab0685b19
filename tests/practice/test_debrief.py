"""Turns of an apprentice: those that made the door worse are named, and no fair turn is called wrong."""

from dataclasses import replace

import pytest

from guide.practice.debrief import debrief, wrong_turns
from guide.practice.door import HiddenCause, PracticeDoor
from guide.practice.experienced_fitter import demonstration
from guide.practice.practice import Practice
from guide.practice.random_door import random_door
from guide.practice.score import score
from tests.practice.practice_bench import office, shipped

PROUD = HiddenCause("strike", 140.0, 6.0)


def backcheck_open(turns: float) -> PracticeDoor:
    at = office(size=1.0)
    return replace(at, door=replace(at.door, valves=replace(at.door.valves, back=turns)))


@pytest.mark.parametrize(
    ("at", "screw", "wrong", "right", "why"),
    [
        (office(sweep=0.75), "sweep", "slower", "faster", "to the mark already"),
        (office(sweep=3.0), "sweep", "faster", "slower", "it took only"),
        (office(latch=3.5), "latch", "faster", "slower", "it slammed"),
        (office(PROUD), "latch", "slower", "faster", "it did not latch each time"),
        (office(PROUD), "spring", "weaker", "stronger", "it did not latch each time"),
        (office(limit=20.0), "spring", "stronger", "weaker", "more than the limit"),
        (backcheck_open(0.25), "backcheck", "firmer", "softer", "it was like a wall"),
        (backcheck_open(3.5), "backcheck", "softer", "firmer", "it banged into its stop"),
        (office(delay=0.5), "delay", "longer", "shorter", "it waits as it is"),
    ],
)
def test_the_wrong_way_is_named_and_the_right_one_is_not(
    at: PracticeDoor, screw: str, wrong: str, right: str, why: str
) -> None:
    practice = Practice(at)
    practice.turn(screw, wrong, 1)
    assert why in wrong_turns(practice)[0]
    assert "the wrong way" in wrong_turns(practice)[0]
    practice = Practice(at)
    practice.turn(screw, right, 1)
    assert not any("the wrong way" in line for line in wrong_turns(practice))


def test_turning_against_a_hidden_cause_is_told_once_with_how_often() -> None:
    practice = Practice(office(PROUD))
    practice.turn("latch", "faster", 1)
    practice.turn("spring", "stronger", 1)
    practice.turn("backcheck", "softer", 1)
    practice.put_right("strike")
    practice.turn("latch", "slower", 1)
    (line,) = wrong_turns(practice)
    assert line.startswith("2 times a screw was turned while a strike that stands proud")


def test_an_experienced_fitter_never_turns_the_wrong_way() -> None:
    for at in [*shipped().values(), *(random_door(seed) for seed in range(4))]:
        assert not any("the wrong way" in line for line in wrong_turns(demonstration(at).practice))


def test_the_debrief_has_them_and_leaves_them_out_if_nothing_went_wrong() -> None:
    practice = Practice(office(sweep=3.0))
    practice.turn("sweep", "faster", 2)
    practice.finish("right")
    assert "Your turns that did not help" in dict(debrief(practice)[1])
    practice = Practice(office())
    practice.finish("right")
    assert "Your turns that did not help" not in dict(debrief(practice)[1])


def test_a_verdict_out_of_the_blue_earns_nothing_for_swings_and_time_it_saved() -> None:
    practice = Practice(shipped()["lift-lobby"])
    practice.finish("size")
    made = {row.what: row.points for row in score(practice).rows}
    assert made["Swings"] == made["Time at the door"] == 0
    assert score(practice).points == 20  # nothing was slammed or forced
