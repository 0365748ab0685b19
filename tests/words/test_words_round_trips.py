"""Whatever the mouth says, the ear understands as exactly the same value: over every value a step can ask for."""

import random
from collections.abc import Sequence
from fractions import Fraction
from typing import TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, home_unit
from guide.words.spoken import Unsayable, grammar_for, say
from tests.words.said_measures import (
    ENGLISH,
    SCALES,
    misunderstood,
    rule,
    steps_of,
    understood,
)

Value = TypeVar("Value")
SEED = 20_271_103
ONE_IN = 16
"""Of each scale one value in so many is said here; every one by `python -m tests.campaigns.round_trips`."""


def some(values: Sequence[Value], of: str) -> list[Value]:
    """A part of a scale, with both its ends."""
    inside = random.Random(f"{SEED} {of}").sample(values[1:-1], len(values) // ONE_IN)
    return [values[0], *inside, values[-1]]


@pytest.mark.parametrize("scale", SCALES)
def test_a_measure_of_the_scale_is_understood_as_it_is_said(scale: str) -> None:
    assert list(misunderstood(some(steps_of(scale), scale))) == []


def test_a_sixteenth_to_ten_feet_in_feet_and_inches() -> None:
    assert list(misunderstood(some(rule(16), "feet"), feet=True)) == []


def test_a_measure_digit_by_digit() -> None:
    millimetres = [Quantity(Fraction(count), "mm") for count in range(3001)]
    values = some(rule(8), "digits of inches") + some(millimetres, "digits of millimetres")
    assert list(misunderstood(values, digits=True)) == []


def test_a_count_and_a_number() -> None:
    counts, numbers = grammar_for("count"), grammar_for("number")
    whole = some(range(10_000), "counts")
    assert [n for n in whole if understood(counts, say(n, ENGLISH)) != n] == []
    tenths = some([Fraction(n, 10) for n in range(1001)], "numbers")
    assert [n for n in tenths if understood(numbers, say(n, ENGLISH)) != n] == []


@pytest.mark.parametrize("kind", ["length", "angle", "force", "time", "mass", "pressure"])
@pytest.mark.parametrize("system", ["inch", "metric"])
@given(count=st.integers(0, 9999))
def test_a_bare_number_has_the_unit_of_the_system(kind: str, system: str, count: int) -> None:
    ear = grammar_for(kind, system)
    home = Quantity(Fraction(count), home_unit(kind, system))
    assert understood(ear, say(count, ENGLISH)) == home


@given(
    whole=st.integers(0, 999),
    digits=st.text("0123456789", min_size=1, max_size=6),
    unit=st.sampled_from(["mm", "deg", "lbf", "N", "s", "lb", "kg", "Pa"]),
)
def test_any_decimal_of_six_places(whole: int, digits: str, unit: str) -> None:
    value = Quantity(Fraction(f"{whole}.{digits}"), unit)
    assert understood(grammar_for(value.kind), say(value, ENGLISH)) == value


@given(value=st.fractions(0, 100, max_denominator=1024))
def test_an_inch_converted_to_millimetres_is_said_exactly_or_not_at_all(value: Fraction) -> None:
    length = Quantity(value, "in").to("mm")
    if 10**6 % length.magnitude.denominator == 0:
        assert understood(grammar_for("length"), say(length, ENGLISH)) == length
    else:
        with pytest.raises(Unsayable, match="cannot be said exactly"):
            say(length, ENGLISH)
