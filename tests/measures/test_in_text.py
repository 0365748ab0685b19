"""Measures in braces: what a fitter who works in inches reads, and what one who works in metric reads."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import MeasureError, Quantity, parse, shown_in, with_quantities, without_braces
from guide.measures.in_text import AT_LEAST, AT_MOST, converted_bound, read_written
from guide.measures.units import UNITS


@pytest.mark.parametrize(
    ("written", "inch", "metric"),
    [
        ("1/16 in", "1/16 in", "1.5 mm"),
        ("1/8 in", "1/8 in", "3 mm"),
        ("3/4 in", "3/4 in", "19 mm"),
        ("30 in", "30 in", "762 mm"),
        ("78 in", "78 in", "1980 mm"),
        ("80 in", "80 in", "2030 mm"),
        ("6 lbf", "6 lbf", "27 N"),
        ("110 lb", "110 lb", "50 kg"),
        ("44 mm", "1 23/32 in", "44 mm"),
        ("4 mm", "5/32 in", "4 mm"),
        ("22 N", "4.9 lbf", "22 N"),
        ("12 Pa", "0.05 inH2O", "12 Pa"),
        ("90 deg", "90 deg", "90 deg"),
        ("at most 5 lbf", "at most 5 lbf", "at most 5 lbf (22 N)"),
        ("at most 15 lbf", "at most 15 lbf", "at most 15 lbf (66 N)"),
        ("At most 30 N", "At most 30 N (6.7 lbf)", "At most 30 N"),
        ("at least 78 in", "at least 78 in", "at least 78 in (1982 mm)"),
        ("at least 32 in", "at least 32 in", "at least 32 in (813 mm)"),
        ("at most 3/16 in", "at most 3/16 in", "at most 3/16 in (4.5 mm)"),
    ],
)
def test_a_measure_is_shown_in_the_units_of_the_job(written: str, inch: str, metric: str) -> None:
    assert (shown_in(written, "inch"), shown_in(written, "metric")) == (inch, metric)


@given(
    st.sampled_from([unit for unit in UNITS.values() if len(unit.systems) == 1]),
    st.fractions(Fraction(1, 64), 1000, max_denominator=64),
)
def test_a_limit_is_never_rounded_past(unit: object, number: Fraction) -> None:
    """What is shown in brackets is allowed wherever the limit itself is."""
    limit = Quantity(number, unit.symbol)  # type: ignore[attr-defined]
    for system in ("inch", "metric"):
        most, least = (converted_bound(limit, bound, system) for bound in (AT_MOST, AT_LEAST))
        assert most is None or most <= limit
        assert least is None or least >= limit


def test_a_text_keeps_the_names_of_facts() -> None:
    text = "Keep {1/16 in} from {width}, {at most 5 lbf}."
    assert with_quantities(text, "metric") == "Keep 1.5 mm from {width}, at most 5 lbf (22 N)."
    assert without_braces(text) == "Keep 1/16 in from {width}, at most 5 lbf."


@pytest.mark.parametrize("inner", ["5 furlongs", "5", "at most 5", "1/0 in"])
def test_a_measure_in_braces_needs_a_unit_that_is_known(inner: str) -> None:
    with pytest.raises(MeasureError):
        read_written(inner)


def test_the_measure_itself_stays_exact() -> None:
    assert read_written("At least 78 in").quantity == parse("78 in")
