"""Where the sheet puts body and shoe, and how far the spring screw turns."""

from dataclasses import replace
from fractions import Fraction

import pytest

from guide.measures import parse
from guide.trade.answer import NoAnswer, OutOfDomain
from guide.trade.registry import run
from guide.trade.sheet.sheet import Sheet
from tests.trade.harbour_closer import SWEEP


@pytest.mark.parametrize(
    ("name", "place", "value", "working"),
    [
        (
            "sheet-body-along",
            ("regular", "90 deg"),
            "8 3/4 in",
            "body 8 3/4 in from the hinge edge.",
        ),
        ("sheet-body-along", ("regular", "110 deg"), "6 1/2 in", "opening to 130 deg"),
        ("sheet-body-datum", ("regular", "90 deg"), "2 1/8 in", "from the underside of the stop."),
        ("sheet-shoe-along", ("parallel", "90 deg"), "9 3/8 in", "from the hinge pin centre."),
        ("sheet-shoe-datum", ("parallel", "180 deg"), "7/8 in", "from the push face of the leaf."),
    ],
)
def test_every_number_says_from_where(
    harbour: Sheet, name: str, place: tuple[str, str], value: str, working: str
) -> None:
    mount, opening = place
    answer = run(name, {"sheet": harbour, "mount": mount, "opening": parse(opening)})
    assert answer.value == parse(value)
    assert working in answer.working[0]


def test_a_mount_the_sheet_does_not_have_has_no_answer(harbour: Sheet) -> None:
    with pytest.raises(NoAnswer, match="choose one of its mounts or another closer"):
        run("sheet-shoe-along", {"sheet": harbour, "mount": "top-jamb", "opening": parse("90 deg")})


@pytest.mark.parametrize(("size", "fits"), [(1, False), (2, True), (5, True), (6, False)])
def test_whether_a_size_is_among_the_sheets(harbour: Sheet, size: int, fits: bool) -> None:
    answer = run("sheet-size-fits", {"sheet": harbour, "size": size})
    assert answer.value is fits
    assert f"EN size {size} is {'' if fits else 'not '}among them" in answer.working[0]


def test_there_is_no_en_size_8(harbour: Sheet) -> None:
    with pytest.raises(OutOfDomain, match="size 8 is outside what is worked here: 1 to 7"):
        run("sheet-size-fits", {"sheet": harbour, "size": 8})


@pytest.mark.parametrize(
    ("start", "end", "quarter_turns", "direction"),
    # 2 1/2 full turns a size on this sheet, so ten quarters.
    [(3, 4, 10, "stronger"), (5, 2, 30, "weaker"), (4, 4, 0, "none")],
)
def test_turns_of_the_spring_screw(
    harbour: Sheet, start: int, end: int, quarter_turns: int, direction: str
) -> None:
    answer = run("spring-turns", {"sheet": harbour, "from": start, "to": end})
    assert answer.value == {"quarter_turns": quarter_turns, "direction": direction}
    assert "never assume it for the spring" in answer.cautions[0]


def test_the_working_speaks_of_full_turns(harbour: Sheet) -> None:
    answer = run("spring-turns", {"sheet": harbour, "from": 2, "to": 3})
    assert answer.working == (
        "EN size 2 to 3, 2 1/2 full turns a size: 2 1/2 full turns stronger.",
    )


def test_the_sheet_says_which_way_where_the_maker_does(harbour: Sheet) -> None:
    told = replace(harbour, screws=(replace(SWEEP, name="spring", slower="anticlockwise"),))
    stronger = run("spring-turns", {"sheet": told, "from": 2, "to": 3}).cautions[0]
    weaker = run("spring-turns", {"sheet": told, "from": 3, "to": 2}).cautions[0]
    assert stronger == "By the sheet, clockwise is stronger; the label on the body decides."
    assert weaker == "By the sheet, anticlockwise is weaker; the label on the body decides."


def test_a_spring_is_never_turned_on_a_guess(harbour: Sheet) -> None:
    silent = replace(harbour, turns_per_size=None)
    fixed = replace(silent, sizes=(3, 3), adjustable=False)
    for sheet, end, says in [
        (silent, 4, "does not say how many turns"),
        (fixed, 4, "is fixed at EN size 3: do not turn it"),
        (harbour, 6, "has EN sizes 2 to 5, not 6"),
    ]:
        with pytest.raises(NoAnswer, match=says):
            run("spring-turns", {"sheet": sheet, "from": 3, "to": end})


def test_a_quarter_turn_a_size_is_whole_quarters(harbour: Sheet) -> None:
    fine = replace(harbour, turns_per_size=Fraction(3, 4))
    answer = run("spring-turns", {"sheet": fine, "from": 2, "to": 3})
    assert answer.value == {"quarter_turns": 3, "direction": "stronger"}
