"""The bound that the caps on turns set, on doors whose answer is plain."""

from dataclasses import replace

import pytest

from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SwingingDoor
from guide.trade.swing.valves import Valves
from guide.trade.tuning.readings import Caps
from tests.campaigns.tuning_doors import LBF, Hidden, fault
from tests.campaigns.tuning_oracle import fewest_tests

OFFICE = SwingingDoor(0.914, 2.134, 60.0, usual_geometry("regular"), 3, latch_force=8.0, seal=1.0)
"""A 36 in office door as it leaves the works."""


def hidden(valves: Valves, size: float = 3, limit: float | None = None) -> Hidden:
    door = replace(OFFICE, valves=valves, size=size)
    return Hidden(door, "regular", limit, watch=0.2, fuzz=0.0)


def test_a_door_that_is_right_needs_the_one_test_that_shows_it() -> None:
    right = hidden(Valves(sweep=1.25))
    assert not fault(right.door, None)
    assert fewest_tests(right, Caps()) == 1


@pytest.mark.parametrize(("sweep", "tests"), [(1.75, 2), (2.25, 2), (3.25, 3)])
def test_the_further_open_the_sweep_valve_the_more_tests(sweep: float, tests: int) -> None:
    """Half a turn between two tests; the latch valve, closed as well, slows the leaf from 20 degrees on, and a weaker
    spring slows it all the way."""
    assert fewest_tests(hidden(Valves(sweep=sweep)), Caps()) == tests


def test_without_caps_two_tests_do() -> None:
    assert fewest_tests(hidden(Valves(sweep=3.25)), Caps(sweep=12, latch=12, spring=12)) == 2


def test_a_spring_too_strong_costs_a_test_for_each_size() -> None:
    """15 lbf allow size 4 of that door; its sweep valve is turned along with the spring."""
    light, heavy = hidden(Valves(), 3, 15 * LBF), hidden(Valves(), 6, 15 * LBF)
    assert fewest_tests(heavy, Caps()) == fewest_tests(light, Caps()) + 2
