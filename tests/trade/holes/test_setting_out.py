"""The setting-out of one opening: what is asked, what stops it, which accessory it needs, what its holes take."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from guide.measures import parse
from guide.trade.answer import NoAnswer
from guide.trade.holes.layout import LEAF
from guide.trade.holes.opening import Material, Opening, opening_of
from guide.trade.holes.places import places
from guide.trade.holes.rows import drill_sentence
from guide.trade.holes.set_out import SettingOut, set_out
from guide.trade.reading import read_inputs
from guide.trade.registry import find
from guide.trade.sheet.parts import PackedScrew
from guide.trade.sheet.sheet import Sheet
from tests.trade.shipped_sheets import answer, shipped

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
    "room": "fits",
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
    assert "2.85 mm drill (3.7 mm in hard wood)" in parts(**CLASSROOM | wood)["drill_leaf"]


def test_a_mineral_core_is_bolted_and_said_to_hold_nothing() -> None:
    found = parts(**CLASSROOM | {"leaf": "wood", "behind": "mineral", "prep": "plain"})
    assert found["fixing_leaf"] == "through-bolt"
    assert found["held_by_leaf"].endswith("the mineral core holds nothing")
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


def by_the_top(name: str) -> Sheet:
    """The sheet with its parallel arm measured from the top of the leaf."""
    sheet = shipped(name)
    mounts = tuple(
        replace(one, datum="top of the leaf") if one.mount == "parallel" else one
        for one in sheet.mounts
    )
    return replace(sheet, mounts=mounts, accessories=())


def test_a_parallel_arm_measured_from_the_hidden_top_of_the_leaf() -> None:
    door = Opening("parallel", "left", hinge="butt", angle=parse("100 deg"))
    refused = set_out(door, by_the_top("generic-a"))
    assert refused.refusal == "needs-overlap"
    with pytest.raises(
        NoAnswer, match="measure how far the top of the leaf is above the underside"
    ):
        places(refused)
    known = places(set_out(replace(door, overlap=Fraction(1, 2)), by_the_top("generic-a")))
    # 2 in down from the top is 1 1/2 in down from the stop, where the paper is folded for the soffit.
    assert known.body[1] == -Fraction(3, 2)
    assert known.fold == 0
    assert known.shoe[1] == Fraction(13, 4)


PACKED = (
    PackedScrew("self-drilling", "No. 12", parse("1 in")),
    PackedScrew("through-bolt", "1/4-20", hole=parse("7/16 in")),
    PackedScrew("wood", "No. 12", parse("1 1/4 in")),
)


def with_packed(leaf: Material) -> SettingOut:
    sheet = shipped("generic-a")
    assert sheet.body is not None
    packs = replace(sheet, body=replace(sheet.body, packed=PACKED))
    door = Opening(
        *("regular", "left"),
        hinge="butt",
        angle=parse("100 deg"),
        thickness=Fraction(7, 4),
        room="fits",
        leaf=leaf,
    )
    return set_out(door, packs)


@pytest.mark.parametrize(
    ("leaf", "words"),
    [
        (
            Material("steel", None, True),
            "4 holes for self-drilling screws No. 12, 1 in long: punch each centre, drill no pilot",
        ),
        # The sheet's own sleeve, 7/16 in, and not the usual 3/8 in.
        (Material("steel", "foam"), "7/16 in from the push face for the sleeve"),
        (Material("aluminium", "tube"), "for the sleeve; a spacer in the rail on each bolt"),
        # No. 12: root two thirds of 0.216 in, 70 percent of it 0.101 in; no deeper than the screw is long.
        (
            Material("wood", "solid-wood"),
            "4 holes, 3/32 in drill (1/8 in in hard wood), 1 1/4 in deep",
        ),
    ],
)
def test_the_screws_that_the_sheet_packs_are_used(leaf: Material, words: str) -> None:
    assert words in drill_sentence(with_packed(leaf), LEAF, "inch")


def test_rivet_nuts_go_into_an_empty_rail_where_the_sheet_packs_no_bolts() -> None:
    rail = with_packed(Material("aluminium", "tube"))
    assert rail.sheet is not None
    assert rail.sheet.body is not None
    nuts = (PackedScrew("rivet-nut", "1/4-20", hole=parse("25/64 in")),)
    sheet = replace(rail.sheet, body=replace(rail.sheet.body, packed=nuts))
    words = drill_sentence(set_out(rail.opening, sheet), LEAF, "inch")
    assert words.startswith("4 holes, 25/64 in drill, through the skin only, for rivet nuts 1/4-20")


def test_screws_that_the_box_lacks_are_named_before_drilling() -> None:
    sheet = shipped("generic-a")
    assert sheet.body is not None
    only = replace(sheet, body=replace(sheet.body, packed=PACKED[:1]))
    leaf = Material("wood", "mineral")
    door = Opening("regular", "left", angle=parse("100 deg"), thickness=Fraction(7, 4), leaf=leaf)
    told = " ".join(set_out(door, only).cautions)
    assert "The box has no through-bolts for the leaf: get them before drilling." in told


def test_a_packer_makes_the_shoes_screws_longer() -> None:
    found = parts(**CLASSROOM | {"mount": "parallel", "soffit": "blade"})
    assert found["drill_soffit"].endswith(
        ", screws 1 3/8 in long, 5/8 in longer than those in the box"
    )


WOOD = {"leaf": "wood", "behind": "solid-wood", "thickness": "1 3/4 in", "frame": "wood"}


def test_two_lengths_of_one_screw_are_told_apart() -> None:
    """Wood screws of 1 1/2 in for the leaf and 2 1/2 in for the frame, 6 of each, come with the body."""
    regular = parts(**CLASSROOM | WOOD)
    assert regular["fasteners_leaf"].startswith("4 wood screws No. 14, 1 1/2 in long")
    assert (
        "for wood screws No. 14, 1 1/2 in long, pull face first; 2 more only if"
        in regular["drill_leaf"]
    )
    top_jamb = parts(**CLASSROOM | WOOD | {"mount": "top-jamb"})
    assert top_jamb["fasteners_frame"].startswith("4 wood screws No. 14, 2 1/2 in long")
    assert top_jamb["fasteners_leaf"].startswith("2 wood screws No. 14, 1 1/2 in long")


def test_a_box_that_lacks_screws_or_has_too_long_ones_is_said_before_punching() -> None:
    sheet = shipped("generic-a")
    assert sheet.body is not None

    def with_screws(*packed: PackedScrew) -> tuple[str, ...]:
        body = replace(sheet.body, packed=packed) if sheet.body else None
        values = read_inputs(find("setting-out"), CLASSROOM | WOOD, open_sheet=shipped)
        return set_out(opening_of(values), replace(sheet, body=body)).beware

    wood = PackedScrew("wood", "No. 14", parse("1 1/2 in"), count=3)
    assert "The box has 3 wood screws for the leaf, and 4 are needed" in with_screws(wood)[0]
    long = PackedScrew("wood", "No. 14", parse("2 in"), count=4)
    assert "2 in long, and the leaf is 1 3/4 in thick: they would come out" in with_screws(long)[0]
    assert with_screws(PackedScrew("wood", "No. 14", parse("1 1/2 in"), count=4)) == ()


def test_two_accessories_under_one_shoe_need_their_own_template() -> None:
    found = parts(
        **CLASSROOM | {"mount": "parallel", "soffit": "blade", "head_item": "coordinator"}
    )
    assert found["refusal"] == "needs-template"
    assert "coordinator bracket and packer for a blade stop at once" in found["why"]


def test_what_a_paper_is_needed_for_gets_no_number_from_the_sheet() -> None:
    paper = {"template": "paper", "hinge": "swing-clear"}
    found = parts(**CLASSROOM | paper)
    assert found["refusal"] == "go-on"
    assert found["body_along"] is None
    assert found["drill_leaf"].startswith("Every hole, No. 7 drill")
