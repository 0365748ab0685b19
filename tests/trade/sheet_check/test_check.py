"""What a slip of the pen in a shipped sheet is told: the sentence, and the number it points at."""

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from guide.measures import Quantity, parse
from guide.measures.parsing import parse_signed
from guide.trade.sheet.parts import (
    Hole,
    OpeningRange,
    PackedScrew,
    SheetArm,
    SheetBody,
    SheetMount,
)
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check import check_sheet
from tests.trade.arm.test_linkage import shipped
from tests.trade.harbour_closer import harbour_closer


def with_mount(sheet: Sheet, name: str, change: Callable[[SheetMount], SheetMount]) -> Sheet:
    return replace(
        sheet, mounts=tuple(change(one) if one.mount == name else one for one in sheet.mounts)
    )


def with_range(sheet: Sheet, name: str, place: int, **measures: str) -> Sheet:
    def changed(mount: SheetMount) -> SheetMount:
        ranges: list[OpeningRange] = list(mount.ranges)
        values: dict[str, Quantity] = {key: parse(text) for key, text in measures.items()}
        ranges[place] = replace(ranges[place], **values)
        return replace(mount, ranges=tuple(ranges))

    return with_mount(sheet, name, changed)


def with_arm(sheet: Sheet, name: str, change: Callable[[SheetArm], SheetArm]) -> Sheet:
    def changed(mount: SheetMount) -> SheetMount:
        assert mount.arm is not None
        return replace(mount, arm=change(mount.arm))

    return with_mount(sheet, name, changed)


def with_body(sheet: Sheet, change: Callable[[SheetBody], SheetBody]) -> Sheet:
    assert sheet.body is not None
    return replace(sheet, body=change(sheet.body))


def with_hole(sheet: Sheet, name: str, along: str = "", down: str = "") -> Sheet:
    """One hole of body or shoe, moved."""

    def moved_one(hole: Hole) -> Hole:
        return replace(
            hole,
            along=parse_signed(along, "length") if along else hole.along,
            down=parse_signed(down, "length") if down else hole.down,
        )

    def moved(holes: tuple[Hole, ...]) -> tuple[Hole, ...]:
        return tuple(moved_one(one) if one.name == name else one for one in holes)

    assert sheet.body is not None
    assert sheet.shoe is not None
    body = replace(sheet.body, holes=moved(sheet.body.holes))
    return replace(sheet, body=body, shoe=replace(sheet.shoe, holes=moved(sheet.shoe.holes)))


@pytest.mark.parametrize("name", ["generic-a", "generic-b"])
def test_nothing_is_said_against_a_shipped_sheet(name: str) -> None:
    assert check_sheet(shipped(name)) == ()


def test_a_sheet_without_arms_is_checked_for_the_rest() -> None:
    assert all(one.advice for one in check_sheet(harbour_closer()))
    assert {one.code for one in check_sheet(harbour_closer())} == {
        "datum-hidden",
        "along-from-differs",
    }


A, B = shipped("generic-a"), shipped("generic-b")
assert A.shoe is not None
assert B.shoe is not None


def with_screw(sheet: Sheet, name: str, **values: Any) -> Sheet:
    return replace(
        sheet,
        screws=tuple(replace(one, **values) if one.name == name else one for one in sheet.screws),
    )


def with_packed(sheet: Sheet, kind: str, **values: Any) -> Sheet:
    """One kind of the screws packed for the body, changed."""
    assert sheet.body is not None
    packed = tuple(replace(one, **values) if one.kind == kind else one for one in sheet.body.packed)
    return replace(sheet, body=replace(sheet.body, packed=packed))


def with_row(sheet: Sheet, place: int, turns: Fraction) -> Sheet:
    """One line of the table of spring turns, changed; the others left out, since turns must rise."""
    return replace(sheet, spring_settings=(replace(sheet.spring_settings[place], turns=turns),))


def with_accessory(sheet: Sheet, place: int, **values: Any) -> Sheet:
    parts = list(sheet.accessories)
    parts[place] = replace(parts[place], **values)
    return replace(sheet, accessories=tuple(parts))


def moved(holes: tuple[Hole, ...], place: int, along: str) -> tuple[Hole, ...]:
    changed = replace(holes[place], along=parse_signed(along, "length"))
    return (*holes[:place], changed, *holes[place + 1 :])


SLIPS: list[tuple[str, Sheet, str, str, str]] = [
    # what was slipped, the sheet, and of the finding: code, last key of its path, words
    (
        "12 in written 21 in",
        with_range(A, "top-jamb", 0, shoe_along="21 in"),
        "arm-rest",
        "shoe_along",
        "opening to 100 deg: .* does not rest .*; look again at the shoe's distance along, 21 in",
    ),
    (
        "body 7 in written 7 1/2 in",
        with_range(A, "regular", 1, body_along="7 1/2 in"),
        "arm-rest",
        "body_along",
        "look again at the body's distance along, 7 1/2 in",
    ),
    (
        "forearm 8 1/2 in written 2 1/2 in",
        with_range(A, "regular", 1, forearm="2 1/2 in"),
        "arm-apart",
        "forearm",
        "the arm cannot be put together; look again at the forearm",
    ),
    (
        "shoe out 3 1/4 in written 1/4 in",
        with_range(A, "parallel", 1, shoe_datum="1/4 in"),
        "datum-differs",
        "shoe_datum",
        "shoe_datum is 1/4 in and elsewhere on this mount 3 1/4 in",
    ),
    (
        "main arm 9 1/2 in written 9 in",
        with_arm(A, "regular", lambda arm: replace(arm, main=parse("9 in"))),
        "arm-rest",
        "main",
        "look again at the main arm, 9 in",
    ),
    (
        "shoe out 3/4 in written 1 3/4 in",
        with_arm(A, "regular", lambda arm: replace(arm, shoe_out=parse("1 3/4 in"))),
        "arm-rest",
        "shoe_out",
        "look again at the shoe's distance out, 1 3/4 in",
    ),
    (
        "pinion out 29 mm written 92 mm",
        with_body(B, lambda body: replace(body, pinion_out=parse("92 mm"))),
        "arm-rest",
        "pinion_out",
        "look again at the pinion's distance out, 92 mm",
    ),
    (
        "opening 130 deg written 160 deg",
        with_range(B, "regular", 1, up_to="160 deg"),
        "range-past-reach",
        "up_to",
        "the arm would be near its lock from 131 deg",
    ),
    (
        "opening 140 deg written 180 deg",
        with_range(A, "regular", 2, up_to="180 deg"),
        "range-past-reach",
        "up_to",
        "the body meets the wall from 144 deg",
    ),
    (
        "opening 100 deg written 10 deg",
        with_range(A, "top-jamb", 0, up_to="10 deg"),
        "range-narrow",
        "up_to",
        "ranges begin at a right angle",
    ),
    (
        "rod 12 1/4 in written 8 1/4 in",
        with_arm(
            A, "regular", lambda arm: replace(arm, forearm=(parse("8 in"), parse("8 1/4 in")))
        ),
        "rod-short",
        "forearm",
        "outside the rod's 8 in to 8 1/4 in",
    ),
    (
        "body 202 mm written 22 mm",
        with_range(B, "parallel", 1, body_along="22 mm"),
        "hole-off-leaf",
        "body_along",
        "the body would stand past the hinge edge of the leaf",
    ),
    (
        "datum 1 1/2 in written 1/2 in",
        with_range(A, "regular", 0, body_datum="1/2 in"),
        "body-datum",
        "body_datum",
        "the body would lie past the top of the leaf",
    ),
    (
        "hole 2 3/4 in written 2 1/4 in",
        with_hole(A, "valve end lower", along="2 1/4 in"),
        "mirror",
        "along",
        "Turned over for the other hand, the body has no hole for valve end lower",
    ),
    (
        "hole 3/4 in written 3/8 in",
        with_hole(A, "far end upper", down="-3/8 in"),
        "mirror",
        "down",
        "the body has no hole for far end upper",
    ),
    (
        "hole 70 mm written 7 mm",
        with_hole(B, "far end middle", along="-7 mm"),
        "hole-out-of-line",
        "along",
        "The hole far end middle is in line with no other",
    ),
    (
        "hole 130 mm written 310 mm",
        with_hole(B, "valve end upper", along="310 mm"),
        "hole-off-body",
        "along",
        "is not under the body",
    ),
    (
        "shoe hole 32 mm written 23 mm",
        with_hole(B, "latch side", along="23 mm"),
        "mirror",
        "along",
        "For the other hand the shoe has no hole for latch side",
    ),
    (
        "valves latch written hinge",
        with_mount(A, "parallel", lambda mount: replace(mount, valves_toward="hinge")),
        "body-facing",
        "valves_toward",
        "the pinion would turn against its spring",
    ),
    (
        "preset 15 deg written 1 deg",
        with_arm(A, "parallel", lambda arm: replace(arm, preset_turn=parse("1 deg"))),
        "preset-differs",
        "preset_turn",
        "preset_turn says 1 deg",
    ),
    (
        "sizes 1 to 6 written 1 to 5",
        replace(A, sizes=(1, 5)),
        "spring-table",
        "turns",
        "15 turns from EN size 3, at 5 turns a size, is past the sizes 1 to 5",
    ),
    (
        "turns 12 written 2",
        with_screw(B, "spring", turns=Fraction(2)),
        "spring-turns",
        "turns",
        "From EN size 2 to 5 at 4 turns a size the spring screw needs 12 turns, and it has 2",
    ),
    (
        "turns 25 written 5",
        replace(with_screw(A, "spring", turns=Fraction(5)), turns_per_size=None),
        "spring-table",
        "turns",
        "The table of spring turns needs 25 turns of the screw, and it has 5",
    ),
    (
        "turns from the factory 8 written 80",
        with_row(B, 3, turns=Fraction(80)),
        "spring-table",
        "turns",
        "size 5 is 8 turns away and not 80",
    ),
    (
        "turns from the factory 5 written 4",
        with_row(A, 2, turns=Fraction(4)),
        "spring-table",
        "turns",
        "4 turns do not make whole sizes at 5 turns a size",
    ),
    (
        "accessible -10 written 10",
        replace(
            A,
            spring_settings=(
                *A.spring_settings[:5],
                replace(A.spring_settings[5], turns=Fraction(10)),
            ),
        ),
        "spring-table",
        "turns",
        "A door that must open with little force has the weakest spring of the table",
    ),
    (
        "sizes 2 to 5 written 2 to 6",
        replace(B, sizes=(2, 6)),
        "spring-table",
        "sizes",
        "goes from EN size 2 to 5, and the closer from 2 to 6",
    ),
    (
        "units inch written metric",
        replace(A, units="metric"),
        "units-differ",
        "units",
        "The sheet says metric, and .* lengths are not in mm, cm or m",
    ),
    (
        "a number in mm among inches",
        with_range(A, "regular", 0, body_datum="38 mm"),
        "units-differ",
        "body_datum",
        "The sheet says inch, and this is 38 mm",
    ),
    (
        "top jamb's datum stop written leaf",
        with_mount(A, "top-jamb", lambda mount: replace(mount, datum="top of the leaf")),
        "datum-hidden",
        "datum",
        "Top jamb: with the door closed the top of the leaf is out of sight",
    ),
    (
        "parallel arm's datum stop written leaf",
        with_mount(B, "parallel", lambda mount: replace(mount, datum="top of the leaf")),
        "datum-hidden",
        "datum",
        "nothing can be laid or measured from there; look again at datum, usually the underside",
    ),
    (
        "top jamb's hinge pin centre written hinge edge",
        with_mount(A, "top-jamb", lambda mount: replace(mount, along_from="hinge edge")),
        "along-from-differs",
        "along_from",
        "Top jamb: the distances along are from the hinge edge, and on the other mounts not",
    ),
    (
        "latch valve clockwise written anticlockwise",
        with_screw(A, "latch", slower="anticlockwise"),
        "valve-differs",
        "slower",
        "The latch valve is slower anticlockwise, and the others the other way",
    ),
    (
        "shoe thread 1/4-20 written 1/4-28",
        replace(A, shoe=replace(A.shoe, thread="1/4-28", packed=())),
        "thread-differs",
        "thread",
        "The shoe's screws are 1/4-28 and the body's 1/4-20, which do not go into one tapped hole",
    ),
    (
        "packed M6x1 written M8x1",
        replace(B, shoe=replace(B.shoe, packed=(PackedScrew("machine", "M8x1"),))),
        "thread-differs",
        "size",
        "The shoe's machine screws are M8x1, and its thread is M6x1",
    ),
    (
        "wood screw No. 14 written No. 4",
        with_packed(A, "wood", size="No. 4"),
        "screw-unlikely",
        "size",
        "The body's wood screws are No. 4; a closer's are No. 8 to No. 18",
    ),
    (
        "wood screw 60 mm written 6 mm",
        with_packed(B, "wood", length=parse("6 mm")),
        "screw-unlikely",
        "length",
        "The body's wood screws are 6 mm long; look again at length, 6 mm",
    ),
    (
        "hole of the bolt's sleeve 10 mm written 1 mm",
        with_packed(B, "through-bolt", hole=parse("1 mm")),
        "screw-unlikely",
        "hole",
        "The hole for the body's through-bolt screws, 1 mm, does not suit M6x1",
    ),
    (
        "leaf 30 in written 3 in",
        replace(
            A,
            spring_settings=(
                replace(A.spring_settings[0], max_width=parse("3 in")),
                *A.spring_settings[1:],
            ),
        ),
        "spring-table",
        "max_width",
        "The table of spring turns has a line for a leaf to 3 in",
    ),
    (
        "bracket's thread M5x0.8 written M5x08",
        with_accessory(B, 1, thread="M5x08"),
        "thread-unknown",
        "thread",
        "The coordinator bracket's screws are M5x08",
    ),
    (
        "columns of body and shoe changed over",
        with_range(A, "top-jamb", 1, body_along="10 5/8 in", shoe_along="6 1/4 in"),
        "changed-places",
        "body_along",
        "Papers have the two columns in either order",
    ),
    (
        "shoe's hole toward the hinge copied as toward the latch",
        replace(
            A,
            shoe=replace(A.shoe, holes=moved(A.shoe.holes, 0, along="1 1/4 in"))
            if A.shoe
            else None,
        ),
        "hole-side",
        "along",
        r"The shoe's hinge side \(1 1/4 in\) is probably on the other side, along from the pivot",
    ),
    (
        "body's end 3 1/2 in written 3 5/8 in",
        with_body(A, lambda body: replace(body, valve_end=parse("3 5/8 in"))),
        "body-ends",
        "other_end",
        "The body reaches 7/8 in past its holes at the valve end and 3/4 in at the other end",
    ),
    (
        "plate's hole 2 1/4 in written 2 1/2 in",
        with_accessory(A, 0, holes=moved(A.accessories[0].holes, 0, along="2 1/2 in")),
        "hole-out-of-line",
        "along",
        "The hole valve end upper of the drop plate is in line with no other",
    ),
    (
        "bracket's hole 45 mm written 54 mm",
        with_accessory(B, 1, holes=moved(B.accessories[1].holes, 1, along="54 mm")),
        "mirror",
        "along",
        "For the other hand the coordinator bracket has no hole for latch side",
    ),
    (
        "drop 20 mm written 200 mm",
        with_accessory(B, 0, shift_down=parse("200 mm")),
        "accessory-far",
        "shift_down",
        "The drop plate would bring the body 200 mm away",
    ),
    (
        "chart 950 mm written 1020 mm",
        replace(B, chart=(B.chart[0], replace(B.chart[1], max_width=parse("1020 mm")))),
        "chart-width",
        "max_width",
        "EN size 3 for leaves to 1020 mm, where EN 1154 has 950 mm or 850 mm",
    ),
    (
        "chart 950 mm written 905 mm on one mount",
        replace(
            B,
            chart=tuple(
                replace(row, max_width=parse("905 mm")) if place == 1 else row
                for place, row in enumerate(B.chart)
            ),
        ),
        "chart-width",
        "max_width",
        "The chart has 905 mm once and 950 mm more often",
    ),
    (
        "rod 200 mm written 20 mm",
        with_arm(B, "top-jamb", lambda arm: replace(arm, forearm=(parse("20 mm"), arm.forearm[1]))),
        "rod-far",
        "forearm",
        "the rod goes from 20 mm to 310 mm, far past what any range sets it to",
    ),
    (
        "thread 1/4-20 written 1/4-2",
        with_body(A, lambda body: replace(body, thread="1/4-2")),
        "thread-unknown",
        "thread",
        "not a standard thread",
    ),
]


@pytest.mark.parametrize(
    ("sheet", "code", "key", "says"), [row[1:] for row in SLIPS], ids=[row[0] for row in SLIPS]
)
def test_a_slip_is_found_and_its_number_named(sheet: Sheet, code: str, key: str, says: str) -> None:
    found = [one for one in check_sheet(sheet) if one.code == code]
    assert any(one.path[-1] == key and re.search(says, one.message) for one in found), found


def test_power_that_falls_through_the_floor() -> None:
    """A pinion by the pin: with a square forearm the ratio is 8 over 7 1/2, where it should be over 2."""
    weak = A
    for place in range(3):
        weak = with_range(weak, "regular", place, body_along="1/2 in", shoe_along="8 in")
    floor = [one for one in check_sheet(weak) if one.code == "power-floor"]
    assert "too little for any leaf; look again at both places along" in floor[0].message


def test_one_range_unlike_its_neighbours() -> None:
    """Body and shoe both 2 in too near the hinge: the arm still rests, with less power than the others."""
    odd = with_range(A, "regular", 2, body_along="3 1/2 in", shoe_along="7 1/2 in")
    found = [one for one in check_sheet(odd) if one.code == "power-unlike"]
    assert [one.path for one in found] == [("mounts", 0, "ranges", 2, "body_along")]
    assert "less power than is usual on this mount" in found[0].message


def test_a_screw_with_turns_to_spare_is_as_it_should_be() -> None:
    """A spring of 2 1/2 turns between its ends whose screw has 12 in all."""
    spare = replace(
        with_screw(B, "spring", turns=Fraction(12)),
        turns_per_size=Fraction(1, 2),
        spring_settings=(),
    )
    assert check_sheet(spare) == ()


def test_turns_are_told_as_people_write_them() -> None:
    short = replace(with_screw(B, "spring", turns=Fraction(5, 2)), turns_per_size=Fraction(3, 2))
    told = next(one.message for one in check_sheet(short) if one.code == "spring-turns")
    assert "at 1 1/2 turns a size the spring screw needs 4 1/2 turns, and it has 2 1/2;" in told


def test_a_body_plainly_longer_at_one_end_is_not_a_slip() -> None:
    longer = with_body(A, lambda body: replace(body, valve_end=parse("4 1/8 in")))
    assert "body-ends" not in {one.code for one in check_sheet(longer)}


def test_a_plate_for_the_shoe_may_have_a_hole_in_its_middle_line() -> None:
    bracket = A.accessories[2]
    assert [hole.name for hole in bracket.holes] == ["hinge side", "latch side", "tail"]
    assert check_sheet(replace(A, accessories=(bracket,))) == ()
