"""Where the sheet puts body and shoe, and how far the spring screw turns."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

import pytest

from guide.measures import parse
from guide.trade.answer import BadInput, NoAnswer, OutOfDomain
from guide.trade.computation import Given
from guide.trade.registry import run
from guide.trade.sheet.parts import SpringSetting
from guide.trade.sheet.sheet import Sheet
from tests.trade.harbour_closer import SWEEP
from tests.trade.shipped_sheets import answer


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


def turned(value: object) -> tuple[object, object]:
    """Quarter turns and their way; the same in words stands beside them."""
    assert isinstance(value, Mapping)
    return value["quarter_turns"], value["direction"]


@pytest.mark.parametrize(
    ("start", "end", "quarter_turns", "direction"),
    # 2 1/2 full turns a size on this sheet, so ten quarters.
    [(3, 4, 10, "stronger"), (5, 2, 30, "weaker"), (4, 4, 0, "none")],
)
def test_turns_of_the_spring_screw(
    harbour: Sheet, start: int, end: int, quarter_turns: int, direction: str
) -> None:
    answer = run("spring-turns", {"sheet": harbour, "from": start, "to": end})
    assert turned(answer.value) == (quarter_turns, direction)
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


def worked(**texts: str) -> tuple[str, str]:
    """Quarter turns with their direction, and the first line of the working."""
    found = answer("spring-turns", **texts)
    assert isinstance(found.value, Mapping)
    return f"{found.value['quarter_turns']} {found.value['direction']}", found.working[0]


def test_turns_from_the_factory_by_the_width_of_the_leaf() -> None:
    """Size 3 as it leaves the factory; 42 in (1067 mm) needs size 4, 5 turns further."""
    assert worked(sheet="generic-a", width="41 in") == (
        "20 stronger",
        "For a leaf to 42 in: 5 full turns stronger from the factory's setting, EN size 3.",
    )
    assert worked(sheet="generic-a", width="36 in")[0] == "0 none"
    assert worked(sheet="generic-a", width="34 in", accessible="yes") == (
        "40 weaker",
        "For an accessible door: 10 full turns weaker from the factory's setting, EN size 3.",
    )
    assert worked(sheet="generic-a", **{"from": "5"}, accessible="yes") == (
        "80 weaker",
        (
            "EN size 5 is 10 full turns stronger from the factory's setting, and an accessible door"
            " 10 full turns weaker: 20 full turns weaker."
        ),
    )
    with pytest.raises(NoAnswer, match="end at a leaf of 54 in, and this one is 60 in"):
        worked(sheet="generic-a", width="60 in")


def test_turns_from_the_factory_by_size_and_by_the_chart() -> None:
    assert worked(sheet="generic-b", to="5")[0] == "32 stronger"
    assert worked(sheet="generic-b", to="2", **{"from": "3"})[0] == "16 weaker"
    assert worked(sheet="generic-b", width="900 mm", mount="parallel") == (
        "16 stronger",
        (
            "For a leaf 900 mm wide, EN size 4 by the chart: 4 full turns stronger from the factory's"
            " setting, EN size 3."
        ),
    )
    with pytest.raises(BadInput, match="goes by mount; give mount= as well"):
        worked(sheet="generic-b", width="900 mm")
    with pytest.raises(NoAnswer, match="have no line for accessible doors"):
        worked(sheet="generic-b", accessible="yes")


def test_with_the_turns_comes_the_preset_of_the_arm() -> None:
    told = answer("spring-turns", sheet="generic-a", to="4", mount="parallel").working
    assert told[1].startswith(
        "Preset of the arm on a parallel arm, by the sheet: Turn the pinion 15"
    )
    assert len(answer("spring-turns", sheet="generic-a", to="4", mount="regular").working) == 1


def test_the_spring_is_set_to_one_thing_at_a_time() -> None:
    several: list[dict[str, str]] = [
        {},
        {"to": "3", "width": "36 in"},
        {"to": "3", "accessible": "yes"},
    ]
    for texts in several:
        with pytest.raises(BadInput, match="needs one of three: to="):
            worked(sheet="generic-a", **texts)


def test_without_a_factory_setting_the_size_it_is_at_must_be_given(harbour: Sheet) -> None:
    with pytest.raises(NoAnswer, match="give the EN size it is set to now, as from="):
        run("spring-turns", {"sheet": harbour, "to": 4})
    table = (SpringSetting(Fraction(2), max_width=parse("48 in")),)
    by_width = replace(harbour, spring_settings=table, turns_per_size=None)
    with pytest.raises(NoAnswer, match="leave from= away to count from the factory's setting"):
        run("spring-turns", {"sheet": by_width, "from": 3, "width": parse("40 in")})


def test_a_table_by_mount_needs_the_mount(harbour: Sheet) -> None:
    rows = tuple(
        SpringSetting(turns, max_width=parse("48 in"), mount=mount)
        for turns, mount in ((Fraction(2), "regular"), (Fraction(4), "parallel"))
    )
    sheet = replace(harbour, spring_settings=rows)
    leaf: dict[str, Given] = {"sheet": sheet, "width": parse("40 in")}
    with pytest.raises(BadInput, match="go by mount; give mount= as well"):
        run("spring-turns", leaf)
    for mount, quarters in (("regular", 8), ("parallel", 16)):
        value = run("spring-turns", {**leaf, "mount": mount}).value
        assert turned(value) == (quarters, "stronger")
    with pytest.raises(NoAnswer, match="has no top jamb mounting"):
        run("spring-turns", {**leaf, "mount": "top-jamb"})


def test_a_quarter_turn_a_size_is_whole_quarters(harbour: Sheet) -> None:
    fine = replace(harbour, turns_per_size=Fraction(3, 4))
    answer = run("spring-turns", {"sheet": fine, "from": 2, "to": 3})
    assert turned(answer.value) == (3, "stronger")


def test_a_table_that_does_not_have_a_size_is_not_mixed_with_the_turns_for_one_size(
    harbour: Sheet,
) -> None:
    """Size 4 is 10 turns from the factory by the table; 5 is not on it, and 2 1/2 turns make a size."""
    table = (SpringSetting(Fraction(0), size=3), SpringSetting(Fraction(10), size=4))
    sheet = replace(harbour, factory_size=3, spring_settings=table)
    for start, end, quarters in ((3, 4, 40), (4, 5, 10), (4, 3, 40)):
        value = run("spring-turns", {"sheet": sheet, "from": start, "to": end}).value
        direction = "stronger" if end > start else "weaker"
        assert turned(value) == (quarters, direction)
