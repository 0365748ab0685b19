"""A brisk push at a practice door: how the backcheck is felt, set, and counted."""

from dataclasses import replace

import pytest

from guide.practice.door import PracticeDoor
from guide.practice.experienced_fitter import demonstration
from guide.practice.practice import Practice
from guide.practice.push import PUSH, UNTIL, push
from guide.practice.random_door import random_door
from guide.practice.score import past_limits, score
from guide.trade.swing.model import push_open
from tests.practice.practice_bench import office, shipped


def with_backcheck(turns: float, size: float = 1.0) -> PracticeDoor:
    """The office door, its backcheck so many turns open."""
    at = office(size=size)
    return replace(at, door=replace(at.door, valves=replace(at.door.valves, back=turns)))


@pytest.mark.parametrize(
    ("turns", "feels", "says"),
    [
        (0.0, "hard", "Like a wall near 65 degrees"),
        (1.0, "right", "From about 65 degrees it is cushioned, and turns back at"),
        (4.0, "soft", "BANGS into its stop"),
    ],
)
def test_the_further_open_the_softer(turns: float, feels: str, says: str) -> None:
    practice = Practice(with_backcheck(turns))
    pushed = practice.push()
    assert pushed.feels == feels
    assert says in practice.acts[-1].said[0]
    assert practice.spent == pytest.approx(5 + pushed.seconds)


def test_on_a_parallel_arm_it_begins_at_a_wider_angle() -> None:
    """The zone belongs to the pinion's turn, and a parallel arm turns it less."""
    regular, parallel = (Practice(shipped()[name]) for name in ("print-shop", "dance-school"))
    assert parallel.push().begins > regular.push().begins + 10


def test_a_strong_spring_turns_a_parallel_leaf_back_before_its_backcheck() -> None:
    practice = Practice(shipped()["dance-school"])
    practice.turn("spring", "stronger", 2)
    assert practice.push().feels == "short"
    assert "before its backcheck begins" in practice.acts[-1].said[0]


def test_the_leaf_is_followed_as_the_model_has_it() -> None:
    at = office()
    pushed = push(at.door, at.opens_to)
    assert pushed.opening == push_open(at.door, PUSH, UNTIL, at.opens_to)
    assert pushed.angle(0) == 0
    assert pushed.angle(pushed.seconds + 9) == pytest.approx(pushed.opening.peak)
    angles = [deg for _, deg in pushed.trace]
    times = [seconds for seconds, _ in pushed.trace]
    assert angles == sorted(angles)
    assert times == sorted(times)
    half = push_open(at.door, PUSH, UNTIL, 40.0)
    assert pushed.angle(half.seconds) == pytest.approx(40, abs=0.5)


def test_a_turned_backcheck_is_to_be_tried_and_leaves_what_was_proved_of_the_closing() -> None:
    practice = Practice(office())
    for start in (90, 45, 10):
        practice.swing(start)
    assert practice.turn("backcheck", "softer", 1) == (
        "Turned. Push it open to feel what that did.",
    )
    assert practice.proved == {90, 45, 10}
    practice.finish("right")
    made = score(practice).rows[0]
    assert made.points == 30
    assert made.why == "all within limits; not pushed open since the backcheck was turned"


@pytest.mark.parametrize(
    ("turns", "says"), [(0.0, "meets its backcheck like a wall"), (4.0, "bangs into its stop")]
)
def test_a_backcheck_left_wrong_costs_like_any_limit(turns: float, says: str) -> None:
    at = with_backcheck(turns)
    assert any(says in one for one in past_limits(at.door, at))
    assert not any("pushed" in one for one in past_limits(office().door, office()))


def test_some_doors_by_chance_have_a_backcheck_that_is_wrong() -> None:
    feels = [Practice(random_door(seed)).push().feels for seed in range(17, 23)]
    assert {"hard", "soft", "right"} <= set(feels)
    assert feels.count("right") > len(feels) / 3


@pytest.mark.parametrize(
    ("name", "step"),
    [("dance-school", "a bang. Backcheck valve: 1/4 turn firmer."), ("day-centre", "a wall.")],
)
def test_an_experienced_fitter_pushes_it_open_and_sets_it(name: str, step: str) -> None:
    guide = demonstration(shipped()[name])
    assert any(step in one for one in guide.steps)
    assert "the backcheck is as it should be" in guide.steps[-1]
