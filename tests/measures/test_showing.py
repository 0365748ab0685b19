"""How measures are written for a person, for a program, and on a scale of steps."""

from fractions import Fraction

import pytest

from guide.measures import Quantity, nearest, on_step, show, to_json, write


def q(magnitude: str, unit: str) -> Quantity:
    return Quantity(Fraction(magnitude), unit)


@pytest.mark.parametrize(
    ("measure", "written"),
    [
        (q("287/8", "in"), "35 7/8 in"),
        (q("36", "in"), "36 in"),
        (q("7/8", "in"), "7/8 in"),
        (q("1/1024", "in"), "1/1024 in"),
        (q("1/2048", "in"), "0.00048828125 in"),  # finer than any rule: a plain decimal
        (q("0.032", "in"), "0.032 in"),  # 20 gauge sheet; from memory
        (q("1/3", "in"), "1/3 in"),
        (q("4/3", "mm"), "1 1/3 mm"),
        (q("911.225", "mm"), "911.225 mm"),
        (q("5/2", "ft"), "2.5 ft"),
        (q("0.05", "inH2O"), "0.05 inH2O"),
        (q("0", "deg"), "0 deg"),
        (q("-1/2", "in"), "-1/2 in"),  # a difference can be below zero
    ],
)
def test_exact_writing(measure: Quantity, written: str) -> None:
    """Inches as on a rule; other units as decimals where they end; the unit after a space."""
    assert write(measure) == written


@pytest.mark.parametrize(
    ("measure", "written"),
    [
        (q("287/8", "in"), "2 ft 11 7/8 in"),
        (q("36", "in"), "3 ft"),
        (q("80", "in"), "6 ft 8 in"),
        (q("7/8", "in"), "7/8 in"),
        (q("0", "in"), "0 in"),
        (q("911.225", "mm"), "2 ft 11 7/8 in"),
    ],
)
def test_feet_and_inches(measure: Quantity, written: str) -> None:
    """Whole feet, then inches under twelve."""
    assert write(measure, feet=True) == written


def test_only_a_length_has_feet() -> None:
    """Anything else is the caller's mistake."""
    with pytest.raises(TypeError, match="only a length can be written in feet"):
        write(q("5", "lbf"), feet=True)


@pytest.mark.parametrize(
    ("measure", "system", "shown"),
    [
        (q("287/8", "in"), "inch", "35 7/8 in"),
        (q("287/8", "in"), "metric", "about 911 mm"),
        (q("5", "in"), "metric", "127 mm"),  # exactly
        (q("911", "mm"), "inch", "about 35 7/8 in"),
        (q("911", "mm"), "metric", "911 mm"),
        (q("91.1", "cm"), "metric", "91.1 cm"),
        (q("3", "ft"), "inch", "3 ft"),
        (q("5", "lbf"), "metric", "about 22 N"),
        (q("22", "N"), "inch", "about 4.9 lbf"),
        (q("12.34", "deg"), "inch", "12.34 deg"),
        (q("5.25", "s"), "metric", "5.25 s"),
        (q("2", "min"), "metric", "2 min"),
        (q("50", "kg"), "inch", "about 110 lb"),
        (q("12", "Pa"), "inch", "about 0.05 inH2O"),
        (q("0.05", "inH2O"), "metric", "about 12 Pa"),
        (q("18", "lbf ft"), "metric", "about 24.4 N m"),
    ],
)
def test_shown_in_the_units_a_person_works_in(measure: Quantity, system: str, shown: str) -> None:
    """Their own units exactly; others converted, rounded, and said to be "about"."""
    assert show(measure, system) == shown


def test_shown_to_a_step_asked_for() -> None:
    """A hole position is shown to the thirty-second."""
    assert show(q("100", "mm"), "inch", q("1/32", "in")) == "about 3 15/16 in"
    assert show(q("100.0125", "mm"), "inch", q("1/32", "in")) == "3 15/16 in"


def test_a_computed_fraction_nobody_could_use_is_rounded() -> None:
    """A chord worked out in binary fractions is shown to the sixteenth it is near."""
    chord = Quantity(Fraction(7.526), "in")
    assert show(chord, "inch") == "about 7 1/2 in"
    assert show(q("1/3", "in"), "inch") == "1/3 in"
    assert show(Quantity(29 + Fraction(227, 275), "lbf"), "inch") == "about 29.8 lbf"
    assert show(Quantity(295 + Fraction(35, 127), "N"), "metric") == "about 295 N"
    assert show(q("16/3", "lbf"), "inch") == "5 1/3 lbf"


def test_json_keeps_the_exact_writing() -> None:
    """A whole number is an int, any other a float; the text loses nothing."""
    assert to_json(q("36", "in")) == {"magnitude": 36, "unit": "in", "text": "36 in"}
    assert to_json(q("287/8", "in")) == {"magnitude": 35.875, "unit": "in", "text": "35 7/8 in"}
    assert to_json(q("1/3", "mm"))["text"] == "1/3 mm"
    assert isinstance(to_json(q("36", "in"))["magnitude"], int)


@pytest.mark.parametrize(
    ("measure", "step", "rounded"),
    [
        (q("35.9", "in"), q("1/16", "in"), q("287/8", "in")),
        (q("1/32", "in"), q("1/16", "in"), q("1/16", "in")),  # half way goes up
        (q("911", "mm"), q("1/16", "in"), q("287/8", "in")),
        (q("287/8", "in"), q("1", "mm"), q("911", "mm")),
        (q("-1/32", "in"), q("1/16", "in"), q("0", "in")),
    ],
)
def test_nearest_step(measure: Quantity, step: Quantity, rounded: Quantity) -> None:
    """The nearest mark on the rule, in the unit of the rule."""
    found = nearest(measure, step)
    assert (found.magnitude, found.unit) == (rounded.magnitude, rounded.unit)


def test_on_a_step() -> None:
    """A template hole lies on sixteenths, from zero or from its datum."""
    sixteenth = q("1/16", "in")
    assert on_step(q("287/8", "in"), sixteenth)
    assert not on_step(q("1/32", "in"), sixteenth)
    assert on_step(q("3/32", "in"), sixteenth, origin=q("1/32", "in"))
    assert on_step(q("127", "mm"), sixteenth)


def test_a_step_is_above_zero_and_of_the_same_kind() -> None:
    """Anything else is the caller's mistake."""
    with pytest.raises(ValueError, match="A step is above zero"):
        nearest(q("1", "in"), q("0", "in"))
    with pytest.raises(TypeError, match="has no step of 1 s"):
        nearest(q("1", "in"), q("1", "s"))
    with pytest.raises(TypeError, match="different kinds"):
        on_step(q("1", "in"), q("1/16", "in"), origin=q("1", "s"))
