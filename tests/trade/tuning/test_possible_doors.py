"""What the tests of a door leave possible of air, seal and latch."""

from guide.trade.tuning.nominal_door import NominalLeaf, nominal
from guide.trade.tuning.possible_doors import PossibleDoors
from guide.trade.tuning.readings import SwingReading

LOBBY = NominalLeaf(width=0.914, mount="regular", height=2.134, mass=60.0)
"""A 36 in leaf to a lift lobby."""
WATCH = 0.3


def after(*tests: tuple[float, float, SwingReading], part_way: bool | None = None) -> PossibleDoors:
    """After these tests: EN size, turns of the latch valve since the start, reading."""
    likely = PossibleDoors(LOBBY, part_way)
    for size, at, reading in tests:
        likely.add(size, at, reading, WATCH)
    return likely


def latches(force: float, last: float = 1.2) -> SwingReading:
    return SwingReading(6.0, last, True, False, force)


def stops(force: float) -> SwingReading:
    return SwingReading(6.0, None, False, False, force)


def test_a_door_light_to_open_for_its_spring_is_less_surely_shut_from_near_by() -> None:
    """Air that helps to open it works against its closing."""
    usual = nominal(LOBBY, 2.0).force
    still = after((2.0, 0.0, latches(usual))).chance(2.0, 0.0).latches
    airy = after((2.0, 0.0, latches(0.72 * usual))).chance(2.0, 0.0).latches
    assert still > airy + 0.1


def test_whoever_tests_from_part_way_too_has_seen_it_latch() -> None:
    airy = (2.0, 0.0, latches(0.85 * nominal(LOBBY, 2.0).force))
    seen = after(airy, part_way=True).chance(2.0, 0.0).latches
    assert seen > 0.9
    assert seen > after(airy, part_way=False).chance(2.0, 0.0).latches


def test_the_further_the_latch_valve_is_opened_past_where_it_stopped_the_surer_it_latches() -> None:
    force = 0.85 * nominal(LOBBY, 2.0).force
    likely = after((2.0, 0.0, stops(force)), (2.0, 0.5, latches(force, 0.9)))
    chances = [likely.chance(2.0, at) for at in (0.0, 0.5, 0.75)]
    assert chances[0].latches < 0.2 < chances[1].latches <= chances[2].latches
    assert chances[0].slams <= chances[2].slams


def test_a_stronger_spring_needs_fewer_goes_of_the_latch_valve() -> None:
    likely = after((1.0, 0.0, stops(0.8 * nominal(LOBBY, 1.0).force)))
    weak, strong = (likely.goes(size, 0.0, 0.5, 5) for size in (1.0, 3.0))
    assert strong.mean < weak.mean
    assert strong.never < weak.never


def test_the_same_tests_give_the_same_chances() -> None:
    test = (2.0, 0.0, stops(18.0))
    assert after(test).chance(2.0, 0.5) == after(test).chance(2.0, 0.5)
