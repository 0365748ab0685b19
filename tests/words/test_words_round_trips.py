"""Whatever the mouth says, the ear understands as exactly the same value: over every value a step can ask for."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, home_unit
from guide.words.spoken import Grammar, Unsayable, grammar_for, language, say, spelled

ENGLISH = language("english")

SCALES = {
    "every 64th of an inch to 120 in": ("in", Fraction(1, 64), 120),
    "every half millimetre to 3 m": ("mm", Fraction(1, 2), 3000),
    "every millimetre to 3 m, in centimetres": ("cm", Fraction(1, 10), 300),
    "every centimetre to 10 m": ("m", Fraction(1, 100), 10),
    "every half degree to 180": ("deg", Fraction(1, 2), 180),
    "every tenth of a second to two minutes": ("s", Fraction(1, 10), 120),
    "every quarter of a minute to an hour": ("min", Fraction(1, 4), 60),
    "every twentieth of a pound of force to 50": ("lbf", Fraction(1, 20), 50),
    "every half newton to 250": ("N", Fraction(1, 2), 250),
    "every half pound to 500": ("lb", Fraction(1, 2), 500),
    "every quarter kilogram to 250": ("kg", Fraction(1, 4), 250),
    "every hundredth of an inch of water to 2": ("inH2O", Fraction(1, 100), 2),
    "every pascal to 500": ("Pa", Fraction(1), 500),
    "every tenth of a pound foot to 60": ("lbf ft", Fraction(1, 10), 60),
    "every tenth of a newton metre to 80": ("N m", Fraction(1, 10), 80),
}


def understood(ear: Grammar, words: str) -> object:
    """The value of some words, or the words where they have none."""
    meaning = ear.parse(words).meaning
    return words if meaning is None else meaning.value


@pytest.mark.parametrize("scale", SCALES)
def test_every_measure_of_the_scale_is_understood_as_it_is_said(scale: str) -> None:
    unit, step, most = SCALES[scale]
    values = [Quantity(count * step, unit) for count in range(int(most / step) + 1)]
    ear = grammar_for(values[0].kind)
    missed = [value for value in values if understood(ear, say(value, ENGLISH)) != value]
    assert missed == []


def test_every_sixteenth_to_ten_feet_in_feet_and_inches() -> None:
    ear = grammar_for("length")
    values = [Quantity(Fraction(count, 16), "in") for count in range(120 * 16 + 1)]
    assert [v for v in values if understood(ear, say(v, ENGLISH, feet=True)) != v] == []


def test_every_count_and_number() -> None:
    counts, numbers = grammar_for("count"), grammar_for("number")
    assert [n for n in range(10_000) if understood(counts, say(n, ENGLISH)) != n] == []
    tenths = [Fraction(n, 10) for n in range(1001)]
    assert [n for n in tenths if understood(numbers, say(n, ENGLISH)) != n] == []


def test_every_measure_digit_by_digit() -> None:
    ear = grammar_for("length")
    inches = [Quantity(Fraction(count, 8), "in") for count in range(120 * 8 + 1)]
    millimetres = [Quantity(Fraction(count), "mm") for count in range(3001)]
    values = inches + millimetres
    assert [v for v in values if understood(ear, spelled(v, ENGLISH)) != v] == []


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
