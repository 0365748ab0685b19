"""Ranges of measures, and measures outside a usual range that were written in the wrong unit."""

from fractions import Fraction

import pytest

from guide.measures import MeasureError, Quantity, misread, parse, parse_range, write


@pytest.mark.parametrize(
    ("typed", "kind", "system", "low", "high"),
    [
        ("6 in to 60 in", "length", "inch", "6 in", "60 in"),
        ("8 to 36 in", "length", "inch", "8 in", "36 in"),
        ("8 to 36", "length", "inch", "8 in", "36 in"),
        ("600 to 1200", "length", "metric", "600 mm", "1200 mm"),
        ("24 in to 4 ft", "length", "inch", "24 in", "4 ft"),
        ("1/8 in – 3/4 in", None, "inch", "1/8 in", "3/4 in"),
        ("2' 6\" TO 4'", "length", "inch", "30 in", "4 ft"),
        ("5 to 15 lb", "force", "inch", "5 lbf", "15 lbf"),
        ("3 to 20 s", None, "metric", "3 s", "20 s"),
        ("90 to 90 deg", "angle", "inch", "90 deg", "90 deg"),
    ],
)
def test_ranges_read(typed: str, kind: str | None, system: str, low: str, high: str) -> None:
    """The unit of the second measure serves the first."""
    assert tuple(map(write, parse_range(typed, kind, system))) == (low, high)


@pytest.mark.parametrize(
    ("typed", "kind", "suggested"),
    [
        ("6 in", "length", "0 to 35 7/8 in"),
        ("", "length", "0 to 35 7/8 in"),
        ("6 to 12 to 60 in", "length", "0 to 35 7/8 in"),
        ("6-60 in", "length", "0 to 35 7/8 in"),
        ("60 to 6 in", "length", "6 in to 60 in"),
        ("6 in to 60", "length", "6 in to 60 in"),
        ("about 6 to 60 in", "length", "6 to 60 in"),
        ("30 to 35 7 8", "length", "30 to 35 7/8"),
        ("6 in to 5 lbf", None, "0 to 35 7/8 in"),
        ("6 to 60", None, "0 to 35 7/8 in"),
        (" " * 10_000, "length", "0 to 35 7/8 in"),
    ],
)
def test_ranges_refused(typed: str, kind: str | None, suggested: str) -> None:
    """The sentence quotes the whole range, and suggests a whole range."""
    with pytest.raises(MeasureError) as refused:
        parse_range(typed, kind)
    assert str(refused.value).startswith(f"“{typed.strip()[:3]}")
    assert suggested in refused.value.suggestions
    parse_range(suggested, kind)


# leaves this guide is for are about 2 ft to 4 ft wide: common practice
LEAF_WIDTH = (Quantity(Fraction(24), "in"), Quantity(Fraction(48), "in"))
# a hand's push on a door, in pounds and newtons: common practice
THICKNESS = (Quantity(Fraction(1, 4), "cm"), Quantity(Fraction(9, 10), "cm"))
SWEEP = (Quantity(Fraction(2), "s"), Quantity(Fraction(15), "s"))
PUSH = (Quantity(Fraction(1), "lbf"), Quantity(Fraction(20), "lbf"))


@pytest.mark.parametrize(
    ("written", "usual", "meant"),
    [
        ("3 in", LEAF_WIDTH, "3 ft"),
        ("36 mm", LEAF_WIDTH, "36 in"),
        ("91 in", LEAF_WIDTH, "91 cm"),
        ("911 in", LEAF_WIDTH, "911 mm"),
        ("36 ft", LEAF_WIDTH, "36 in"),
        ("22 lbf", PUSH, "22 N"),
        ("5 N", PUSH, None),  # usual as it is: about 1.1 lbf
        ("36 in", LEAF_WIDTH, None),
        ("5 in", LEAF_WIDTH, None),
        ("3/8 in", THICKNESS, None),  # of no metric tape
        ("4 in", THICKNESS, "4 mm"),
        ("0.2 s", SWEEP, None),  # what a watch shows
    ],
)
def test_the_unit_that_was_probably_meant(
    written: str, usual: tuple[Quantity, Quantity], meant: str | None
) -> None:
    """The same number, in the unit that makes it usual; None when none does or none need."""
    found = misread(parse(written), usual)
    assert (found and write(found)) == meant


def test_the_reading_nearest_the_middle_is_given() -> None:
    """Usual from 20 to 80 in: 2 ft is 26 in from the middle, 2 m nearly 29."""
    usual = (Quantity(Fraction(20), "in"), Quantity(Fraction(80), "in"))
    found = misread(parse("2 in"), usual)
    assert found is not None
    assert write(found) == "2 ft"


def test_a_usual_range_of_another_kind_is_the_callers_mistake() -> None:
    """It is not passed over in silence."""
    with pytest.raises(TypeError, match="neither is the greater"):
        misread(parse("3 in"), PUSH)
