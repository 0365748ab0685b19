"""What noise would make of one word of a measure or number."""

from fractions import Fraction

import pytest

from guide.words.spoken import Grammar, Meaning, Offered, grammar_for, rivals, settled

LENGTH = grammar_for("length", commands=["done", "back"])
NUMBER = grammar_for("number")
PREVIOUS = ("step back", "previous step")


@pytest.mark.parametrize(
    ("said", "rival"),
    [
        ("thirty five inches", "thirty nine inches"),
        ("thirty five inches", "ninety five inches"),
        ("thirty five inches", "five inches"),
        ("sixteen inches", "sixty inches"),
        ("five and three eighths inches", "four and three eighths inches"),
        ("five and three eighths inches", "five and three sixteenths inches"),
        ("nine hundred nineteen millimeters", "nine hundred ninety millimeters"),
    ],
)
def test_one_word_taken_for_another_is_a_rival_both_ways(said: str, rival: str) -> None:
    assert rival in rivals(said, LENGTH)
    assert said in rivals(rival, LENGTH) or len(said.split()) > len(rival.split())


@pytest.mark.parametrize(
    ("heard", "said", "lead", "grammar"),
    [
        ("a hundred eighty", "eight hundred eighty", 0, NUMBER),
        ("six eight", "six feet", 1, LENGTH),
        ("sixty nine three eighths inches", "sixteen and three eighths inches", 2, LENGTH),
    ],
)
def test_some_are_settled_by_their_fit_to_the_sound_and_are_rivals_no_more(
    heard: str, said: str, lead: float, grammar: Grammar
) -> None:
    assert settled(heard, grammar) == {said: lead}
    assert settled(said, grammar) == {}
    assert said not in rivals(heard, grammar)
    assert heard not in rivals(said, grammar)


def test_most_sayings_need_no_settling() -> None:
    assert settled("thirty five inches", LENGTH) == {}
    assert settled("go back", LENGTH) == {}
    assert "seven feet two inches" in rivals("seventy two inches", LENGTH)


def test_a_digit_that_slipped_in_makes_a_rival() -> None:
    assert "twenty four point eight" in rivals("twenty four point two eight", NUMBER)


def test_every_rival_has_another_value_and_none_is_told_twice() -> None:
    meaning = Meaning("number", Fraction(249, 10))
    found = rivals("twenty four point nine", NUMBER)
    assert NUMBER.parse("twenty four point nine").meaning == meaning
    assert len(set(found)) == len(found) > 10
    for one in found:
        assert NUMBER.parse(one).meaning not in (None, meaning), one


def test_another_wording_of_the_same_value_is_no_rival() -> None:
    assert "one hundred ten" not in rivals("a hundred ten", NUMBER)
    assert "five hundred ten" in rivals("a hundred ten", NUMBER)


def test_a_command_is_held_against_every_other_command_and_choice() -> None:
    offered = (Offered("regular", ("regular arm",)), Offered("parallel", ("parallel arm",)))
    step = grammar_for("nothing", choices=offered, commands=["back"])
    other = {"parallel arm", "answer two", "number two"}
    assert set(rivals("regular arm", step)) == {*other, "go back", "back", *PREVIOUS}
    assert set(rivals("step back", step)) == {*other, "regular arm", "answer one", "number one"}


def test_a_number_of_one_word_and_a_short_command_are_held_against_each_other() -> None:
    """A person's “pause” was heard as “five”, and “eighty” of a synthesiser as “detail”."""
    step = grammar_for("number", commands=["pause", "detail"])
    assert {"pause", "detail"} <= set(rivals("five", step))
    assert {"five", "eighty"} <= set(rivals("pause", step))
    assert "eighty" in rivals("detail", step)
    assert "five" not in rivals("stop for now", step)
    assert "pause" not in rivals("sixty five", step)


@pytest.mark.parametrize("text", ["no such words", ""])
def test_what_has_no_meaning_has_none(text: str) -> None:
    assert rivals(text, LENGTH) == ()


def test_there_are_few_enough_to_listen_for() -> None:
    long = "nine hundred ninety five point four five four five four five"
    assert len(rivals(long, NUMBER)) == 40
