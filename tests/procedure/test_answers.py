"""A person's answers: what each kind of fact takes, refuses and doubts, and how it is shown."""

import json
import re
from pathlib import Path

import pytest

from guide.measures import Quantity, parse
from guide.procedure.facts import Fact, Option, WrongAnswer, bare, writing
from tests.procedure.sample_procedure import CLOSET_DOOR, graph_of_text


@pytest.fixture
def facts(tmp_path: Path) -> dict[str, Fact]:
    return graph_of_text(tmp_path, CLOSET_DOOR).facts


def width_of(text: str) -> Quantity:
    return parse(text, "length")


@pytest.mark.parametrize(
    ("typed", "system", "value"),
    [
        ("36", "inch", "36 in"),
        ("35 7/8", "inch", "35 7/8 in"),
        ("35-7/8", "inch", "35 7/8 in"),
        ("3 ft", "inch", "3 ft"),
        ("2' 11 7/8\"", "inch", "35 7/8 in"),
        ("914", "metric", "914 mm"),
        ("914,4 mm", "metric", "914.4 mm"),
        # A tape in millimetres need not fall on sixteenths of an inch.
        ("911 mm", "inch", "911 mm"),
        ("36 in", "metric", "36 in"),
    ],
)
def test_a_width_is_taken_in_any_unit(
    facts: dict[str, Fact], typed: str, system: str, value: str
) -> None:
    read = facts["width"].read(typed, system)
    assert isinstance(read, Quantity)
    assert writing(read) == value


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "from 24 in to 48 in is accepted"),
        ("   ", "Nothing was entered"),
        ("60", "60 in is out of range"),
        ("23 15/16", "out of range"),
        # Written in the wrong unit, most likely.
        ("3", "did you mean 3 ft?"),
        ("914", "did you mean 914 mm?"),
        ("36 lb", "length"),
        ("36.03", "nearest 1/16 in, such as 36 in"),
        ("35 13/32", "35 7/16 in"),
        ("-36", "below zero"),
        ("wide", "no number"),
        ("36" * 100, "longer than"),
        ("unsure", "no number"),
    ],
)
def test_a_width_is_refused_with_what_would_be_taken(
    facts: dict[str, Fact], typed: str, says: str
) -> None:
    with pytest.raises(WrongAnswer) as refused:
        facts["width"].read(typed)
    assert says in str(refused.value)
    assert str(refused.value)[-1] in ".?"


def test_a_fraction_of_an_inch_is_no_slip_for_millimetres() -> None:
    gap = Fact("gap", "length", usual=(parse("1/16 in", "length"), parse("1/4 in", "length")))
    gap.low, gap.high = parse("0 in", "length"), parse("1 in", "length")
    told = gap.doubt(parse("3/8 in", "length"))
    assert told
    assert "cm" not in told


def test_a_watch_shows_seconds_and_no_minutes_are_offered() -> None:
    sweep = Fact("sweep", "time", low=parse("1/2 s", "time"), high=parse("60 s", "time"))
    with pytest.raises(WrongAnswer, match=r"0.2 s is out of range; from"):
        sweep.read("0.2")


def test_the_ends_of_the_range_are_taken(facts: dict[str, Fact]) -> None:
    assert facts["width"].read("24") == width_of("24 in")
    assert facts["width"].read("4 ft") == width_of("48 in")
    assert facts["width"].read("1219.2 mm") == width_of("48 in")


@pytest.mark.parametrize(
    ("value", "doubt"),
    [
        ("36 in", ""),
        ("30 in", ""),
        ("42 in", ""),
        ("1066.8 mm", ""),
        ("29 in", "29 in is unusual here; is it right?"),
        ("48 in", "48 in is unusual here; is it right?"),
    ],
)
def test_an_unusual_width_is_asked_about_before_it_counts(
    facts: dict[str, Fact], value: str, doubt: str
) -> None:
    assert facts["width"].doubt(width_of(value)) == doubt


def test_a_fact_without_a_usual_range_is_never_doubted(facts: dict[str, Fact]) -> None:
    assert facts["sweep"].doubt(parse("29 s")) == ""
    assert facts["hand"].doubt("lh") == ""
    assert facts["hinges"].doubt(3) == ""


HINGE = Fact(
    "hinge",
    "choice",
    options={
        "butt": Option("butt", "Butt hinges", "butts", ("ordinary",)),
        "continuous": Option("continuous", "Continuous hinge", "continuous"),
        "pivot": Option("pivot", "Offset pivots", "pivots"),
    },
    unsure=True,
)


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ("butt", "butt"),
        ("BUTT", "butt"),
        ("Butt hinges", "butt"),
        ("butts", "butt"),
        (" Ordinary ", "butt"),
        ("1", "butt"),
        ("3", "pivot"),
        ("unsure", "unsure"),
        ("?", "unsure"),
        ("I don't know", "unsure"),
        ("I don’t know", "unsure"),
    ],
)
def test_an_answer_is_taken_by_label_number_text_or_another_word(typed: str, label: str) -> None:
    assert HINGE.read(typed) == label


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("but", "did you mean “butt”?"),
        ("screws", "butt, continuous, pivot"),
        ("0", "butt, continuous, pivot"),
        ("4", "butt, continuous, pivot"),
        ("00012", "butt, continuous, pivot"),
        ("9" * 6000, "butt, continuous, pivot"),
        ("²", "butt, continuous, pivot"),
        ("butt\x1b[2J", "“butt�[2J”"),
        ("x" * 100_000, "“" + "x" * 40 + "…”"),
    ],
)
def test_an_answer_that_is_none_of_them_is_refused(typed: str, says: str) -> None:
    with pytest.raises(WrongAnswer) as refused:
        HINGE.read(typed)
    assert says in str(refused.value)
    assert str(refused.value).isprintable()


@pytest.mark.parametrize(
    ("typed", "label"),
    [("y", "yes"), ("N", "no"), ("Yes", "yes"), ("Labelled", "yes"), ("2", "no")],
)
def test_yes_and_no_are_taken_short(facts: dict[str, Fact], typed: str, label: str) -> None:
    assert facts["fire"].read(typed) == label


def test_not_knowing_is_taken_only_where_it_is_offered(facts: dict[str, Fact]) -> None:
    assert facts["hand"].read("unsure") == "unsure"
    with pytest.raises(WrongAnswer):
        facts["fire"].read("unsure")


@pytest.mark.parametrize(("typed", "count"), [("2", 2), (" 4 ", 4), ("003", 3)])
def test_a_count_is_a_whole_number(facts: dict[str, Fact], typed: str, count: int) -> None:
    assert facts["hinges"].read(typed) == count


@pytest.mark.parametrize("typed", ["1", "5", "2.5", "three", "٣", "²", "-2", "2 in", "1" * 5000])
def test_a_count_is_refused(facts: dict[str, Fact], typed: str) -> None:
    with pytest.raises(WrongAnswer, match="a whole number from 2 to 4 is wanted"):
        facts["hinges"].read(typed)


def test_a_text_is_kept_as_it_was_typed(facts: dict[str, Fact]) -> None:
    assert facts["label"].read("  20 min, Türen & Söhne ½ ") == "20 min, Türen & Söhne ½"
    assert facts["label"].read("x" * 40) == "x" * 40


@pytest.mark.parametrize(
    "typed", ["a\x00b", "a\x1b[2Jb", "a\nb", "a\tb", "a\u202eb", "a\ud800b", "a\x85b"]
)
def test_a_text_with_a_character_nobody_sees_is_refused(facts: dict[str, Fact], typed: str) -> None:
    with pytest.raises(WrongAnswer, match="control character"):
        facts["label"].read(typed)


def test_a_text_that_is_too_long_is_refused(facts: dict[str, Fact]) -> None:
    with pytest.raises(WrongAnswer, match="at most 40 characters"):
        facts["label"].read("x" * 41)


@pytest.mark.parametrize(
    ("name", "system", "wanted"),
    [
        ("hand", "inch", "one of lh, rh is wanted"),
        ("fire", "inch", "one of yes, no is wanted"),
        ("width", "inch", "from 24 in to 48 in is accepted"),
        ("hinges", "metric", "a whole number from 2 to 4 is wanted"),
        ("label", "inch", "a few words are wanted"),
    ],
)
def test_what_is_wanted_is_the_end_of_a_sentence(
    facts: dict[str, Fact], name: str, system: str, wanted: str
) -> None:
    assert facts[name].wanted(system) == wanted


def test_what_is_wanted_of_a_width_is_in_the_persons_units(facts: dict[str, Fact]) -> None:
    assert "mm" in facts["width"].wanted("metric")


@pytest.mark.parametrize(
    ("name", "value", "shown"),
    [
        ("hand", "lh", "Left hand"),
        ("hand", "unsure", "not known"),
        ("size", "none", "no answer"),
        ("size", 4, "4"),
        ("label", "none", "none"),
    ],
)
def test_a_value_is_shown_in_words(
    facts: dict[str, Fact], name: str, value: str | int, shown: str
) -> None:
    assert facts[name].show(value) == shown


def test_every_fact_comes_back_from_json(facts: dict[str, Fact]) -> None:
    for fact in [*facts.values(), HINGE]:
        data = json.loads(json.dumps(fact.to_json()))
        again = Fact.from_json(data)
        assert again == fact
        assert again.to_json() == fact.to_json()


@pytest.mark.parametrize(
    ("name", "typed"),
    [("hand", "lh"), ("hand", "unsure"), ("width", "35 7/8"), ("hinges", "3"), ("sweep", "5.5")],
)
def test_a_value_comes_back_from_its_exact_writing(
    facts: dict[str, Fact], name: str, typed: str
) -> None:
    value = facts[name].read(typed)
    again = facts[name].decode(writing(value))
    assert (again, writing(again)) == (value, writing(value))


@pytest.mark.parametrize(
    ("text", "without"),
    [
        ("36", True),
        ("35 7/8", True),
        ("½", True),
        ("1.5", True),
        ("36 in", False),
        ("3'", False),
        ("5°", False),
    ],
)
def test_a_measure_without_its_unit_is_told_from_one_with_it(text: str, without: bool) -> None:
    assert bare(text) is without


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("44 kg", "from 1 in to 3 in is accepted"),
        ("50 lb", "from 1 in to 3 in is accepted"),
        ("4 thou", "and is 0.004 in; from 1 in to 3 in is accepted"),
        ("15 decimetres", "from 1 in to 3 in is accepted"),
        ("2000 thou", "has a unit that is not used here, and is 2 in; write 2 in."),
        ("1.5 rad", "from 1 in to 3 in is accepted"),
        ("50 rad", "from 1 in to 3 in is accepted"),
        ("abc", "from 1 in to 3 in is accepted"),
        ("-3", "from 1 in to 3 in is accepted"),
        ("-30", "from 1 in to 3 in is accepted"),
    ],
)
def test_a_refused_measure_is_never_told_to_be_one_that_would_be_refused_again(
    typed: str, says: str
) -> None:
    thickness = Fact("thickness", "length", low=parse("1 in"), high=parse("3 in"))
    with pytest.raises(WrongAnswer, match=re.escape(says)):
        thickness.read(typed)


def test_a_spring_scale_in_kilograms_is_not_read_as_pounds() -> None:
    force = Fact("open_force", "force", low=parse("0 lbf"), high=parse("60 lbf"))
    with pytest.raises(WrongAnswer, match=r"measure of mass.*from 0 lbf to 60 lbf is accepted"):
        force.read("9 kg")


def test_a_computed_label_is_shown_as_words() -> None:
    marks = Fact("marks", "worked", gives="choice", gives_labels=("right", "whole-inch"))
    assert marks.show("whole-inch") == "whole inch"
    assert writing("whole-inch") == "whole-inch"
