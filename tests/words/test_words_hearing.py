"""What people say at a door, and exactly what it means."""

from fractions import Fraction

import pytest

from guide.measures import Quantity, parse
from guide.words.spoken import Offered, grammar_for

LENGTHS = {
    "thirty-five and seven eighths": "35 7/8 in",
    "thirty five and seven eighths inches": "35 7/8 in",
    "thirty five seven eighths": "35 7/8 in",
    "thirty five inches and seven eighths": "35 7/8 in",
    "thirty five and seven eighths of an inch": "35 7/8 in",
    "thirty five point eight seven five": "35.875 in",
    "three five point eight seven five": "35.875 in",
    "three five point five": "35.5 in",
    "point eight seven five": "0.875 in",
    "oh point eight seven five inches": "0.875 in",
    "nought point eight seven five": "0.875 in",
    "zero point one two five": "0.125 in",
    "half an inch": "1/2 in",
    "a half inch": "1/2 in",
    "one half": "1/2 in",
    "a quarter inch": "1/4 in",
    "quarter inch": "1/4 in",
    "three quarters": "3/4 in",
    "three quarter inch": "3/4 in",
    "three fourths of an inch": "3/4 in",
    "an eighth": "1/8 in",
    "one sixteenth": "1/16 in",
    "a sixteenth of an inch": "1/16 in",
    "ten sixteenths": "5/8 in",
    "eleven thirty seconds": "11/32 in",
    "twenty one thirty-seconds": "21/32 in",
    "seven sixty-fourths": "7/64 in",
    "thirty five sixty fourths": "35/64 in",
    "an inch": "1 in",
    "one inch": "1 in",
    "an inch and a half": "1 1/2 in",
    "an inch and five eighths": "1 5/8 in",
    "one and three eighths": "1 3/8 in",
    "two and a half inches": "2 1/2 in",
    "three foot": "3 ft",
    "three feet": "36 in",
    "three foot one and a half": "37 1/2 in",
    "two foot eleven and fifteen sixteenths": "35 15/16 in",
    "two feet eleven and seven eighths inches": "35 7/8 in",
    "two foot eleven fifteen sixteenths": "35 15/16 in",
    "six feet eight": "80 in",
    "six foot eight inches": "80 in",
    "a foot and a half": "1.5 ft",
    "a foot three": "15 in",
    "two foot oh and three quarters": "24 3/4 in",
    "three and a half feet": "3.5 ft",
    "nine hundred eleven millimeters": "911 mm",
    "nine hundred and eleven millimetres": "911 mm",
    "nine one one millimeters": "911 mm",
    "nine hundred eleven point two two five millimeters": "911.225 mm",
    "two thousand one hundred millimeters": "2100 mm",
    "two thousand and forty millimetres": "2040 mm",
    "ninety one centimeters": "91 cm",
    "two point one meters": "2.1 m",
    "a hundred and five": "105 in",
    "one hundred five": "105 in",
    "one hundred and five and a half": "105 1/2 in",
    "a hundred and one eighth": "100 1/8 in",
    "eighty": "80 in",
    "eight zero": "80 in",
}


@pytest.mark.parametrize("said", LENGTHS)
def test_a_length_in_inches(said: str) -> None:
    found = grammar_for("length").parse(said)
    assert found.outcome == "complete"
    assert found.told == ""
    assert found.meaning is not None
    assert found.meaning.value == parse(LENGTHS[said], "length")


OTHERS = {
    ("length", "metric", "nine hundred and eleven"): "911 mm",
    ("length", "metric", "nine hundred eleven point five"): "911.5 mm",
    ("length", "metric", "twelve hundred and twenty"): "1220 mm",
    ("length", "metric", "two oh four oh"): "2040 mm",
    ("length", "metric", "thirty five and seven eighths inches"): "35 7/8 in",
    ("angle", "inch", "ninety degrees"): "90 deg",
    ("angle", "inch", "ninety"): "90 deg",
    ("angle", "inch", "one hundred eighty degrees"): "180 deg",
    ("angle", "inch", "a hundred and ten"): "110 deg",
    ("angle", "inch", "twelve and a half degrees"): "12.5 deg",
    ("angle", "inch", "half a degree"): "0.5 deg",
    ("force", "inch", "four point five pounds"): "4.5 lbf",
    ("force", "inch", "four and a half pounds"): "4.5 lbf",
    ("force", "inch", "a pound and a half"): "1.5 lbf",
    ("force", "inch", "five pounds of force"): "5 lbf",
    ("force", "metric", "twenty two newtons"): "22 N",
    ("force", "metric", "twenty two"): "22 N",
    ("time", "inch", "five and a half seconds"): "5.5 s",
    ("time", "inch", "five point five"): "5.5 s",
    ("time", "inch", "half a second"): "0.5 s",
    ("time", "inch", "a second and a half"): "1.5 s",
    ("time", "inch", "thirty seconds"): "30 s",
    ("time", "inch", "a minute and a half"): "1.5 min",
    ("time", "inch", "a minute thirty"): "90 s",
    ("time", "inch", "one minute and thirty seconds"): "90 s",
    ("time", "inch", "two minutes five point five seconds"): "125.5 s",
    ("mass", "inch", "a hundred and ten pounds"): "110 lb",
    ("mass", "metric", "fifty kilos"): "50 kg",
    ("mass", "metric", "sixty eight point five kilograms"): "68.5 kg",
    ("pressure", "inch", "point oh five inches of water"): "0.05 inH2O",
    ("pressure", "metric", "twelve pascals"): "12 Pa",
    ("moment", "inch", "eighteen foot pounds"): "18 lbf ft",
    ("moment", "metric", "twenty four newton meters"): "24 N m",
}


@pytest.mark.parametrize(("kind", "system", "said"), OTHERS)
def test_a_measure_of_another_kind_or_system(kind: str, system: str, said: str) -> None:
    meaning = grammar_for(kind, system).parse(said).meaning
    assert meaning is not None
    assert meaning.value == parse(OTHERS[kind, system, said], kind, system)


def test_a_measure_keeps_the_unit_it_was_said_in() -> None:
    meaning = grammar_for("length").parse("nine hundred eleven millimeters").meaning
    assert meaning is not None
    assert isinstance(meaning.value, Quantity)
    assert meaning.value.unit == "mm"


COUNTS = {
    "zero": 0,
    "oh": None,
    "six": 6,
    "twelve": 12,
    "one two": 12,
    "a hundred and five": 105,
    "one thousand two hundred thirty four": 1234,
}


@pytest.mark.parametrize("said", COUNTS)
def test_a_count_is_whole(said: str) -> None:
    meaning = grammar_for("count").parse(said).meaning
    assert (meaning.value if meaning else None) == COUNTS[said]
    assert meaning is None or type(meaning.value) is int


@pytest.mark.parametrize(
    ("said", "number"),
    [("two point five", "2.5"), ("forty two", "42"), ("three quarters", "0.75")],
)
def test_a_number_by_itself(said: str, number: str) -> None:
    meaning = grammar_for("number").parse(said).meaning
    assert meaning is not None
    assert (meaning.kind, meaning.value) == ("number", Fraction(number))


FRAMES = [
    Offered("steel", ("Hollow steel", "steel")),
    Offered("timber", ("Timber", "wood")),
    Offered("en-3", ("EN 3",)),
    Offered("unsure", ("I don’t know",)),
]


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("hollow steel", "steel"),
        ("Steel", "steel"),
        ("wood", "timber"),
        ("en three", "en-3"),
        ("i don't know", "unsure"),
        ("answer two", "timber"),
        ("number four", "unsure"),
    ],
)
def test_a_choice_by_its_names_or_its_number(said: str, value: str) -> None:
    meaning = grammar_for("choice", choices=FRAMES).parse(said).meaning
    assert meaning is not None
    assert (meaning.kind, meaning.value) == ("choice", value)


def test_an_answer_goes_before_a_command_of_the_same_word() -> None:
    both = grammar_for("choice", choices=[Offered("no", ("no",))], commands=["no", "back"])
    answer, command = both.parse("no").meaning, both.parse("back").meaning
    assert answer is not None
    assert command is not None
    assert (answer.kind, command.kind) == ("choice", "command")


def test_where_anything_may_be_said_the_unit_tells_the_kind() -> None:
    anything = grammar_for("any", commands=["done"])
    said = ("ninety degrees", "three foot six", "five pounds", "ninety", "next")
    found = [anything.parse(words).meaning for words in said]
    assert [(one.kind, one.value) for one in found if one] == [
        ("measure", parse("90 deg", "angle")),
        ("measure", parse("42 in", "length")),
        ("measure", parse("5 lbf", "force")),
        ("number", 90),
        ("command", "done"),
    ]
