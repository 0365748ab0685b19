"""Points and debrief: what a good apprentice gets, and what each slip costs."""

from collections.abc import Iterable

import pytest

from guide.practice.debrief import debrief
from guide.practice.door import HiddenCause, PracticeDoor
from guide.practice.practice import Practice
from guide.practice.score import GRADES, Score, score
from tests.practice.practice_bench import office, shipped

HINGE = HiddenCause("hinge", 10.0, 0.3)


def points(made: Score) -> dict[str, int]:
    return {row.what: row.points for row in made.rows}


def judged(at: PracticeDoor, verdict: str, starts: Iterable[float] = (90, 45, 10)) -> Score:
    practice = Practice(at)
    for start in starts:
        practice.swing(start)
    practice.finish(verdict)
    return score(practice)


def test_the_table_adds_up_to_a_hundred() -> None:
    made = judged(office(), "right")
    assert sum(row.most for row in made.rows) == 100
    assert made.points == 100
    assert made.grade == GRADES[0][1]


def test_a_door_left_wrong_costs_for_each_limit_it_misses() -> None:
    made = judged(office(sweep=3.0, latch=3.5), "right")
    assert points(made)["The door as it is left"] == 10  # neither its time nor its end is right
    assert points(made)["Care"] == 5  # it slammed all three times


def test_calling_it_right_unseen_costs_too() -> None:
    made = judged(office(), "right", starts=(90,))
    assert points(made)["The door as it is left"] == 30
    assert "not seen to latch from 45 and 10 degrees" in made.rows[0].why


def test_a_force_nobody_measured_is_not_proved() -> None:
    made = judged(office(limit=60.0), "right")
    assert "force not measured" in made.rows[0].why


@pytest.mark.parametrize(
    ("verdict", "end", "cause"),
    [("hinge", 25, 15), ("seal", 0, 0), ("right", 0, 0)],
)
def test_a_hidden_cause_pays_where_it_is_named(verdict: str, end: int, cause: int) -> None:
    made = judged(shipped()["village-school"], verdict)
    assert points(made)["The door as it is left"] == end
    assert points(made)["The hidden cause"] == cause


def test_giving_up_a_healthy_door_pays_nothing_for_it() -> None:
    made = judged(office(sweep=2.0), "air")
    assert points(made)["The door as it is left"] == points(made)["The hidden cause"] == 0


def test_swings_time_and_carelessness_cost_points() -> None:
    practice = Practice(office())
    for _ in range(20):
        practice.swing(90)
    for _ in range(3):
        practice.feel()
    practice.turn("latch", "slower", 1)
    practice.swing(90)
    practice.finish("right")
    made = points(score(practice))
    assert made["Swings"] < 15
    assert made["Time at the door"] < 10
    assert made["Care"] == 18  # no hand on the leaf after the turn


def test_the_debrief_tells_what_was_hidden_and_the_cheapest_test_for_it() -> None:
    practice = Practice(shipped()["village-school"])
    swung = practice.swing(90)
    swung.read = (12.0,)
    practice.finish("right")
    _, sections = debrief(practice)
    told = {heading: " ".join(lines) for heading, lines in sections}
    assert "A hinge that binds" in told["What was hidden"]
    assert "one finger on the leaf" in told["What was hidden"]
    assert "By screws alone the adviser gives up" in told["What was hidden"]
    assert "12.0 s (12.41 s)" in told["The times, yours and the model's"]
    assert (
        "Has that put right before any screw is turned"
        in told["What an experienced fitter would have done"]
    )
    assert "no real closer was measured" in told["Keep in mind"]


def test_the_experienced_fitter_is_followed_swing_by_swing() -> None:
    practice = Practice(shipped()["lending-library"])
    practice.finish("right")
    _, sections = debrief(practice)
    guide = dict(sections)["What an experienced fitter would have done"]
    assert "Test 1: 3.8 s and 1.5 s, latches. Sweep valve: half a turn (slower)." in guide
    assert guide[-1].startswith("In all 12 swings")
