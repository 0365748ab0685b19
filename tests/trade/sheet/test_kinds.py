"""What a line of a sheet may hold: what is written reads back, and what nobody wrote is refused with a sentence."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, parse
from guide.trade.sheet.codec import fields_of
from guide.trade.sheet.kinds import Kind, Measure, Span, UnreadableError
from guide.trade.sheet.parts import Hole, Screw
from guide.trade.sheet.sheet import Sheet

LENGTH, OFFSET = Measure("length"), Measure("length", signed=True)


def kind_of(owner: type[object], key: str) -> Kind:
    (kind,) = (one.kind for one in fields_of(owner) if one.key == key)
    assert kind is not None
    return kind


@given(sixty_fourths=st.integers(-120 * 64, 120 * 64), unit=st.sampled_from(["in", "mm"]))
def test_a_length_reads_back(sixty_fourths: int, unit: str) -> None:
    was = Quantity(Fraction(sixty_fourths, 64), unit)
    assert OFFSET.read("along", OFFSET.write(was)) == was


@given(st.sampled_from(["", "7 ", "007 "]), st.integers(0, 70), st.integers(1, 64))
def test_the_quick_way_reads_what_the_slow_way_reads(whole: str, over: int, under: int) -> None:
    written = f"{whole}{over}/{under} in"
    if over >= under:
        with pytest.raises(UnreadableError, match="not less than one"):
            LENGTH.read("along", written)
    else:
        assert LENGTH.read("along", written) == parse(written, "length")


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("35 7/0 in", "0 below the line"),
        ("35 9/8 in", "not less than one"),
        ("7/ in", "7/ in"),
        ("35 3 in", "35 3 in"),
        ("in", "in"),
        ("/8 in", "/8 in"),
        ("-2 in", "-2 in"),
        ("12 deg", "length"),
        ("8", "“8” has no unit; write one, as in “8 in”"),
        ("9999999999999999 in", "9999999999999999"),
    ],
)
def test_what_is_not_a_length_is_refused(written: str, says: str) -> None:
    with pytest.raises(UnreadableError, match=says) as refused:
        LENGTH.read("body_along", written)
    assert refused.value.code == "unit-wrong"


def test_behind_the_line() -> None:
    assert OFFSET.read("along", "-2 3/4 in") == Quantity(Fraction(-11, 4), "in")
    assert OFFSET.read("along", "- 3/4 in") == Quantity(Fraction(-3, 4), "in")
    assert OFFSET.read("along", "minus 70 mm") == Quantity(Fraction(-70), "mm")


def test_a_rod_has_one_length_or_two() -> None:
    rod = Span(LENGTH)
    assert rod.read("forearm", "9 3/4 in") == (parse("9 3/4 in"), parse("9 3/4 in"))
    assert rod.read("forearm", "8 in to 12 1/4 in") == (parse("8 in"), parse("12 1/4 in"))
    assert rod.write((parse("8 in"), parse("12 1/4 in"))) == "8 in to 12 1/4 in"
    assert rod.write((parse("9 3/4 in"), parse("9 3/4 in"))) == "9 3/4 in"


@pytest.mark.parametrize(
    ("written", "turns", "again"),
    [
        ("4", Fraction(4), "4"),
        ("2 1/2", Fraction(5, 2), "2 1/2"),
        ("2.5", Fraction(5, 2), "2 1/2"),
        ("1/4", Fraction(1, 4), "1/4"),
        ("0", Fraction(0), "0"),
        ("2.001", Fraction(2001, 1000), "2.001"),
    ],
)
def test_turns_are_read_and_written(written: str, turns: Fraction, again: str) -> None:
    kind = kind_of(Screw, "turns")
    assert kind.read("turns", written) == turns
    assert kind.write(turns) == again
    assert kind.read("turns", again) == turns


@pytest.mark.parametrize("written", ["21/2", "4 turns", "-2", "1/0", "2.5 1/2", "1 to 2", "²"])
def test_what_may_be_another_number_of_turns_is_refused(written: str) -> None:
    with pytest.raises(UnreadableError, match=r"write turns as 4, 2\.5 or 2 1/2") as refused:
        kind_of(Screw, "turns").read("turns", written)
    assert refused.value.code == "turns-wrong"


def test_turns_that_cannot_be_written_cannot_stand_on_a_sheet() -> None:
    with pytest.raises(ValueError, match="“turns” cannot be 1/1001"):
        Screw("spring", "end of the body", turns=Fraction(1, 1001))


@pytest.mark.parametrize(("written", "sizes"), [("1 to 6", (1, 6)), ("3", (3, 3))])
def test_sizes_are_read_and_written(written: str, sizes: tuple[int, int]) -> None:
    kind = kind_of(Sheet, "sizes")
    assert kind.read("sizes", written) == sizes
    assert kind.write(sizes) == written


@pytest.mark.parametrize(
    ("owner", "key", "written", "says"),
    [
        (Sheet, "sheet", "Back Door", "small letters and digits joined by hyphens"),
        (Sheet, "sheet", "b" * 61, "60 at most"),
        (Sheet, "sizes", "six", "write the sizes as “1 to 6”, or one number"),
        (Sheet, "adjustable", "perhaps", "“adjustable” is “perhaps”; write yes or no"),
        (Sheet, "units", "feet", "“feet” is not one of inch or metric; write one of them"),
        (Sheet, "about", " ", "“about” is empty"),
        (Sheet, "about", "x" * 2001, "at most 2000 characters"),
        (Hole, "kind", "nail", "not one of screw, through-bolt or extra"),
    ],
)
def test_a_line_of_another_kind_is_refused(
    owner: type[object], key: str, written: str, says: str
) -> None:
    with pytest.raises(UnreadableError, match=says) as refused:
        kind_of(owner, key).read(key, written)
    assert refused.value.code == "shape"
