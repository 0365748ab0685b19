"""`starting-size`: where the opening limit comes first the spring begins below the leaf's own size."""

import pytest

from tests.trade.shipped_sheets import answer, shipped


def start(**given: str) -> int:
    door = {"size": "4", "width": "36 in", "mount": "regular"}
    place = {"fire": "no", "exterior": "no", "harder": "no", "rules": "us"}
    value = answer("starting-size", **(door | place | given)).value
    assert isinstance(value, int)
    return value


def test_an_inside_door_on_an_accessible_route_begins_light() -> None:
    """36 in and EN size 4 take about 9 lbf to open, and the 2010 ADA Standards 404.2.9 allow 5."""
    assert start() == 2
    assert start(rules="uk") == 2  # 30 N, BS 8300-2


def test_so_does_a_way_out_on_no_accessible_route() -> None:
    """IBC 1010.1.3: 5 lbf for interior side-swinging doors."""
    assert start(accessible="no", way_out="yes") == 2


@pytest.mark.parametrize("works", ["fire", "exterior", "harder"])
def test_a_door_that_something_works_against_begins_as_it_needs(works: str) -> None:
    assert start(**{works: "yes"}) == 4


def test_where_no_rule_limits_the_force_it_begins_as_it_needs() -> None:
    assert start(accessible="no") == 4
    assert start(rules="none") == 4


def test_a_small_leaf_keeps_its_size() -> None:
    assert start(size="1", width="28 in") == 1


def test_never_below_the_weakest_of_the_sheet() -> None:
    weakest = shipped("generic-b").sizes[0]
    assert weakest > 1
    assert start(size="5", width="42 in", sheet="generic-b") == weakest


def test_a_limit_between_takes_the_size_in_between() -> None:
    """50 N, French order of 1 August 2006, lets a parallel arm begin above the weakest."""
    assert 2 < start(rules="eu", size="5", width="926 mm", mount="parallel") < 5


def test_the_makers_line_for_accessible_doors_governs() -> None:
    """`generic-a` has ten turns weaker than the factory's EN size 3 for them, and five turns make a size."""
    assert start(sheet="generic-a") == 1
    assert start(sheet="generic-a", fire="yes") == 4
