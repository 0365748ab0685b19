"""The closer's sheet as a page: the mount of this door first, never while its numbers are measured blind."""

import pytest

from guide.run.desk import Desk
from guide.run.outcomes import PAGE, Notice, Refusal
from guide.run.pages.sheet import NOT_LOADED, NOT_WHILE_BLIND, sheet_page
from tests.run.stands import standing_at


def test_the_mount_of_this_door_comes_first_and_its_row_is_told() -> None:
    page = sheet_page(standing_at("demo", "holes/wedge-the-leaf").state)
    assert page.title == "The sheet generic-a"
    assert page.sections[1].heading == "Regular arm"
    assert sum("This door." in line for line in page.sections[1].lines) == 1
    assert not any("This door." in line for one in page.sections[2:] for line in one.lines)


def test_no_key_of_the_file_and_no_sign_before_a_number_is_shown() -> None:
    page = sheet_page(standing_at("demo", "holes/wedge-the-leaf").state)
    text = "\n".join(line for section in page.sections for line in section.lines)
    assert "_" not in text
    assert "-3/4 in" not in text
    assert "3/4 in up" in text


def test_without_a_sheet_the_page_says_where_the_numbers_are() -> None:
    page = sheet_page(standing_at("bakery-back-door", "holes/wedge-the-leaf").state)
    assert page.sections[0].lines == (NOT_LOADED,)


@pytest.mark.parametrize("at", ["holes/body-along-measured", "holes/shoe-datum-measured"])
def test_it_is_not_shown_while_a_mark_is_measured_blind(at: str) -> None:
    desk = Desk(standing_at("demo", at))
    assert desk.command("sheet") == Refusal(NOT_WHILE_BLIND)
    assert desk.over == ""
    assert desk.command("tools") == Notice(PAGE)
