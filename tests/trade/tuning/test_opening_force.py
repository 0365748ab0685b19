"""The force at each spring setting, as a fitter measures it after each change."""

import pytest

from guide.trade.tuning.nominal_door import NominalLeaf, nominal
from guide.trade.tuning.opening_force import Forces

CLINIC = NominalLeaf(width=1.067, mount="parallel")
"""A 42 in leaf on a parallel arm."""
FIVE_LBF = 22.24
"""2010 ADA Standards 404.2.9 [N]."""


def clinic() -> Forces:
    return Forces(CLINIC, FIVE_LBF, (1.0, 6.0))


def test_before_any_measurement_the_ordinary_doors_force_is_expected() -> None:
    assert clinic().expect(3.0) == pytest.approx(nominal(CLINIC, 3.0).force)


def test_two_settings_tell_what_a_third_will_take() -> None:
    """Air that helps to open takes 4 N off at every setting."""
    forces = clinic()
    for size in (6.0, 2.0):
        forces.add(size, nominal(CLINIC, size).force - 4.0)
    assert forces.expect(3.0) == pytest.approx(nominal(CLINIC, 3.0).force - 4.0, abs=0.5)


def test_the_strongest_setting_light_enough_is_chosen_and_none_known_to_be_too_heavy() -> None:
    forces = clinic()
    forces.add(5.0, nominal(CLINIC, 5.0).force)
    chosen = forces.lighter(5.0)
    assert forces.expect(chosen) <= FIVE_LBF < forces.expect(chosen + 0.5)
    forces.add(chosen, 18.0)
    forces.add(chosen + 0.5, 22.6)
    assert forces.room(chosen) == 0


def test_one_measurement_over_by_a_hair_is_heavy_but_not_surely_so() -> None:
    forces = clinic()
    forces.add(1.5, 22.4)
    assert forces.is_heavy(1.5, 22.4)
    assert not forces.is_surely_heavy(1.5)
    forces.add(1.5, 21.6)
    assert not forces.is_heavy(1.5, 21.6)
    assert not forces.is_heavy(1.5, None)
    forces.add(1.0, 24.0)
    assert forces.is_surely_heavy(1.0)


def test_where_nobody_judges_the_force_the_spring_has_room_to_its_strongest() -> None:
    assert Forces(CLINIC, None, (1.0, 4.0)).room(2.5) == 3
