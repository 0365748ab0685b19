"""What noise would make of one word of a measure or number."""

from fractions import Fraction

import pytest

from guide.words.spoken import Meaning, grammar_for, rivals

LENGTH = grammar_for("length", commands=["done", "back"])
NUMBER = grammar_for("number")


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


def test_a_hundred_eighty_and_eight_hundred_eighty_are_rivals() -> None:
    assert "eight hundred eighty" in rivals("a hundred eighty", NUMBER)
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
    assert "eight hundred ten" in rivals("a hundred ten", NUMBER)


@pytest.mark.parametrize("text", ["next", "go back", "no such words", ""])
def test_commands_and_what_has_no_meaning_have_none(text: str) -> None:
    assert rivals(text, LENGTH) == ()


def test_there_are_few_enough_to_listen_for() -> None:
    spelled = "nine hundred ninety five point four five four five four five four five four five"
    assert len(rivals(spelled, NUMBER)) <= 40
