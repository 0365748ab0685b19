"""What is written is read back as exactly the same measure."""

import random
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide.measures import KINDS, MeasureError, Quantity, parse, parse_range, write
from tests.measures.round_trips import (
    UNITS,
    comes_back,
    comes_back_from_a_rule,
    comes_back_through_every_unit,
)

SEED = 20_271_102
ONE_IN = 16
"""Of the lengths on a rule one in so many is tried here; every one by `python -m tests.campaigns.round_trips`."""
FEW = settings(max_examples=20)
"""Magnitudes for each unit; a thousand in the same campaign."""
MAGNITUDES = st.fractions(min_value=0, max_value=10**6, max_denominator=10**12)
# what people type, and what nobody should
TEXTS = st.one_of(
    st.text(max_size=40),
    st.text("0123456789 /-.,'\"′″⅞½°−–ftinmsNlbkgPaH2Oto", max_size=24),
)


def test_a_sixty_fourth_of_an_inch_to_ten_feet() -> None:
    """As a rule has them: in inches, in feet, and by way of millimetres, none is lost."""
    every = range(120 * 64 + 1)
    some = random.Random(SEED).sample(every, len(every) // ONE_IN)
    assert [count for count in some if not comes_back_from_a_rule(count)] == []


@pytest.mark.parametrize(("kind", "unit"), UNITS)
@given(magnitude=MAGNITUDES)
@FEW
def test_any_fraction_in_any_unit(kind: str, unit: str, magnitude: Fraction) -> None:
    assert comes_back(kind, unit, magnitude)


@pytest.mark.parametrize(("kind", "unit"), UNITS)
@given(magnitude=MAGNITUDES)
@FEW
def test_there_and_back_through_every_unit(kind: str, unit: str, magnitude: Fraction) -> None:
    assert comes_back_through_every_unit(kind, unit, magnitude)


@given(magnitude=MAGNITUDES)
def test_feet_and_inches_of_any_length(magnitude: Fraction) -> None:
    """Odd fractions of an inch as well as those on a rule."""
    q = Quantity(magnitude, "in")
    assert parse(write(q, feet=True)) == q


@given(text=TEXTS, kind=st.sampled_from([None, *KINDS]), system=st.sampled_from(["inch", "metric"]))
def test_any_text_is_read_or_refused(text: str, kind: str | None, system: str) -> None:
    """Never another error; what is read can be written and read again; advice can be followed."""
    refused = None
    try:
        q = parse(text, kind, system)
    except MeasureError as error:
        refused = error
    if refused is None:
        assert q.magnitude >= 0
        assert parse(write(q), kind, system) == q
        return
    assert str(refused).isprintable()
    assert refused.suggestions
    for suggestion in refused.suggestions:
        parse(suggestion, kind, system)


@given(
    text=st.one_of(TEXTS, st.tuples(TEXTS, TEXTS).map(" to ".join)),
    kind=st.sampled_from([None, *KINDS]),
)
def test_any_text_is_a_range_or_refused(text: str, kind: str | None) -> None:
    """The same holds for ranges."""
    refused = None
    try:
        low, high = parse_range(text, kind)
    except MeasureError as error:
        refused = error
    if refused is None:
        assert low <= high
        return
    assert str(refused).isprintable()
    assert refused.suggestions
    for suggestion in refused.suggestions:
        parse_range(suggestion, kind)
