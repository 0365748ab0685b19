"""How far a watch strays, from times taken more than once at one setting."""

import pytest

from guide.trade.tuning.latching import Latching
from guide.trade.tuning.readings import SwingReading
from guide.trade.tuning.stopwatch import USUAL_ERROR, Stopwatch


def test_before_any_time_was_taken_twice_a_watch_strays_as_usual() -> None:
    watch = Stopwatch()
    watch.add((3.0, 0.0), 6.0)
    watch.add((3.0, -0.25), 1.2)
    assert watch.error() == pytest.approx(USUAL_ERROR)


def test_times_that_agree_make_it_steadier_and_times_that_jump_less_steady() -> None:
    """Three times 1.4 s: the variance is (3 * 0.3² + 0) / (3 + 2); 0.6, 1.4 and 2.0 s have 0.987 for the 0."""
    steady, jumping = Stopwatch(), Stopwatch()
    for same, other in ((1.4, 0.6), (1.4, 1.4), (1.4, 2.0)):
        steady.add((3.0, 0.0), same)
        jumping.add((3.0, 0.0), other)
    assert steady.error() == pytest.approx((0.27 / 5) ** 0.5)
    assert jumping.error() == pytest.approx(((0.27 + 0.9867) / 5) ** 0.5, rel=1e-3)


def test_a_size_more_of_the_spring_is_as_near_to_a_slam_as_half_a_turn() -> None:
    """It slammed at size 4; at size 3 with the latch valve a quarter further closed it is three quarters away."""
    seen = Latching()
    seen.add(4.0, 0.0, SwingReading(6.0, 0.4, latched=True, slammed=True))
    assert seen.to_slam(3.0, -0.25) == pytest.approx(0.75)
    assert seen.to_slam(4.0, -0.25) == pytest.approx(0.25)
    assert seen.to_slam(4.5, -0.25) == float("inf")
