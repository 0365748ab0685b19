"""Body, shoe and arm on a closer's sheet: what they refuse, and the linkage they make."""

import json
import math
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from guide.measures import Quantity, parse
from guide.measures.parsing import parse_signed
from guide.trade.answer import NoAnswer
from guide.trade.arm.geometry import Arm
from guide.trade.arm.sheet_geometry import Opening, resting_elbow, resting_forearm, sheet_geometry
from guide.trade.door.hinges import HINGES, pivot_offset
from guide.trade.sheet.parts import RESTS, Hole, SheetArm, SheetBody
from guide.trade.sheet.sheet import Sheet
from tests.trade.arm.test_linkage import shipped

ARM = SheetArm(
    main=parse("10 in"),
    forearm=(parse("8 in"), parse("11 in")),
    rests="forearm square to the frame",
    shoe_out=parse("7/8 in"),
)
HOLE = Hole("valve end upper", parse("3 in"), parse_signed("-3/4 in", "length"))
BODY = SheetBody(
    parse("1 1/4 in"), parse("4 in"), parse("6 in"), parse("2 1/4 in"), parse("2 1/2 in"),
    "1/4-20", (HOLE,),
)  # fmt: skip


def ranges(sheet: Sheet) -> list[tuple[str, int]]:
    return [(mount.mount, place) for mount in sheet.mounts for place in range(len(mount.ranges))]


SHIPPED = [(name, *one) for name in ("generic-a", "generic-b") for one in ranges(shipped(name))]


@pytest.mark.parametrize("name", ["generic-a", "generic-b"])
def test_a_journal_keeps_the_whole_sheet(name: str) -> None:
    sheet = shipped(name)
    back = Sheet.from_json(json.loads(json.dumps(sheet.to_json())))
    assert back == sheet
    assert back.body is not None
    assert back.body.holes[0].down.base < 0


@pytest.mark.parametrize(("name", "mount", "place"), SHIPPED)
def test_every_shipped_arm_rests_as_its_sheet_says(name: str, mount: str, place: int) -> None:
    sheet = shipped(name)
    found = sheet.mount(mount)
    assert found.arm is not None
    geometry = sheet_geometry(sheet, mount, found.ranges[place])
    resting = resting_forearm(geometry, found.arm.rests)
    assert resting is not None
    step = parse("1/16 in") if sheet.units == "inch" else parse("1 mm")
    assert abs(geometry.forearm - resting) <= float(step.base) / 2
    at = Arm(geometry).at(0)
    assert at is not None
    elbow = resting_elbow(geometry, found.arm.rests)
    assert elbow is not None
    x, y = geometry.pinion
    assert at.arm_deg == pytest.approx(
        math.degrees(math.atan2(elbow[1] - y, elbow[0] - x)), abs=0.5
    )


# The ratios written in the heads of the two files, at 0, 2, 4, 20 and 90 deg.
RATIOS = {
    ("generic-a", "regular", 0): (2.36, 2.34, 2.30, 1.87, 1.41),
    ("generic-a", "regular", 1): (2.43, 2.40, 2.36, 1.87, 1.21),
    ("generic-a", "regular", 2): (2.38, 2.34, 2.29, 1.80, 1.02),
    ("generic-a", "top-jamb", 0): (2.40, 2.32, 2.24, 1.71, 1.32),
    ("generic-a", "top-jamb", 1): (2.43, 2.34, 2.24, 1.67, 1.11),
    ("generic-a", "top-jamb", 2): (2.34, 2.24, 2.14, 1.57, 0.96),
    ("generic-a", "parallel", 0): (3.53, 2.91, 2.49, 1.41, 1.18),
    ("generic-a", "parallel", 1): (3.37, 2.85, 2.47, 1.40, 0.99),
    ("generic-a", "parallel", 2): (3.15, 2.77, 2.46, 1.41, 0.87),
    ("generic-b", "regular", 0): (2.36, 2.33, 2.29, 1.87, 1.42),
    ("generic-b", "regular", 1): (2.43, 2.40, 2.36, 1.87, 1.21),
    ("generic-b", "top-jamb", 0): (2.40, 2.32, 2.24, 1.71, 1.32),
    ("generic-b", "top-jamb", 1): (2.43, 2.34, 2.24, 1.67, 1.11),
    ("generic-b", "parallel", 0): (3.51, 2.89, 2.48, 1.41, 1.18),
    ("generic-b", "parallel", 1): (3.35, 2.84, 2.46, 1.39, 1.00),
}


@pytest.mark.parametrize(("name", "mount", "place"), SHIPPED)
def test_the_ratios_in_the_head_of_each_file(name: str, mount: str, place: int) -> None:
    sheet = shipped(name)
    arm = Arm(sheet_geometry(sheet, mount, sheet.mount(mount).ranges[place]))
    found = [at.ratio for deg in (0, 2, 4, 20, 90) if (at := arm.at(deg)) is not None]
    assert found == pytest.approx(RATIOS[name, mount, place], abs=0.0051)


@pytest.mark.parametrize(
    ("pinion", "shoe_out"), [("5 in", "5 1/2 in"), ("6 in", "3 1/4 in"), ("9 1/2 in", "3 1/4 in")]
)
def test_an_arm_along_the_door_is_no_weaker_near_the_latch(pinion: str, shoe_out: str) -> None:
    """The shoe over the pinion: 1.9 to 3 over the first 4 deg, from a deep soffit to a usual one. What
    falls is the pinion's whole turn: by 90 deg it is over a tenth less than a regular arm's."""
    sheet = shipped("generic-a")
    base = sheet_geometry(sheet, "parallel", sheet.mount("parallel").ranges[0])
    along, out = float(parse(pinion).base), float(parse(shoe_out).base)
    geometry = replace(base, pinion_along=along, shoe_along=along, shoe_out=out)
    forearm = resting_forearm(geometry, "main arm along the door")
    assert forearm is not None
    arm = Arm(replace(geometry, forearm=forearm))
    ratios = [at.ratio for deg in range(5) if (at := arm.at(deg)) and at.ratio]
    assert 1.9 < sum(ratios) / len(ratios) < 3
    regular = Arm(sheet_geometry(sheet, "regular", sheet.mount("regular").ranges[0])).at(90)
    wound = arm.at(90)
    assert wound is not None
    assert regular is not None
    assert wound.turn_deg is not None
    assert regular.turn_deg is not None
    assert wound.turn_deg < 0.9 * regular.turn_deg


def test_a_range_without_its_forearm_is_set_to_rest() -> None:
    sheet = shipped("generic-a")
    for mount in sheet.mounts:
        for found in mount.ranges:
            silent = replace(found, forearm=None)
            assert sheet_geometry(sheet, mount.mount, silent) == sheet_geometry(
                sheet, mount.mount, found
            )


def test_a_deep_stop_lengthens_the_rod_of_a_top_jamb_only() -> None:
    sheet = shipped("generic-a")
    deep = Opening(stop_depth=Fraction(3, 2), frame_proud=Fraction(1, 8))
    for mount, longer in (("top-jamb", 1.5), ("regular", -0.125), ("parallel", 0)):
        found = sheet.mount(mount).ranges[0]
        changed = sheet_geometry(sheet, mount, found, deep).forearm
        assert changed - sheet_geometry(sheet, mount, found).forearm == pytest.approx(longer)


def test_a_hinge_edge_is_elsewhere_on_every_hinge() -> None:
    """Generic B counts from the hinge edge, so on swing-clear hinges everything moves 2 1/8 in."""
    sheet = shipped("generic-b")
    found = sheet.mount("regular").ranges[0]
    butt = sheet_geometry(sheet, "regular", found)
    swing = sheet_geometry(sheet, "regular", found, Opening(hinge="swing-clear"))
    assert swing.pinion_along - butt.pinion_along == pytest.approx(2.125)


@pytest.mark.parametrize(
    ("hinge", "edge", "face"),
    [
        # Common practice, except the offset pivot, which is from memory.
        ("butt", "1/16 in", "-5/16 in"),
        ("continuous", "5/32 in", "-1/4 in"),
        ("swing-clear", "2 3/16 in", "-5/16 in"),
        ("centre-pivot", "-2 3/4 in", "7/8 in"),
        ("offset-pivot", "-3/4 in", "-3/4 in"),
    ],
)
def test_pivot_offsets_of_a_usual_leaf(hinge: str, edge: str, face: str) -> None:
    offset = pivot_offset(hinge, parse("1 3/4 in").base)
    assert offset.edge == parse_signed(edge, "length").base
    assert offset.face == parse_signed(face, "length").base


def test_thickness_moves_two_of_the_pivots() -> None:
    thin, thick = parse("1 3/8 in").base, parse("2 1/4 in").base
    for hinge in HINGES:
        same = pivot_offset(hinge, thin) == pivot_offset(hinge, thick)
        assert same is (hinge not in ("swing-clear", "centre-pivot"))
    # At 90 deg the push face of a swing-clear leaf stands clear of the jamb, 1/8 in from the closed edge.
    for thickness in (thin, thick):
        offset = pivot_offset("swing-clear", thickness)
        assert offset.edge - Fraction(1, 8) == thickness - offset.face


def test_a_main_arm_too_short_to_rest() -> None:
    sheet = shipped("generic-a")
    regular = sheet.mount("regular")
    assert regular.arm is not None
    stub = replace(regular, arm=replace(regular.arm, main=parse("4 in")))
    short = replace(sheet, mounts=(stub, *sheet.mounts[1:]))
    found = replace(stub.ranges[0], forearm=None)
    with pytest.raises(NoAnswer, match="4 in, is too short to rest with the forearm square"):
        sheet_geometry(short, "regular", found)
    assert resting_elbow(sheet_geometry(short, "regular", stub.ranges[0]), RESTS[0]) is None


IMPOSSIBLE: list[tuple[Callable[[], object], str]] = [
    (lambda: replace(ARM, main=parse("0 in")), "“main” must be more than nothing"),
    (lambda: replace(ARM, forearm=(parse("11 in"), parse("8 in"))), "write the shorter first"),
    (lambda: replace(ARM, rests="somehow"), "forearm square to the frame or main arm along"),
    (lambda: replace(ARM, preset_turn=parse("190 deg")), "a turn of 0 to 180 deg"),
    (lambda: replace(ARM, preset_turn=parse("15 in")), "needs a unit of angle"),
    (lambda: replace(ARM, shoe_out=parse("3 deg")), "needs a unit of length"),
    (lambda: replace(HOLE, name=" "), "“name” is empty"),
    (lambda: replace(HOLE, kind="nail"), "must be screw, through-bolt or extra, not “nail”"),
    (lambda: replace(HOLE, down=Quantity(Fraction(1), "kg")), "needs a unit of length"),
    (lambda: replace(BODY, holes=(HOLE, HOLE)), "two holes named valve end upper"),
    (lambda: replace(BODY, height=parse("0 in")), "“height” must be more than nothing"),
]


@pytest.mark.parametrize(("build", "says"), IMPOSSIBLE, ids=[says for _, says in IMPOSSIBLE])
def test_an_impossible_part_says_what_is_wrong(build: Callable[[], object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        build()


def test_where_the_shoe_s_distance_out_is_written() -> None:
    sheet = shipped("generic-a")
    regular, parallel = sheet.mount("regular"), sheet.mount("parallel")
    silent = replace(regular, arm=replace(ARM, shoe_out=None))
    assert silent.arm is not None
    with pytest.raises(ValueError, match="leave shoe_out away"):
        replace(parallel, arm=ARM)
