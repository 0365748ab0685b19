"""A closer's sheet: what it refuses, what it finds, and that a journal keeps it exactly."""

import json
from collections.abc import Callable
from fractions import Fraction

import pytest

from guide.dataclass import replace
from guide.measures import parse
from guide.trade.answer import NoAnswer
from guide.trade.sheet import Accessory, ChartRow, Screw, Sheet
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
    shoe = back.mount("regular").ranges[0].shoe_from_hinge
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
    (lambda s: replace(s, name=" "), "needs a name"),
    (lambda s: replace(s, unit_system="furlong"), "must be inch or metric, not “furlong”"),
    (lambda s: replace(s, sizes=(5, 2)), "write the weaker first"),
    (lambda s: replace(s, sizes=(2, 8)), "within 1 to 7"),
    (lambda s: replace(s, adjustable=False), "a fixed one has one"),
    (lambda s: replace(s, sizes=(3, 3)), "an adjustable spring has two sizes"),
    (lambda s: replace(s, turns_per_size=Fraction(1, 3)), "write quarter turns"),
    (lambda s: replace(s, sizes=(3, 3), adjustable=False), "has no turns for a size"),
    (lambda s: replace(s, mounts=()), "at least one mount"),
    (lambda s: replace(s, mounts=(REGULAR, REGULAR)), "regular stands on the sheet more than once"),
    (lambda s: replace(s, screws=(*s.screws, *s.screws)), "more than once"),
    (lambda s: replace(s, chart=CHART_BY_MOUNT + CHART_FOR_ALL), "on some lines only"),
    (lambda s: replace(s, chart=CHART_FOR_ALL[::-1]), "must rise in width and in size"),
    (
        lambda s: replace(s, chart=(ChartRow(None, parse("60 in"), 7),)),
        "has EN size 7, outside its own 2 to 5",
    ),
    (lambda _: ChartRow(None, parse("36 in"), 0), "EN sizes run from 1 to 7"),
    (
        lambda _: ChartRow(None, parse("60 kg"), 3),
        "needs a unit of length, which 60 kg does not have",
    ),
    (lambda _: replace(REGULAR, datum="floor"), "underside of the stop or top of the leaf"),
    (lambda _: replace(REGULAR, ranges=REGULAR.ranges[::-1]), "must rise: 100 deg stands after"),
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
    ("field", "value"),
    [
        ("name", 7),
        ("sizes", [2]),
        ("sizes", [True, 5]),
        ("sizes", ["2", "5"]),
        ("adjustable", "yes"),
        ("mounts", {}),
        ("mounts", [None]),
        ("screws", [{"name": "sweep"}]),
        ("turns_per_size", "5/0"),
        ("turns_per_size", "9" * 5000),
        ("turns_per_size", "2.5"),
        ("chart", [{"mount": None, "max_width": "36 kg", "size": 3}]),
        ("chart", [{"mount": None, "max_width": "36 in", "size": 3.0}]),
    ],
)
def test_a_damaged_record_is_refused(harbour: Sheet, field: str, value: object) -> None:
    with pytest.raises(ValueError, match=r"\w") as caught:
        Sheet.from_json({**harbour.to_json(), field: value})
    assert str(caught.value).endswith(".")


def test_a_record_without_a_field_names_it(harbour: Sheet) -> None:
    for name in harbour.to_json().keys() - {"accessories"}:
        record = harbour.to_json()
        del record[name]
        with pytest.raises(ValueError, match=f"damaged: {name} is missing"):
            Sheet.from_json(record)


def test_a_sheet_from_before_there_were_accessories_is_still_read(harbour: Sheet) -> None:
    """It stands in the journal of a run that was begun then."""
    record = harbour.to_json()
    del record["accessories"]
    assert Sheet.from_json(record) == harbour


def test_accessories_go_with_a_mount_of_the_sheet_or_with_all(harbour: Sheet) -> None:
    plate = Accessory("drop plate", "Where the top rail is low.")
    packer = Accessory("packer", "Where the stop is a blade.", "parallel")
    sheet = replace(harbour, accessories=(plate, packer))
    assert Sheet.from_json(sheet.to_json()) == sheet
    assert sheet.accessories_for("regular") == (plate,)
    assert sheet.accessories_for("parallel") == (plate, packer)
    with pytest.raises(ValueError, match="The packer goes with a top jamb, which"):
        replace(harbour, accessories=(replace(packer, mount="top-jamb"),))
