"""The typed line and the steppers of a measure."""

from fractions import Fraction

import pytest

from guide.measures import Quantity
from guide.procedure.facts import Fact, WrongAnswer
from guide.screens.line import LONGEST, TypedLine
from guide.screens.stepper import stepped


def inches(text: str) -> Quantity:
    return Quantity(Fraction(text), "in")


WIDTH = Fact(
    "width",
    "length",
    low=inches("24"),
    high=inches("48"),
    step=inches("1/16"),
    usual=(inches("30"), inches("42")),
)


def test_letters_go_in_at_the_cursor() -> None:
    line = TypedLine()
    line.put("35 in")
    for _ in range(3):
        line.key("left")
    line.put(" 7/8")
    assert line.text == "35 7/8 in"
    line.key("home")
    line.key("delete")
    line.key("end")
    line.key("backspace")
    assert line.text == "5 7/8 i"
    line.key("ctrl+u")
    assert line.text == ""


def test_a_pasted_text_loses_what_cannot_be_printed_and_has_an_end() -> None:
    line = TypedLine()
    line.put("loose\x1b[31m\nscrews")
    assert line.text == "loose[31m screws"
    line.put("x" * 5000)
    assert len(line.text) == LONGEST


@pytest.mark.parametrize(
    ("typed", "up", "becomes"),
    [
        ("", True, "30 in"),
        ("35 7/8", True, "35 15/16 in"),
        ("35 15/16 in", True, "36 in"),
        ("36 in", False, "35 15/16 in"),
        ("48 in", True, "48 in"),
        ("24 in", False, "24 in"),
        ("900 mm", True, "35 7/16 in"),
    ],
)
def test_one_step_of_a_width(typed: str, up: bool, becomes: str) -> None:
    assert stepped(WIDTH, typed, up, "inch") == becomes


def test_a_metric_tape_steps_by_whole_millimetres() -> None:
    assert stepped(WIDTH, "914 mm", True, "metric") == "915 mm"


def test_the_first_step_stands_on_what_is_suggested() -> None:
    assert stepped(WIDTH, "", True, "inch", inches("36")) == "36 in"


def test_what_is_no_measure_is_said_and_not_stepped() -> None:
    with pytest.raises(WrongAnswer):
        stepped(WIDTH, "wide", True, "inch")


def test_a_count_steps_by_one_within_its_range() -> None:
    screws = Fact("screws", "count", low=0, high=12)
    assert stepped(screws, "", True, "inch") == "0"
    assert stepped(screws, "3", True, "inch") == "4"
    assert stepped(screws, "12", True, "inch") == "12"
