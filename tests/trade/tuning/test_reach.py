"""The turns of a valve by its sheet, used up one way and the other."""

from fractions import Fraction

from guide.trade.tuning.reach import reaches
from guide.trade.tuning.readings import Travel


def test_a_valve_of_one_and_a_half_turns_opened_by_one_has_half_a_turn_left_either_way() -> None:
    sweep, latch = reaches(Travel(sweep=Fraction(3, 2)))
    sweep.note(1.0)
    assert sweep.has(1.5)
    assert not sweep.has(1.625)
    assert sweep.has(-0.5)
    assert sweep.as_far(1.0, 0.75) == 0.5
    assert sweep.as_far(1.0, -2.0) == -1.5
    assert sweep.as_far(0.875, 1.0) == 0.625, "by eighths"
    assert latch.has(9.0)
