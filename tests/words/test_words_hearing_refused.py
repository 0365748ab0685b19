"""What is not taken: no part of a saying, nothing left over, nothing that can mean two things."""

import pytest

from guide.words.spoken import Offered, grammar_for

STOPS = [
    "thirty five and",
    "thirty five and seven",
    "point",
    "zero point",
    "thirty five point",
    "two hundred and",
    "three foot one and",
    "an inch and",
    "seven eighths of",
    "seven eighths of an",
    "half an",
    "a",
    "an",
    "a hundred and",
    "two foot eleven and fifteen",
    "eleven thirty",
    "oh",
]


@pytest.mark.parametrize("said", STOPS)
def test_a_length_that_stops_in_the_middle_is_told(said: str) -> None:
    found = grammar_for("length").parse(said)
    assert (found.outcome, found.meaning) == ("incomplete", None)
    assert found.told == f"“{said}” stops in the middle; say all of it again."


NO_LENGTH = [
    "",
    "the door",
    "thirty five and seven eighths please",
    "about thirty five",
    "thirty five eighths",  # 35/8, or 30 5/8
    "nine eighths",
    "seventeen sixteenths",
    "thirty five and nine eighths",
    "a hundred one eighth",  # 101/8, or 100 1/8
    "three foot thirteen",
    "three foot thirty five",
    "three foot three foot",
    "two feet and a half",  # half an inch, or half a foot
    "two foot three quarters",  # of an inch, or of a foot
    "five five eighths sixteenths",
    "thirty five point eighty seven",
    "point five point five",
    "minus two",
    "thirty five degrees",
    "thirty five pounds",
    "inches",
    "and a half",
    "thirty and and a half",
    "five hundred hundred",
    "ninety hundred",
    "three of an inch",
    "a inches",  # what an ear makes of “eight inches”
    "a feet six inches",
    "next",
]


@pytest.mark.parametrize("said", NO_LENGTH)
def test_what_is_no_length_is_no_length(said: str) -> None:
    found = grammar_for("length").parse(said)
    assert (found.outcome, found.meaning) == ("nothing", None)
    assert found.told.startswith("That was not caught")


@pytest.mark.parametrize(
    "written", ["-5", "- five", "-five", "3/4", "35.5", "5٣", "35 7/8 in", "five, six", "fivé"]
)
def test_what_is_not_words_is_not_taken_for_the_words_in_it(written: str) -> None:
    assert grammar_for("length").parse(written).meaning is None


def test_a_long_noise_of_words_is_refused() -> None:
    for words in ("one", "a hundred and", "point", "five eighths and"):
        assert grammar_for("length").parse(f"{words} " * 500).meaning is None


@pytest.mark.parametrize(
    "said",
    ["twenty ten", "thirty thirteen", "one two three four five", "three and a half foot six"],
)
def test_what_could_only_go_on_to_a_refusal_is_not_taken(said: str) -> None:
    assert grammar_for("length").parse(said).meaning is None


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("angle", "ninety inches"),
        ("angle", "ninety and seven sixteenths degrees"),
        ("force", "five kilos"),
        ("time", "two minutes ninety"),
        ("time", "two minutes and a half"),  # half a second, or half a minute
        ("mass", "fifty newtons"),
        ("count", "two point five"),
        ("count", "six inches"),
        ("number", "six inches"),
        ("choice", "six"),
        ("nothing", "six"),
    ],
)
def test_only_the_kind_that_is_asked_is_taken(kind: str, said: str) -> None:
    assert grammar_for(kind, commands=["done"]).parse(said).meaning is None


def test_two_answers_of_one_name_are_not_guessed_between() -> None:
    hinges = [Offered("butt", ("the old ones",)), Offered("pivot", ("the old ones",))]
    found = grammar_for("choice", choices=hinges).parse("the old ones")
    assert (found.outcome, found.meaning) == ("unclear", None)
    assert "two things" in found.told


def test_a_command_in_halves_is_told() -> None:
    found = grammar_for("nothing", commands=["note"]).parse("make a")
    assert found.outcome == "incomplete"


def test_a_command_that_is_not_taken_here_is_not_heard_here() -> None:
    assert grammar_for("nothing", commands=["repeat"]).parse("next").outcome == "nothing"


def test_with_nothing_to_say_nothing_is_understood() -> None:
    empty = grammar_for("nothing")
    assert empty.parse("next").outcome == "nothing"
    assert empty.jsgf() == ""
    assert empty.words() == ()


def test_a_kind_a_system_a_command_and_a_language_must_be_known() -> None:
    with pytest.raises(ValueError, match="“colour” is not a kind of answer; the kinds are length"):
        grammar_for("colour")
    with pytest.raises(ValueError, match="“feet” is not a system of units"):
        grammar_for("length", "feet")
    with pytest.raises(ValueError, match="“explode” is not a command; the commands are done"):
        grammar_for("nothing", commands=["explode"])
    with pytest.raises(ValueError, match="no words for “elvish”; the languages are english"):
        grammar_for("length", in_language="elvish")
