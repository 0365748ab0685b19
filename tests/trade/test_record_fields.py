"""The measures of a sheet are read back exactly as they were written, the quick way and the slow way."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import MeasureError, Quantity, write
from guide.trade.sheet.kinds import quantity


@given(sixty_fourths=st.integers(0, 120 * 64), unit=st.sampled_from(["in", "mm", "deg"]))
def test_what_is_written_reads_back(sixty_fourths: int, unit: str) -> None:
    was = Quantity(Fraction(sixty_fourths, 64), unit)
    assert quantity({"along": write(was)}, "along", was.kind) == was


@pytest.mark.parametrize("damaged", ["35 7/0 in", "35 9/8 in", "7/ in", "35 3 in", "in", "/8 in"])
def test_what_nobody_wrote_is_refused(damaged: str) -> None:
    with pytest.raises(MeasureError):
        quantity({"along": damaged}, "along", "length")


def test_behind_the_line_and_another_kind() -> None:
    assert quantity({"along": "-2 3/4 in"}, "along", "length") == Quantity(Fraction(-11, 4), "in")
    with pytest.raises(MeasureError):
        quantity({"along": "12 deg"}, "along", "length")
