"""What a slip of the pen in a shipped sheet is told: the sentence, and the number it points at."""

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from guide.measures import Quantity, parse
from guide.measures.parsing import parse_signed
from guide.trade.sheet.parts import Hole, OpeningRange, SheetArm, SheetBody, SheetMount
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
    assert check_sheet(harbour_closer()) == ()


A, B = shipped("generic-a"), shipped("generic-b")

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
        "spring-turns",
        "turns",
        "needs 20 turns, and it has 25",
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
