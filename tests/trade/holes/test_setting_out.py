"""The setting-out of one opening: what is asked, what stops it, which accessory it needs, what its holes take."""

from typing import Any

import pytest

from guide.measures import parse
from tests.trade.shipped_sheets import answer

CLASSROOM = {
    "sheet": "generic-a",
    "mount": "regular",
    "knuckles": "left",
    "hinge": "butt",
    "opening": "120 deg",
    "leaf": "steel",
    "steel_core": "honeycomb",
    "prep": "reinforced",
    "thickness": "1 3/4 in",
    "frame": "steel",
    "frame_plate": "yes",
}
"""A reinforced steel classroom door on butts."""
ARCHIVE = CLASSROOM | {"sheet": "generic-b", "mount": "parallel", "soffit": "flat"}
"""The same door with a metric closer on a parallel arm."""


def parts(**texts: str) -> Any:
    return answer("setting-out", **texts).value


def test_with_a_sheet_nothing_is_asked_that_it_says() -> None:
    found = parts(**CLASSROOM)
    assert found["source"] == "sheet"
    assert found["to_ask"] is None
    assert found["body_along"] == parse("7 in")
    assert found["valves_toward"] == "hinge"


def test_the_row_that_covers_the_opening_is_named() -> None:
    assert (
        parts(**CLASSROOM)["row"]
        == "regular arm, row to 130 deg, which covers an opening of 120 deg"
    )
    exact = parts(**CLASSROOM | {"opening": "130 deg"})
    assert exact["row"] == "regular arm, row to 130 deg"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"typed_body_along": "6 in"}, "6 in was typed for the body along the door, and the sheet"),
        (
            {"typed_datum": "stop"},
            "measured from the underside of the stop, and the sheet generic-a says top",
        ),
        (
            {"typed_valves_toward": "latch"},
            "point to the latch, and the sheet generic-a says hinge",
        ),
        (
            {"typed_mount": "parallel"},
            "The mount is regular arm here, and schedule or paper is for parallel",
        ),
        ({"hand": "LH"}, "The hand LH has its knuckles on the right"),
    ],
)
def test_what_contradicts_the_sheet_stops_it(typed: dict[str, str], says: str) -> None:
    found = parts(**CLASSROOM | typed)
    assert found["refusal"] == "clash"
    assert says in found["why"]
    assert found["body_along"] is None
    assert found["holes_leaf"] is None


def test_the_sheets_own_number_typed_again_is_no_contradiction() -> None:
    assert parts(**CLASSROOM | {"typed_body_along": "178 mm"})["refusal"] == "go-on"


@pytest.mark.parametrize("hinge", ["swing-clear", "centre-pivot", "offset-pivot"])
def test_a_hinge_that_turns_elsewhere_gets_no_number(hinge: str) -> None:
    found = parts(**CLASSROOM | {"hinge": hinge})
    assert found["refusal"] == "needs-special"
    assert found["body_along"] is None
    assert parts(**CLASSROOM | {"hinge": hinge, "special": "yes"})["refusal"] == "go-on"


def test_an_m6_sheet_gives_the_m6_drill_in_both_units() -> None:
    for units in ("inch", "metric"):
        found = parts(**ARCHIVE | {"units": units})
        assert "5 mm drill" in found["drill_leaf"]
        assert "tap M6x1" in found["drill_leaf"]
        assert "1/4-20" not in str(dict(found))


def test_a_metric_job_is_given_metric_drills() -> None:
    found = parts(**CLASSROOM | {"units": "metric"})
    assert found["drill_leaf"].startswith(
        "4 holes, 5.1 mm drill, 12.5 mm deep, tap 1/4-20, pull face"
    )
    wood = {"leaf": "wood", "behind": "solid-wood", "prep": "plain", "units": "metric"}
    assert "3.5 mm drill (4.5 mm in hard wood)" in parts(**CLASSROOM | wood)["drill_leaf"]


def test_a_mineral_core_is_bolted_and_said_to_hold_nothing() -> None:
    found = parts(**CLASSROOM | {"leaf": "wood", "behind": "mineral", "prep": "plain"})
    assert found["fixing_leaf"] == "through-bolt"
    assert found["holds_leaf"].endswith("the mineral core holds nothing")
    assert (
        "pilot 1/8 in from the pull face, then 9/32 in from the pull face, 3/8 in from the push face"
        in (found["drill_leaf"])
    )


@pytest.mark.parametrize(
    ("seen", "kind"),
    [
        ({"head_item": "coordinator"}, "bracket"),
        ({"soffit": "narrow"}, "soffit-plate"),
        ({"soffit_width": "3 1/2 in"}, "soffit-plate"),
        ({"soffit": "blade"}, "packer"),
    ],
)
def test_what_the_shoe_goes_on_under_a_soffit(seen: dict[str, str], kind: str) -> None:
    found = parts(**CLASSROOM | {"mount": "parallel"} | seen)
    assert found["refusal"] == "go-on"
    assert found["shoe_accessory"] == kind


def test_an_accessory_that_the_sheet_lacks_means_its_own_template() -> None:
    found = parts(**ARCHIVE | {"soffit": "narrow"})
    assert found["refusal"] == "needs-template"
    assert found["why"].endswith("lay the template packed with the soffit plate, or do not start.")
    assert found["shoe_along"] is None
    assert parts(**ARCHIVE | {"soffit": "narrow", "template": "paper"})["refusal"] == "go-on"


def test_a_stepped_soffit_takes_the_extra_screw_of_the_shoe() -> None:
    assert parts(**ARCHIVE)["holes_soffit"] == 2
    assert parts(**ARCHIVE | {"soffit": "stepped"})["holes_soffit"] == 3


def test_a_low_top_rail_puts_the_body_on_its_drop_plate() -> None:
    found = parts(**CLASSROOM | {"top_rail": "2 1/2 in"})
    assert found["body_accessory"] == "drop-plate"
    assert found["body_across"] == parse("2 1/4 in")


def test_without_a_sheet_the_paper_or_the_numbers() -> None:
    door = {name: text for name, text in CLASSROOM.items() if name != "sheet"}
    assert parts(**door)["refusal"] == "needs-source"
    assert parts(**door)["to_ask"] == "template, typed_valves_toward"
    assert parts(**door, template="paper")["source"] == "paper"
    some = parts(**door, template="numbers", typed_along_from="edge")
    assert some["refusal"] == "needs-source"
    assert some["to_ask"].startswith("typed_datum, typed_body_along, typed_body_across")
    numbers = {
        "typed_along_from": "pin",
        "typed_datum": "top",
        "typed_body_along": "6 1/2 in",
        "typed_body_across": "1 3/8 in",
        "typed_shoe_along": "11 in",
        "typed_shoe_across": "7/8 in",
    }
    typed = parts(**door, template="numbers", **numbers)
    assert typed["refusal"] == "go-on"
    assert typed["body_place"] == (
        "6 1/2 in along from the hinge pin centre, 1 3/8 in down from the top of the leaf"
    )


def test_on_the_push_side_along_is_measured_from_the_hinge_edge() -> None:
    found = parts(**CLASSROOM | {"mount": "top-jamb"})
    assert found["body_along_from"] == "hinge edge"
    assert found["body_along"] == parse("6 3/16 in")  # 6 1/4 in by the sheet, less 1/16 in on butts
    assert "1/16 in toward the latch from the hinge pin centre" in found["carried"]


def test_a_line_that_is_hidden_needs_the_overlap() -> None:
    door = {name: text for name, text in CLASSROOM.items() if name != "sheet"}
    numbers = {
        "mount": "parallel",
        "template": "numbers",
        "typed_along_from": "pin",
        "typed_datum": "top",
        "typed_body_along": "8 in",
        "typed_body_across": "2 1/2 in",
        "typed_shoe_along": "8 in",
        "typed_shoe_across": "3 1/4 in",
    }
    hidden = parts(**door | numbers)
    assert hidden["refusal"] == "needs-overlap"
    assert hidden["to_ask"].endswith("overlap")
    measured = parts(**door | numbers, overlap="1/2 in")
    assert measured["body_across"] == parse("2 in")
    assert measured["shoe_across"] == parse("3 1/4 in")
