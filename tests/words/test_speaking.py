"""How values are said, read back, spelled, and what an ear may take them for."""

from fractions import Fraction

import pytest

from guide.measures import Quantity, parse
from guide.words.spoken import Unsayable, language, neighbours, read_back, say, spelled

ENGLISH = language("english")

SAID = {
    "35 7/8 in": "thirty five and seven eighths inches",
    "1/2 in": "a half inch",
    "3/4 in": "three quarters inch",
    "1 in": "one inch",
    "0 in": "zero inches",
    "100 1/8 in": "one hundred and one eighth inches",
    "7/64 in": "seven sixty fourths inch",
    "0.3 in": "zero point three inches",
    "911 mm": "nine hundred eleven millimeters",
    "911.225 mm": "nine hundred eleven point two two five millimeters",
    "90 deg": "ninety degrees",
    "4.5 lbf": "four point five pounds",
    "0.5 s": "zero point five seconds",
    "3 ft": "three feet",
    "1 kg": "one kilogram",
    "0.05 inH2O": "zero point zero five inches of water",
}


@pytest.mark.parametrize("written", SAID)
def test_a_measure_is_said_with_its_unit(written: str) -> None:
    assert say(parse(written), ENGLISH) == SAID[written]


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("35 7/8 in", "two feet eleven and seven eighths inches"),
        ("36 in", "three feet"),
        ("24 3/4 in", "two feet zero and three quarters inches"),
        ("13 in", "one foot one inch"),
        ("11 1/2 in", "eleven and a half inches"),
        ("911 mm", "nine hundred eleven millimeters"),
    ],
)
def test_a_length_in_feet_and_inches(written: str, words: str) -> None:
    assert say(parse(written), ENGLISH, feet=True) == words


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("50 7/8 in", "fifty, five zero, and seven eighths inches"),
        ("15 deg", "fifteen, one five degrees"),
        ("113 mm", "one hundred thirteen, one one three millimeters"),
        ("30.5 s", "thirty, three zero, point five seconds"),
        ("35 7/8 in", "thirty five and seven eighths inches"),
        ("20 lb", "twenty pounds"),
        ("7/8 in", "seven eighths inch"),
        ("12 deg", "twelve degrees"),
    ],
)
def test_what_is_taken_for_another_is_read_back_with_its_digits(written: str, words: str) -> None:
    assert read_back(parse(written), ENGLISH) == words


@pytest.mark.parametrize("number", [*range(13, 20), *range(30, 100, 10)])
def test_teens_and_tens_are_read_back_as_value_then_digits(number: int) -> None:
    words = say(number, ENGLISH)
    assert read_back(number, ENGLISH) == f"{words}, {spelled(number, ENGLISH)}"


def test_digit_by_digit() -> None:
    assert spelled(parse("35 7/8 in"), ENGLISH) == "three five point eight seven five inches"
    assert spelled(50, ENGLISH) == "five zero"


@pytest.mark.parametrize("value", [Quantity(Fraction(1, 3), "in"), Quantity(Fraction(-1), "mm")])
def test_what_has_no_exact_words_is_not_said(value: Quantity) -> None:
    for voice in (say, spelled, read_back):
        with pytest.raises(Unsayable, match="cannot be said exactly; round it to a step"):
            voice(value, ENGLISH)


NEAR = {
    "13 in": ["30 in"],
    "30 in": ["13 in", "38 in"],
    "15 7/8 in": ["50 7/8 in"],
    "50 7/8 in": ["15 7/8 in", "58 7/8 in"],
    "60 deg": ["16 deg", "68 deg"],
    "68 deg": ["60 deg"],
    "115 mm": ["150 mm"],
    "1013 mm": ["1030 mm"],
    "15/16 in": [],
    "35 7/8 in": [],
    "21 lbf": ["20.1 lbf"],
    "5 s": [],
}


@pytest.mark.parametrize("written", NEAR)
def test_the_neighbours_of_a_measure_by_ear(written: str) -> None:
    assert list(neighbours(parse(written), ENGLISH)) == [parse(near) for near in NEAR[written]]


def test_the_neighbours_of_a_count_are_counts() -> None:
    found = neighbours(13, ENGLISH)
    assert found == (30,)
    assert type(found[0]) is int


@pytest.mark.parametrize("number", [*range(13, 20), *range(30, 100, 10)])
def test_a_teen_and_its_ten_are_neighbours_both_ways(number: int) -> None:
    other = number * 10 % 100 if number < 20 else number // 10 + 10
    assert other in neighbours(number, ENGLISH)
    assert number in neighbours(other, ENGLISH)
