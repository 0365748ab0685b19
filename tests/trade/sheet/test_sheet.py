"""A closer's sheet: what it refuses, what it finds, and that a journal keeps it exactly."""

import json
from collections.abc import Callable
from dataclasses import MISSING, replace
from fractions import Fraction

import pytest

from guide.measures import parse
from guide.trade.answer import NoAnswer
from guide.trade.sheet.codec import BadSheetError, fields_of
from guide.trade.sheet.parts import (
    Accessory,
    ChartRow,
    Hole,
    PackedScrew,
    Screw,
    SheetShoe,
    SpringSetting,
)
from guide.trade.sheet.sheet import Sheet
from tests.trade.harbour_closer import (
    CHART_BY_MOUNT,
    CHART_FOR_ALL,
    PARALLEL,
    REGULAR,
    opening_range,
)


@pytest.mark.parametrize("chart", [(), CHART_BY_MOUNT, CHART_FOR_ALL])
def test_a_sheet_comes_back_from_json_exactly(harbour: Sheet, chart: tuple[ChartRow, ...]) -> None:
    sheet = replace(harbour, chart=chart)
    back = Sheet.from_json(json.loads(json.dumps(sheet.to_json())))
    assert back == sheet
    assert back.to_json() == sheet.to_json()
    shoe = back.mount("regular").ranges[0].shoe_along
    assert (shoe.magnitude, shoe.unit) == (Fraction(245, 16), "in")


def test_what_the_makers_sheet_leaves_out_stays_unknown(harbour: Sheet) -> None:
    spring = Sheet.from_json(harbour.to_json()).screws[1]
    assert (spring.slower, spring.turns, spring.has_stop) == ("read the label", None, None)


@pytest.mark.parametrize(
    ("opening", "reaches"),
    [
        ("90 deg", "100 deg"),
        ("100 deg", "100 deg"),
        ("100.5 deg", "130 deg"),
        ("130 deg", "130 deg"),
    ],
)
def test_the_smallest_range_that_reaches_is_taken_its_end_included(
    harbour: Sheet, opening: str, reaches: str
) -> None:
    assert harbour.range_for("regular", parse(opening)).up_to == parse(reaches)


def test_past_the_sheet_there_is_no_answer(harbour: Sheet) -> None:
    with pytest.raises(NoAnswer, match="no top jamb mounting, only regular arm or parallel arm"):
        harbour.mount("top-jamb")
    with pytest.raises(NoAnswer, match="goes up to 130 deg on a regular arm, not 131 deg"):
        harbour.range_for("regular", parse("131 deg"))


IMPOSSIBLE: list[tuple[Callable[[Sheet], object], str]] = [
    (lambda s: replace(s, sheet="Back Door"), "small letters and digits joined by hyphens"),
    (lambda s: replace(s, units="furlong"), "must be inch or metric, not “furlong”"),
    (lambda s: replace(s, sizes=(5, 2)), "write the weaker first"),
    (lambda s: replace(s, sizes=(2, 8)), "within 1 to 7"),
    (lambda s: replace(s, adjustable=False), "a fixed one has one"),
    (lambda s: replace(s, sizes=(3, 3)), "an adjustable spring has two sizes"),
    (lambda s: replace(s, turns_per_size=Fraction(1, 3)), "write quarter turns"),
    (lambda s: replace(s, sizes=(3, 3), adjustable=False), "has no turns for a size"),
    (lambda s: replace(s, mounts=()), "at least one mount"),
    (lambda s: replace(s, mounts=(REGULAR, REGULAR)), "regular is on the sheet more than once"),
    (lambda s: replace(s, screws=(*s.screws, *s.screws)), "more than once"),
    (lambda s: replace(s, chart=CHART_BY_MOUNT + CHART_FOR_ALL), "on some lines only"),
    (lambda s: replace(s, chart=CHART_FOR_ALL[::-1]), "must rise in width and in size"),
    (
        lambda s: replace(s, chart=(ChartRow(parse("60 in"), 7),)),
        "has EN size 7, outside its own 2 to 5",
    ),
    (lambda _: ChartRow(parse("36 in"), 0), "EN sizes run from 1 to 7"),
    (
        lambda _: ChartRow(parse("60 kg"), 3),
        "needs a unit of length, which 60 kg does not have",
    ),
    (lambda _: replace(REGULAR, datum="floor"), "underside of the stop or top of the leaf"),
    (lambda _: replace(REGULAR, ranges=REGULAR.ranges[::-1]), "must rise: 100 deg comes after"),
    (lambda _: replace(REGULAR, ranges=()), "at least one opening range"),
    (lambda _: replace(PARALLEL, mount="track"), "must be regular, top-jamb or parallel"),
    (lambda _: opening_range("181 deg", "5 in", "9 in"), "180 deg at most"),
    (lambda _: Screw("sweep", "left", "inward"), "clockwise, anticlockwise or read the label"),
    (lambda _: Screw("latch", "right", turns=Fraction(0)), "more than no turns"),
]


@pytest.mark.parametrize(("build", "says"), IMPOSSIBLE, ids=[says for _, says in IMPOSSIBLE])
def test_an_impossible_sheet_says_what_is_wrong(
    harbour: Sheet, build: Callable[[Sheet], object], says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        build(harbour)


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("sheet", 7, "“sheet” must be a line of text"),
        ("sizes", ["2", "5"], "“sizes” must be a line of text"),
        ("adjustable", True, "“adjustable” must be a line of text"),
        ("mounts", {}, "“mounts” must be a list"),
        ("mounts", [None], "mounts > 1: An entry of “mounts” must be a mapping"),
        ("screws", [{"name": "sweep"}], "“where” is missing in an entry of “screws”"),
        ("turns_per_size", "5/0", "write turns as 4, 2.5 or 2 1/2"),
        ("turns_per_size", "9" * 5000, "write turns as 4, 2.5 or 2 1/2"),
        ("chart", [{"max_width": "36 kg", "size": "3"}], "at chart > 1 > max_width: .* length"),
        ("chart", [{"max_width": "36 in", "size": "3.0"}], "write a whole number"),
    ],
)
def test_a_damaged_record_is_refused(harbour: Sheet, key: str, value: object, says: str) -> None:
    with pytest.raises(BadSheetError, match=says) as caught:
        Sheet.from_json({**harbour.to_json(), key: value})
    assert str(caught.value).endswith(".")


def test_a_record_without_a_field_names_it_where_it_is_needed(harbour: Sheet) -> None:
    for field in fields_of(Sheet):
        record = harbour.to_json()
        record.pop(field.key, None)
        if field.default is not MISSING:
            assert getattr(Sheet.from_json(record), field.key) == field.default
            continue
        with pytest.raises(BadSheetError, match=f"“{field.key}” is missing at the top"):
            Sheet.from_json(record)


def test_accessories_go_with_a_mount_of_the_sheet_or_with_all(harbour: Sheet) -> None:
    plate = Accessory("drop plate", "If the top rail is low.", "drop-plate", "body", "leaf")
    packer = Accessory("packer", "If the stop is a blade.", "packer", "shoe", "soffit", "parallel")
    sheet = replace(harbour, accessories=(plate, packer))
    assert Sheet.from_json(sheet.to_json()) == sheet
    assert sheet.accessories_for("regular") == (plate,)
    assert sheet.accessories_for("parallel") == (plate, packer)
    with pytest.raises(ValueError, match="The packer goes with a top jamb, which"):
        replace(harbour, accessories=(replace(packer, mount="top-jamb", into="leaf"),))
    with pytest.raises(ValueError, match="On a regular arm the shoe goes to the frame face, and"):
        replace(harbour, accessories=(replace(packer, mount=None),))


def test_what_an_accessory_is_decides_what_it_carries_and_where_its_holes_go() -> None:
    bracket = Accessory(
        "bar bracket", "If a bar is there.", "bracket", "shoe", "soffit", "parallel"
    )
    assert replace(bracket, into="frame face").goes_into("parallel") == ("soffit", "frame face")
    bolted = (Hole("tail", parse("0 in"), parse("1 in")),)
    wrongs: list[tuple[Callable[[], Accessory], str]] = [
        (lambda: replace(bracket, carries="body"), "A bracket carries the shoe, not the body"),
        (lambda: replace(bracket, into="leaf"), "goes to the soffit or frame face, and the bar"),
        (
            lambda: replace(bracket, kind="soffit-plate", into="frame face"),
            "goes to the soffit, and",
        ),
        (
            lambda: replace(bracket, kind="packer", holes=bolted),
            "screws go through the bar bracket",
        ),
        (lambda: replace(bracket, kind="extra-screws", thickness=parse("1 in")), "leave the shoe"),
        (lambda: replace(bracket, holes=bolted * 2), "two holes named tail"),
    ]
    for wrong, says in wrongs:
        with pytest.raises(ValueError, match=says):
            wrong()


def test_a_screw_has_a_hole_of_its_own_only_where_its_kind_needs_one() -> None:
    assert PackedScrew("rivet-nut", "M6x1", hole=parse("9 mm")).hole == parse("9 mm")
    with pytest.raises(ValueError, match="leave hole away, or write the kind as through-bolt or"):
        PackedScrew("wood", "No. 14", hole=parse("5 mm"))
    bolt = PackedScrew("through-bolt", "1/4-20")
    hole = Hole("tail", parse("0 in"), parse("1 in"))
    with pytest.raises(ValueError, match="The shoe has through-bolt screws twice"):
        SheetShoe("1/4-20", (hole,), (bolt, replace(bolt, hole=parse("3/8 in"))))


TURNS_BY_SIZE = tuple(SpringSetting(Fraction(4 * size - 12), size=size) for size in (2, 3, 4, 5))
TURNS_BY_WIDTH = (
    SpringSetting(Fraction(0), max_width=parse("36 in")),
    SpringSetting(Fraction(5, 2), max_width=parse("48 in")),
)
ACCESSIBLE = SpringSetting(Fraction(-3), accessible=True)


@pytest.mark.parametrize("table", [TURNS_BY_SIZE, TURNS_BY_WIDTH, (*TURNS_BY_WIDTH, ACCESSIBLE)])
def test_a_table_of_spring_turns_by_size_or_by_width(
    harbour: Sheet, table: tuple[SpringSetting, ...]
) -> None:
    sheet = replace(harbour, factory_size=3, spring_settings=table)
    assert Sheet.from_json(json.loads(json.dumps(sheet.to_json()))) == sheet


@pytest.mark.parametrize(
    ("table", "says"),
    [
        (
            TURNS_BY_SIZE[::-1],
            "must rise, a quarter turn a size at least: 4 for size 4 comes after 8",
        ),
        (TURNS_BY_WIDTH[::-1], "0 for a leaf to 36 in comes after 2 1/2 for a leaf to 48 in"),
        ((*TURNS_BY_SIZE, *TURNS_BY_WIDTH), "by size on some lines and by width on others"),
        ((ACCESSIBLE, ACCESSIBLE), "have two lines for accessible doors"),
        ((SpringSetting(Fraction(20), size=7),), "have EN size 7, outside its own 2 to 5"),
        (
            (SpringSetting(Fraction(1), size=3),),
            "leaves the factory at EN size 3, and its table has 1",
        ),
        ((SpringSetting(Fraction(1), size=2),), "above that size turns are above zero, below it"),
        (
            (TURNS_BY_WIDTH[0], replace(TURNS_BY_WIDTH[1], mount="regular")),
            "name a mount on some lines only",
        ),
    ],
)
def test_a_table_of_spring_turns_that_contradicts_itself(
    harbour: Sheet, table: tuple[SpringSetting, ...], says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        replace(harbour, factory_size=3, spring_settings=table)


def test_a_line_of_spring_turns_is_for_one_thing_and_in_quarters() -> None:
    with pytest.raises(ValueError, match="for one of three: an EN size, a widest leaf, or"):
        SpringSetting(Fraction(1), size=3, accessible=True)
    with pytest.raises(ValueError, match="write quarter turns, such as 2 1/2"):
        SpringSetting(Fraction(1, 3), size=3)


def test_a_fixed_spring_has_no_table_and_its_factory_size_is_its_own(harbour: Sheet) -> None:
    fixed = replace(harbour, sizes=(3, 3), adjustable=False, turns_per_size=None)
    with pytest.raises(ValueError, match="has a fixed spring, so it has no spring turns"):
        replace(fixed, spring_settings=TURNS_BY_WIDTH)
    with pytest.raises(ValueError, match="leaves the factory at EN size 6, outside its own 2 to 5"):
        replace(harbour, factory_size=6)
