"""Every hole of the shipped sheets, held to the bare numbers in their files."""

import json
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from guide.measures import Quantity, parse
from guide.trade.answer import BadInput, NoAnswer, result_json
from guide.trade.arm.inputs import widest
from guide.trade.door.hinges import HINGES, pivot_offset
from guide.trade.holes.distances import Surroundings, distances
from guide.trade.holes.fixing import Screws, fixing_for, hole_words
from guide.trade.holes.inputs import knuckles_of_hand
from guide.trade.holes.layout import (
    LEAF,
    hinges_in_front,
    lines_of,
    measured_from,
    numbers_of,
    to_mark,
)
from guide.trade.holes.opening import Material, Opening
from guide.trade.holes.places import Place, places
from guide.trade.holes.set_out import SettingOut, set_out
from guide.trade.sheet.sheet import Sheet
from tests.trade.harbour_closer import harbour_closer
from tests.trade.shipped_sheets import SHEETS, answer, inches, raw, shipped

CORRIDOR = {
    "sheet": "generic-a",
    "mount": "regular",
    "hinge": "butt",
    "range": "130 deg",
    "room": "fits",
}
"""A classroom door that opens into the corridor, on butt hinges; the body goes straight on its leaf."""

EVERY_RANGE = [
    (name, mount["mount"], row["up_to"])
    for name in SHEETS
    for mount in raw(name)["mounts"]
    for row in mount["ranges"]
]


def holes(**texts: str) -> list[dict[str, Any]]:
    value: Any = answer("holes", **{"room": "fits", **texts}).value
    return list(value["holes"])


def cautions(**texts: str) -> str:
    return " ".join(answer("holes", **{"room": "fits", **texts}).cautions)


def so_of(sheet: Sheet, mount: str, opening: str, knuckles: str = "left") -> SettingOut:
    door = Opening(
        *(mount, knuckles),
        hinge="butt",
        angle=parse(opening),
        overlap=Fraction(1, 2),
        room="fits",
    )
    return set_out(door, sheet)


def seen(name: str, mount: str, opening: str, hinges: str) -> list[tuple[str, Place]]:
    """Every hole for someone who faces the work with the hinges on that side."""
    other = {"left": "right", "right": "left"}
    knuckles = hinges if mount == "regular" else other[hinges]
    so = so_of(shipped(name), mount, opening, knuckles)
    assert so.hinges == hinges
    return [(hole.name, place) for hole, place in places(so).holes]


@pytest.mark.parametrize(("name", "mount", "opening"), EVERY_RANGE)
def test_every_hole_is_where_the_bare_numbers_put_it(name: str, mount: str, opening: str) -> None:
    file = raw(name)
    on = next(one for one in file["mounts"] if one["mount"] == mount)
    row = next(one for one in on["ranges"] if one["up_to"] == opening)
    expected = {}
    for part in ("body", "shoe"):
        for hole in file[part]["holes"]:
            along, down = inches(hole["along"]), inches(hole["down"])
            if (part, mount, hole.get("kind")) == ("shoe", "top-jamb", "extra"):
                continue  # for a face that steps under the shoe, and the leaf's does not
            # The body's holes are counted toward its valves, the shoe's toward the latch.
            if part == "body" and on["valves_toward"] == "hinge":
                along = -along
            # Down is farther on the leaf, nearer on the frame above it; a soffit is counted outward.
            if (part, mount) in (("shoe", "regular"), ("body", "top-jamb")):
                down = -down
            expected[f"{part} {hole['name']}"] = (
                inches(row[f"{part}_along"]) + along,
                inches(row[f"{part}_datum"]) + down,
            )
    step = Fraction(1, 32) if file["units"] == "inch" else Fraction(5, 254)
    # From the push side the pin is hidden: from the hinge edge, which on butts is 1/16 in nearer.
    hidden = mount != "regular" and on["along_from"] == "hinge pin centre"
    nearer = Fraction(1, 16) if hidden else Fraction(0)
    found = holes(sheet=name, mount=mount, hand="RH", hinge="butt", range=opening)
    assert [one["name"] for one in found] == list(expected)
    for one in found:
        along, across = expected[one["name"]]
        sign = -1 if across < 0 else 1
        assert abs(one["along"].base - (along - nearer)) <= step / 2
        assert abs(sign * one["across"].base - across) <= step / 2
        assert one["along_from"] == ("hinge edge" if mount != "regular" else on["along_from"])


@pytest.mark.parametrize(
    ("mount", "body", "shoe"),
    [
        ("regular", ("leaf", "down", "top of the leaf"), ("frame face", "up", "top of the leaf")),
        (
            "top-jamb",
            ("frame face", "up", "underside of the stop"),
            ("leaf", "down", "underside of the stop"),
        ),
        (
            "parallel",
            ("leaf", "down", "underside of the stop"),
            ("soffit", "out", "push face of the leaf"),
        ),
    ],
)
def test_each_mount_names_part_direction_and_datum(
    mount: str, body: tuple[str, ...], shoe: tuple[str, ...]
) -> None:
    for one in holes(**{**CORRIDOR, "mount": mount}, hand="LH"):
        expected = body if one["name"].startswith("body") else shoe
        assert (one["part"], one["direction"], one["across_from"]) == expected
    assert answer("body-part", mount=mount).value == body[0].removesuffix(" face")
    assert answer("shoe-part", mount=mount).value == shoe[0].removesuffix(" face")


def test_a_hole_as_json() -> None:
    """A corner of the pattern by hand: pinion at 7 in, 2 3/4 in toward the valves at the hinge side."""
    found = json.loads(json.dumps(result_json(answer("holes", **CORRIDOR, hand="LHR").value)))
    first = found["holes"][0]
    assert first["name"] == "body valve end upper"
    assert first["along"] == {"magnitude": 4.25, "unit": "in", "text": "4 1/4 in"}
    assert first["across"]["text"] == "3/4 in"
    assert first["drill"] == "No. 7 to tap 1/4-20 in metal"
    assert found["notes"]


@pytest.mark.parametrize(("name", "mount", "opening"), EVERY_RANGE)
def test_the_two_hands_are_mirror_images(name: str, mount: str, opening: str) -> None:
    left, right = (dict(seen(name, mount, opening, side)) for side in ("left", "right"))
    assert {hole: (-x, y) for hole, (x, y) in left.items()} == right
    numbers = [
        [(one["name"], one["along"], one["across"]) for one in holes(**given, hand=hand)]
        for given in [{"sheet": name, "mount": mount, "hinge": "butt", "range": opening}]
        for hand in ("LH", "RH", "LHR", "RHR")
    ]
    assert numbers.count(numbers[0]) == 4


@pytest.mark.parametrize(("name", "mount", "opening"), EVERY_RANGE)
def test_the_body_turned_end_for_end_covers_the_mirror_image(
    name: str, mount: str, opening: str
) -> None:
    """A real body is not mirrored but turned by half a turn: its holes must fall on the mirrored marks."""
    left, right = (seen(name, mount, opening, side) for side in ("left", "right"))
    centre_x, centre_y = places(so_of(shipped(name), mount, opening, "left")).body
    centre_x = abs(centre_x)
    turned = {
        (-centre_x - (x - centre_x), centre_y - (y - centre_y))
        for hole, (x, y) in left
        if hole.startswith("body")
    }
    assert turned == {place for hole, place in right if hole.startswith("body")}


@pytest.mark.parametrize(
    ("mount", "hand", "side", "hinges", "runs"),
    # LH and RHR are one leaf seen from its two sides, so are RH and LHR.
    [
        ("regular", "LH", "pull", "right", "left"),
        ("regular", "RHR", "pull", "right", "left"),
        ("regular", "RH", "pull", "left", "right"),
        ("regular", "LHR", "pull", "left", "right"),
        ("parallel", "LH", "push", "left", "right"),
        ("parallel", "RHR", "push", "left", "right"),
        ("top-jamb", "RH", "push", "right", "left"),
        ("top-jamb", "LHR", "push", "right", "left"),
    ],
)
def test_the_fitter_is_told_where_to_stand_and_which_way_to_measure(
    mount: str, hand: str, side: str, hinges: str, runs: str
) -> None:
    told = " ".join(answer("holes", **{**CORRIDOR, "mount": mount}, hand=hand).working)
    assert f"stand on the {side} side, hinges on your {hinges}" in told
    assert f"runs to your {runs}," in told
    assert answer("hinges-in-front", mount=mount, hand=hand).value == hinges
    assert hinges_in_front(mount, knuckles_of_hand(hand)) == hinges


def test_a_hand_that_contradicts_the_knuckles_is_refused() -> None:
    with pytest.raises(BadInput, match="hand=LH shows the knuckles on the right"):
        answer("holes", **CORRIDOR, hand="LH", knuckles="left")
    with pytest.raises(BadInput, match="knuckles=left or right as seen from the pull side"):
        answer("holes", **CORRIDOR)


@pytest.mark.parametrize(
    ("hinge", "nearer"),
    # Pin centre to hinge edge: 1/16 in on a butt, over 2 in on a swing-clear hinge (common practice).
    [("butt", "1/16 in"), ("continuous", "5/32 in"), ("swing-clear", "2 3/16 in")],
)
def test_the_hinge_edge_is_nearer_than_the_pin(hinge: str, nearer: str) -> None:
    asked = {**CORRIDOR, "hinge": hinge, "hand": "RH", "special": "yes"}
    from_pin, from_edge = holes(**asked), holes(**asked, along_from="edge")
    for pin, edge in zip(from_pin, from_edge, strict=True):
        assert pin["along"].base - edge["along"].base == inches(nearer)
        assert (pin["along_from"], edge["along_from"]) == ("hinge pin centre", "hinge edge")


def test_the_stop_is_lower_than_the_top_of_the_leaf_by_the_overlap() -> None:
    asked = {**CORRIDOR, "hand": "RH", "overlap": "1/2 in"}
    from_top, from_stop = holes(**asked), holes(**asked, datum="stop")
    for top, stop in zip(from_top, from_stop, strict=True):
        down = top["direction"] == "down"
        assert top["across"].base - stop["across"].base == Fraction(1, 2) * (1 if down else -1)
    with pytest.raises(NoAnswer, match="measure how far the top of the leaf is above"):
        answer("holes", **CORRIDOR, hand="RH", datum="stop")


@pytest.mark.parametrize("hinge", HINGES)
def test_measuring_from_the_other_datums_and_back_changes_nothing(hinge: str) -> None:
    edge, overlap = pivot_offset(hinge).edge, Fraction(9, 16)
    for name, mount, opening in EVERY_RANGE:
        on = shipped(name).mount(mount)
        row = shipped(name).range_for(mount, parse(opening))
        laid = lines_of(mount, on.along_from, on.datum, numbers_of(row))
        there = measured_from(laid, "hinge edge", "top of the leaf", edge, overlap)
        assert measured_from(there, laid.along_from, laid.datum, edge, overlap) == laid


@pytest.mark.parametrize(
    ("exact", "system", "given"),
    [
        ("7 1/64 in", "inch", "7 1/32 in"),  # half way goes up
        ("7 1/100 in", "inch", "7 in"),
        ("189 mm", "inch", "7 7/16 in"),  # 7.441 in
        ("4 1/4 in", "metric", "108 mm"),  # 107.95 mm
        ("10 5/8 in", "metric", "270 mm"),  # 269.875 mm
        ("13/16 in", "metric", "20.5 mm"),  # 20.6375 mm
    ],
)
def test_marks_are_rounded_to_a_thirty_second_or_half_a_millimetre(
    exact: str, system: str, given: str
) -> None:
    assert to_mark(inches(exact), system) == parse(given)


def test_rounding_is_done_once_and_last() -> None:
    """In inches a 130 mm offset and a 176 mm line are rounded together, 306 mm, not one by one."""
    laid = holes(
        sheet="generic-b", mount="regular", hinge="butt", range="130 deg", hand="RH", units="inch"
    )
    far = next(one for one in laid if one["name"] == "body valve end upper")
    assert far["along"] == parse("12 1/16 in")  # 306 mm is 12.047 in
    exact = so_of(shipped("generic-b"), "regular", "130 deg").holes[0].along
    assert abs(far["along"].base - exact) <= Fraction(1, 64)


def test_distances_and_what_is_too_near() -> None:
    asked = {**CORRIDOR, "hand": "RH", "width": "36 in", "glass": "4 in", "top_rail": "4 in"}
    lower = next(one for one in holes(**asked) if one["name"] == "body far end lower")
    # By hand: 11 3/4 in from the pin, 11 11/16 in from the edge; 2 1/4 in down.
    assert lower["clear"]["the latch edge of the leaf"] == parse("24 5/16 in")
    assert lower["clear"]["the glass"] == parse("1 3/4 in")
    assert lower["clear"]["the lower edge of the top rail"] == parse("1 3/4 in")
    assert "too" not in cautions(**asked)
    # With glass 2 in down the body goes on its drop plate: 2 1/4 in down, its lower holes 3/4 in above that.
    told = cautions(**asked | {"glass": "2 in"})
    assert "drop plate valve end lower is only 1/2 in from the glass; keep 1 in" in told
    assert "drill the holes of the drop plate, not those of the body" in told


def test_how_far_the_nearest_hole_is_from_each_thing_is_said_where_it_is_far_enough() -> None:
    asked = {**CORRIDOR, "hand": "RH", "glass": "5 in", "reinforced_from": "3 in"}
    (said,) = [line for line in answer("holes", **asked).working if line.startswith("Nearest")]
    # By hand: the lowest hole is 2 1/4 in down; the first is 4 1/4 in along from the pin.
    assert "2 3/4 in from the glass (body valve end lower)" in said
    assert "1 1/4 in from the start of the reinforcement (body valve end upper)" in said
    assert "3/4 in from the top of the leaf (body valve end upper)" in said
    (said,) = [
        line
        for line in answer("holes", **{**asked, "glass": "2 in"}).working
        if line.startswith("Nearest")
    ]
    assert "glass" not in said, "what is too near is told as a caution"


def test_what_the_maker_has_beside_the_closer_is_told_for_the_mount() -> None:
    regular = answer("holes", **CORRIDOR, hand="RH").working
    parallel = answer("holes", **{**CORRIDOR, "mount": "parallel"}, hand="RH").working
    assert any(line.startswith("Drop plate, by the sheet: where the top rail") for line in regular)
    assert not any("blade stop" in line for line in regular)
    assert any(line.startswith("Packer for a blade stop, by the sheet: ") for line in parallel)


def test_other_hardware_and_reinforcement_along_the_door() -> None:
    told = cautions(
        **CORRIDOR,
        hand="RH",
        reinforced_from="3 in",
        reinforced_to="11 in",
        hardware_from="11 in",
        hardware_to="20 in",
    )
    assert "body far end upper lies 3/4 in past the end of the reinforcement" in told
    assert "lies under the other hardware" in told
    assert "The body would cover part of the other hardware" in told
    with pytest.raises(
        BadInput, match="hardware_from must be nearer to the hinge than hardware_to"
    ):
        answer("holes", **CORRIDOR, hand="RH", hardware_from="9 in", hardware_to="8 in")


def test_a_face_or_soffit_that_runs_out() -> None:
    top_jamb = {**CORRIDOR, "mount": "top-jamb", "hand": "RH"}
    with pytest.raises(
        NoAnswer, match=r"[Tt]he frame's face is too low.*template packed with the drop"
    ):
        holes(**{**top_jamb, "frame_face": "2 in"})
    assert "upper edge" not in cautions(**top_jamb, frame_face="4 in")
    parallel = {**CORRIDOR, "mount": "parallel", "hand": "RH"}
    # By hand: the shoe is 3 1/4 in out, and the soffit plate's holes 1 1/4 in nearer to the leaf, at 2 in.
    told = cautions(**parallel, soffit_width="2 1/4 in")
    assert "soffit plate hinge side is only 1/4 in from the far edge of the soffit" in told
    assert "soffit" not in cautions(**parallel, soffit_width="5 in")


def test_the_frames_face_begins_above_the_leaf_on_the_pull_side() -> None:
    """Measured from the stop, with the leaf 1/2 in above it and the face 1/8 in above the leaf: a shoe
    3/4 in up is 1/8 in from the face's lower edge, and past it where the leaf may be 3/4 in above."""
    sheet = shipped("generic-a")
    by_stop = replace(sheet.mounts[0], datum="underside of the stop")
    door = Opening("regular", "left", hinge="butt", angle=parse("100 deg"))
    by_the_stop = ("hinge pin centre", "underside of the stop")
    so = set_out(door, replace(sheet, mounts=(by_stop,), accessories=()), lines=by_the_stop)
    shoe = next(one for one in so.holes if one.name == "shoe hinge side")
    laid = so.check()
    edge = pivot_offset("butt").edge
    for overlap, apart in ((Fraction(1, 2), Fraction(1, 8)), (None, Fraction(-1, 8))):
        near = distances(laid, shoe, Surroundings(edge, overlap=overlap, frame_face=Fraction(2)))
        lower, upper = near
        assert lower.distance == apart
        assert upper.distance == Fraction(2) + Fraction(1, 8) + (overlap or 0) - Fraction(3, 4)


def test_an_unknown_overlap_tells_a_hole_nearer_never_farther() -> None:
    parallel = {**CORRIDOR, "mount": "parallel", "hand": "RH", "glass": "5 in"}
    for known in ("1/8 in", "1/2 in", "3/4 in"):
        for guessed, told in zip(holes(**parallel), holes(**parallel, overlap=known), strict=True):
            for what, distance in guessed["clear"].items():
                assert distance <= told["clear"][what]


def test_a_closer_that_hangs_too_low() -> None:
    """2010 ADA Standards 307.4, exception: a closer may hang to 78 in above the floor."""
    parallel = {**CORRIDOR, "mount": "parallel", "hand": "RH", "overlap": "1/2 in"}
    assert "hangs to 75 1/4 in" in cautions(**parallel, height="79 in")
    assert "hangs to 77 15/16 in" in cautions(**parallel, height="81 11/16 in")
    assert "hangs" not in cautions(**parallel, height="81 3/4 in")
    assert "hangs" not in cautions(**parallel, height="83 in")


def test_a_body_past_the_edge_of_a_swing_clear_leaf() -> None:
    """The sheet's 5 1/2 in from the pin is 3 5/16 in from the edge, and the body reaches 3 1/2 in."""
    told = cautions(
        sheet="generic-a",
        mount="regular",
        hinge="swing-clear",
        range="140 deg",
        hand="RH",
        special="yes",
    )
    assert "would stand 3/16 in past the hinge edge of the leaf" in told


def test_a_sixteenth_costs_a_parallel_arm_most() -> None:
    costs = {}
    for mount in ("regular", "top-jamb", "parallel"):
        found = answer("sixteenth", sheet="generic-a", mount=mount, hinge="butt", range="130 deg")
        assert isinstance(found.value, float)
        costs[mount] = found.value
    assert costs["parallel"] > 2 * max(costs["regular"], costs["top-jamb"])


@pytest.mark.parametrize("hinge", ["swing-clear", "offset-pivot", "centre-pivot"])
def test_a_hinge_that_turns_elsewhere_needs_the_special_template(hinge: str) -> None:
    with pytest.raises(NoAnswer) as refused:
        answer("holes", **{**CORRIDOR, "hinge": hinge}, hand="RH")
    told = str(refused.value)
    assert "get the maker's special template" in told
    assert "a standard template laid to the hinge edge puts body and shoe" in told
    assert "power at the latch" in told
    assert "lock" in told
    special = answer("holes", **{**CORRIDOR, "hinge": hinge}, hand="RH", special="yes")
    assert "special template" not in " ".join((*special.working, *special.cautions))


def test_on_swing_clear_hinges_the_standard_template_reaches_less_far() -> None:
    """The standard template puts all of it 2 1/8 in farther from the pivot: 2 3/16 less 1/16."""
    asked = {"sheet": "generic-a", "mount": "regular", "range": "130 deg"}
    found = answer("template-suits", **asked, hinge="swing-clear")
    assert found.value is False
    assert "2 1/8 in farther from the pivot" in found.working[0]
    assert "too soon for an opening of 130 deg; on butts it locks at 138 deg" in found.working[0]
    assert answer("template-suits", **asked, hinge="continuous").value is True


def test_a_sheet_without_holes_or_arm_says_so() -> None:
    sheet = harbour_closer()
    with pytest.raises(NoAnswer, match="gives no holes: copy them from the maker's sheet"):
        so_of(sheet, "regular", "90 deg").drilled()


@pytest.mark.parametrize(
    ("leaf", "thread", "drill"),
    # Tap drills at 75 percent: the shops' tables; a bolt's hole 1/32 in over it; M6 6.6 mm (ISO 273).
    [
        (Material("steel", None, True), "1/4-20", "No. 7 to tap 1/4-20"),
        (Material("steel", None, True), "M6x1", "5 mm to tap M6x1"),
        (Material("wood", "particleboard"), "1/4-20", "9/32 in right through"),
        (Material("wood", "particleboard"), "M6x1", "6.6 mm right through"),
        (Material("wood", "solid-wood"), "1/4-20", "7/64 in for wood screw No. 14"),
        (Material(), "1/4-20", "No. 7 to tap 1/4-20 in metal"),
        (Material(), "the maker's own", "for the maker's own"),
    ],
)
def test_what_to_drill_with(leaf: Material, thread: str, drill: str) -> None:
    door = Opening("regular", thickness=Fraction(7, 4), leaf=leaf)
    assert hole_words(fixing_for(door, LEAF, Screws(thread), "inch")) == drill


def test_no_distance_depends_on_the_unit_it_is_told_in() -> None:
    for inch, metric in zip(
        holes(**CORRIDOR, hand="RH", units="inch"),
        holes(**CORRIDOR, hand="RH", units="metric"),
        strict=True,
    ):
        assert abs(inch["along"].base - metric["along"].base) <= Quantity(Fraction(1), "mm").base


@pytest.mark.parametrize(
    ("written", "meant"),
    [("101-130", "130"), ("101 to 130 deg", "130 deg"), ("131–180", "180"), ("95 deg", "95 deg")],
)
def test_a_range_copied_whole_from_a_sheet_means_its_wider_end(written: str, meant: str) -> None:
    assert widest(written) == meant
