"""The typed line and the steppers of a measure."""

from fractions import Fraction

import pytest
from textual.events import Key, Paste

from guide.measures import Quantity
from guide.procedure.facts import Fact, WrongAnswer
from guide.run.session import Session
from guide.run.stepper import stepped
from guide.screens.run_view import LONGEST
from tests.screens.back_door import app_of
from tests.screens.seen import seen


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


async def test_a_number_is_corrected_where_it_is_wrong(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "1", *"35", "space", *"in", "left", "left", "left")
        await pilot.press("space", *"7", "slash", "8", "home", "delete", *"3")
        assert app.run_view is not None
        assert app.run_view.text == "35 7/8 in"
        await pilot.press("enter")
        assert str(session.state.env["width"]) == "35 7/8 in"


async def test_what_was_refused_is_typed_over(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "1", *"90", "enter")
        assert "90 in is out of range" in seen(app)
        await pilot.press(*"36", "enter")
        assert str(session.state.env["width"]) == "36 in"


async def test_a_pasted_text_has_one_line_and_an_end(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("m")
        app.screen.post_message(Paste("loose screws\n" + "x" * 5000))
        await pilot.pause()
        await pilot.press("enter")
        assert session.state.notes[0][2] == "loose screws"
        await pilot.press("m")
        app.screen.post_message(Paste("x" * 5000))
        await pilot.pause()
        assert app.run_view is not None
        assert len(app.run_view.text) == LONGEST


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


async def test_keys_that_come_faster_than_they_are_shown_are_all_there(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "1")
        await pilot.pause()
        for key in (*"35", "space", *"7", "slash", "8"):
            app.post_message(Key(key, {"space": " ", "slash": "/"}.get(key, key)))
        app.post_message(Key("enter", None))
        await pilot.pause()
        await pilot.pause()
        assert str(session.state.env["width"]) == "35 7/8 in"
        assert app.run_view is not None
        assert app.run_view.text == ""
