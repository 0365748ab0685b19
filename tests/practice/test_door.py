"""The shipped practice doors: each can be put right, or truly cannot, just as its file says."""

from collections import Counter

import pytest

from guide.files.library import catalogue
from guide.practice.experienced_fitter import by_screws_alone, demonstration
from guide.practice.practice import RIGHT, Practice
from guide.practice.random_door import random_door
from guide.practice.score import past_limits, score
from guide.trade.tuning.readings import MOST_TESTS
from tests.practice.practice_bench import any_setting_is_right, office, shipped

NAMES = [entry.name.partition("-")[2] for entry in catalogue("practice door")]
FAULTY = [name for name in NAMES if shipped()[name].faults]


def test_twelve_doors_ship_and_grow_harder() -> None:
    doors = list(shipped().values())
    grades = [door.grade for door in doors]
    assert list(shipped()) == NAMES
    assert len(doors) == 12
    assert grades == sorted(grades)
    assert set(grades) == {1, 2, 3, 4}
    causes = Counter(fault.cause for door in doors for fault in door.faults)
    assert set(causes) == {"air", "seal", "hinge", "strike", "leak", "size"}


@pytest.mark.parametrize("name", NAMES)
def test_something_is_amiss_with_every_door(name: str) -> None:
    practice = Practice(shipped()[name])
    assert past_limits(practice.door, practice.at)


@pytest.mark.parametrize("name", NAMES)
def test_an_experienced_fitter_puts_it_right_within_the_tests_there_are_or_rightly_gives_it_up(
    name: str,
) -> None:
    at = shipped()[name]
    guide = demonstration(at)
    assert guide.tests <= MOST_TESTS
    if at.hopeless:
        assert guide.verdict == at.faults[0].cause
    else:
        assert guide.verdict == RIGHT
        assert past_limits(guide.practice.door, at) == ()
    guide.practice.finish(guide.verdict)
    assert score(guide.practice, guide).points == 100


@pytest.mark.parametrize("name", FAULTY)
def test_no_setting_of_its_screws_makes_a_faulty_door_right_until_it_is_put_right(
    name: str,
) -> None:
    """Every half size and every eighth of a turn is tried."""
    at = shipped()[name]
    assert not any_setting_is_right(at)
    assert by_screws_alone(at).verdict != RIGHT


def test_trying_every_setting_finds_a_way_where_there_is_one() -> None:
    """So that the test above can fail."""
    assert any_setting_is_right(office(sweep=3.5, latch=4.0))


def test_the_binding_hinge_looks_like_a_weak_spring() -> None:
    """It stops just short of the frame, and the eye finds nothing: only a hand on the free leaf tells."""
    practice = Practice(shipped()["village-school"])
    swung = practice.swing(90)
    assert not swung.closing.latched
    assert swung.closing.stopped_at < 1
    assert practice.size < 3


@pytest.mark.parametrize("seed", range(1, 13))
def test_a_door_by_chance_is_fair(seed: int) -> None:
    at = random_door(seed)
    guide = demonstration(at)
    assert guide.tests <= MOST_TESTS
    assert guide.verdict == (at.faults[0].cause if at.hopeless else RIGHT)
    if at.faults:
        alone = by_screws_alone(at)
        assert alone.verdict != RIGHT or past_limits(alone.practice.door, at)
