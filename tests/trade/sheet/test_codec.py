"""A sheet is the same after plain data and back, and every fault of plain data is found, in its place."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide.measures import Quantity
from guide.trade.mounts import BODY_INTO, SHOE_INTO
from guide.trade.sheet.codec import MOST, BadSheetError, fields_of, from_plain, to_plain
from guide.trade.sheet.kinds import Angle
from guide.trade.sheet.parts import (
    ALONG_FROM,
    CARRIES,
    DATUMS,
    HELD_IN_A_HOLE,
    HOLE_KINDS,
    NO_SHIFT,
    PACKED_KINDS,
    RESTS,
    SCREWS,
    SIDES_OF_BODY,
    TURNS_SLOWER,
    Accessory,
    ChartRow,
    Hole,
    OpeningRange,
    PackedScrew,
    Screw,
    SheetArm,
    SheetBody,
    SheetMount,
    SheetShoe,
    SpringSetting,
)
from guide.trade.sheet.sheet import Sheet
from tests.trade.shipped_sheets import SHEETS, raw, shipped

SOME = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
"""A whole sheet takes a while to draw."""
PHRASES = st.sampled_from(
    [
        "Where the top rail is lower than 3 in.",
        "Über dem Sturz, “außen”: 5 mm",
        "none",
        "yes",
        "~",
        "- {a: b}",
        "# 1/4-20",
        "7 1/2 in to 8 in",
        "문 닫힘",
    ]
)
"""What people copy, and what YAML would take for something else."""
NAMES = st.sampled_from(["generic-a", "b2", "back-door-3", "null", "no"])
LENGTHS = st.builds(
    lambda part, unit: Quantity(Fraction(part, 64), unit),
    st.integers(1, 60 * 64),
    st.sampled_from(["in", "mm", "cm"]),
)
OFFSETS = st.builds(lambda part: Quantity(Fraction(part, 10), "mm"), st.integers(-3000, 3000))
ANGLES = st.builds(lambda tenths: Quantity(Fraction(tenths, 10), "deg"), st.integers(1, 1800))
TURNS = st.builds(Fraction, st.integers(1, 999), st.sampled_from([1, 2, 3, 4, 8, 1000]))


def named_once(rows: st.SearchStrategy[Any], key: str, most: int) -> st.SearchStrategy[Any]:
    return st.lists(rows, min_size=1, max_size=most, unique_by=lambda row: getattr(row, key)).map(
        tuple
    )


HOLES = named_once(
    st.builds(Hole, PHRASES, OFFSETS, OFFSETS, st.sampled_from(HOLE_KINDS)), "name", 4
)


@st.composite
def packed(draw: st.DrawFn) -> tuple[PackedScrew, ...]:
    """Screws of each kind once at most, a hole only where the kind has one."""
    return tuple(
        PackedScrew(
            kind,
            draw(PHRASES),
            draw(st.none() | LENGTHS),
            draw(st.none() | LENGTHS) if kind in HELD_IN_A_HOLE else None,
        )
        for kind in PACKED_KINDS
        if draw(st.booleans())
    )


RODS = st.tuples(LENGTHS, LENGTHS).map(lambda ends: tuple(sorted(ends)))
RANGES = st.lists(
    st.builds(OpeningRange, ANGLES, LENGTHS, LENGTHS, LENGTHS, LENGTHS, st.none() | LENGTHS),
    min_size=1,
    max_size=3,
    unique_by=lambda row: row.up_to.base,
).map(lambda rows: tuple(sorted(rows, key=lambda row: row.up_to.base)))


@st.composite
def mounts(draw: st.DrawFn, name: str) -> SheetMount:
    shoe_out = st.none() if name == "parallel" else LENGTHS
    arms = st.builds(SheetArm, LENGTHS, RODS, st.sampled_from(RESTS), shoe_out, ANGLES)
    return SheetMount(
        mount=name,
        ranges=draw(RANGES),
        datum=draw(st.sampled_from(DATUMS)),
        along_from=draw(st.sampled_from(ALONG_FROM)),
        valves_toward=draw(st.sampled_from(SIDES_OF_BODY)),
        arm_rests=draw(PHRASES),
        preset=draw(PHRASES),
        arm=draw(st.none() | arms),
    )


SCREW_ROWS = st.builds(
    Screw,
    st.sampled_from(SCREWS),
    PHRASES,
    st.sampled_from(TURNS_SLOWER),
    st.none() | TURNS,
    st.none() | st.booleans(),
)


@st.composite
def accessories(draw: st.DrawFn, mount: str) -> Accessory:
    """Any part beside the closer, for that mount."""
    kind = draw(st.sampled_from(sorted(CARRIES)))
    moves = kind != "extra-screws"
    into = (BODY_INTO if CARRIES[kind] == "body" else SHOE_INTO)[mount]
    return Accessory(
        name=draw(PHRASES),
        when=draw(PHRASES),
        kind=kind,
        carries=CARRIES[kind],
        into=into,
        mount=mount,
        shift_along=draw(OFFSETS) if moves else NO_SHIFT,
        shift_down=draw(OFFSETS) if moves else NO_SHIFT,
        thickness=draw(st.none() | LENGTHS) if moves else None,
        thread=draw(st.none() | PHRASES),
        holes=() if kind == "packer" else draw(st.just(()) | HOLES),
    )


@st.composite
def spring_settings(draw: st.DrawFn, low: int, high: int) -> tuple[SpringSetting, ...]:
    """No table, one by width, or one by size, perhaps with a line for accessible doors."""
    lines: list[SpringSetting] = []
    turns = Fraction(draw(st.integers(-80, 0)), 4)
    by_size = draw(st.booleans())
    width = draw(LENGTHS)
    for size in range(low, high + 1):
        if by_size:
            lines.append(SpringSetting(turns, size=size))
        else:
            wider = Quantity(width.magnitude + size - low, width.unit)
            lines.append(SpringSetting(turns, max_width=wider))
        turns += Fraction(draw(st.integers(1, 40)), 4)
    if draw(st.booleans()):
        lines.append(SpringSetting(Fraction(-5, 2), accessible=True))
    return draw(st.sampled_from([(), tuple(lines)]))


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    """Any sheet that can be, its chart of one line: more must rise."""
    low = draw(st.integers(1, 7))
    high = draw(st.integers(low, 7))
    adjustable = low < high
    quarters = st.builds(Fraction, st.integers(1, 80), st.just(4))
    names = draw(st.permutations(["regular", "top-jamb", "parallel"]))[: draw(st.integers(1, 3))]
    of_mount = st.none() | st.sampled_from(names)
    return Sheet(
        sheet=draw(NAMES),
        about=draw(PHRASES),
        units=draw(st.sampled_from(["inch", "metric"])),
        sizes=(low, high),
        adjustable=adjustable,
        mounts=tuple(draw(mounts(name)) for name in names),
        screws=draw(st.just(()) | named_once(SCREW_ROWS, "name", 5)),
        chart=draw(
            st.just(())
            | st.builds(ChartRow, LENGTHS, st.integers(low, high), of_mount).map(lambda row: (row,))
        ),
        turns_per_size=draw(st.none() | quarters) if adjustable else None,
        through_bolts=draw(st.none() | PHRASES),
        body=draw(
            st.none()
            | st.builds(
                SheetBody, LENGTHS, LENGTHS, LENGTHS, LENGTHS, LENGTHS, PHRASES, HOLES, packed()
            )
        ),
        shoe=draw(st.none() | st.builds(SheetShoe, PHRASES, HOLES, packed())),
        spring_settings=draw(spring_settings(low, high)) if adjustable else (),
        accessories=tuple(draw(accessories(name)) for name in names if draw(st.booleans())),
    )


@SOME
@given(sheets())
def test_any_sheet_comes_back_from_json(sheet: Sheet) -> None:
    written = json.dumps(sheet.to_json(), ensure_ascii=False)
    back = Sheet.from_json(json.loads(written))
    assert back == sheet
    assert back.to_json() == sheet.to_json()


@SOME
@given(sheets())
def test_any_sheet_written_as_its_file_reads_back(sheet: Sheet) -> None:
    """The keys of the file and of JSON are the same, and so is what stands behind them."""
    text = yaml.safe_dump(sheet.to_json(), allow_unicode=True, sort_keys=False)
    assert Sheet.from_json(yaml.load(text, Loader=yaml.BaseLoader)) == sheet


@pytest.mark.parametrize("name", SHEETS)
def test_a_shipped_file_is_plain_data_word_for_word(name: str) -> None:
    """What its owner wrote comes out again, but for what is as when left out."""
    assert Sheet.from_json(raw(name)) == shipped(name)
    left_out = {("preset", "none"), ("slower", "read the label"), ("chart", "[]")}
    written, again = dict(leaves(raw(name))), dict(leaves(to_plain(shipped(name))))
    for path, value in written.items():
        assert again.get(path) == value or (path[-1], value) in left_out, path
    assert again.keys() <= written.keys()


def leaves(data: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], str]]:
    """Every line of plain data with its path."""
    parts = data.items() if isinstance(data, dict) else enumerate(data)
    for key, value in parts:
        if isinstance(value, str) or not value:
            yield (*path, key), str(value)
        else:
            yield from leaves(value, (*path, key))


def harbour() -> dict[str, Any]:
    """A sheet as it is copied, with the fewest lines."""
    return {
        "sheet": "harbour",
        "about": "An invented closer.",
        "units": "inch",
        "sizes": "1 to 6",
        "adjustable": "yes",
        "mounts": [
            {
                "mount": "regular",
                "along_from": "hinge edge",
                "datum": "top of the leaf",
                "valves_toward": "hinge",
                "arm_rests": "The forearm stands square to the frame.",
                "ranges": [
                    {
                        "up_to": "100 deg",
                        "body_along": "8 in",
                        "body_datum": "2 in",
                        "shoe_along": "15 in",
                        "shoe_datum": "1 in",
                    }
                ],
            }
        ],
    }


def found(data: object) -> list[tuple[str, str, str]]:
    """Of each fault: where, its code, its sentence."""
    with pytest.raises(BadSheetError) as bad:
        from_plain(Sheet, data)
    return [(".".join(map(str, one.path)), one.code, one.message) for one in bad.value.faults]


def test_every_fault_is_found_at_once() -> None:
    data = harbour()
    del data["about"]
    data["units"] = "feet"
    data["ajustable"] = data.pop("adjustable")
    data["colour"] = "silver"
    data["body"] = "1 in"
    data["screws"] = {"name": "sweep"}
    data["chart"] = ["34 in", {"max_width": "wide", "size": "two"}]
    (mount,) = data["mounts"]
    mount["ranges"][0]["body_along"] = "8"
    mount["ranges"].append({**mount["ranges"][0], "body_along": "6 in", "up_to": "200 deg"})
    assert found(data) == [
        (
            "ajustable",
            "key-unknown",
            "The key “ajustable” is not known; did you mean “adjustable”?",
        ),
        (
            "colour",
            "key-unknown",
            (
                "The key “colour” is not known; write a key known here: sheet, about, units, sizes,"
                " adjustable, mounts, screws, chart, turns_per_size, factory_size, spring_settings,"
                " through_bolts, body, shoe, accessories."
            ),
        ),
        ("about", "key-missing", "“about” is missing at the top of the file; write it."),
        ("units", "shape", "“feet” is not one of inch or metric; write one of them."),
        ("mounts.0.ranges.0.body_along", "unit-wrong", "“8” has no unit; write one, as in “8 in”."),
        (
            "mounts.0.ranges.1.up_to",
            "sheet-wrong",
            "A range goes up to 180 deg at most, not 200 deg.",
        ),
        (
            "screws",
            "shape",
            "“screws” must be a list; write each entry on its own line after “- ”.",
        ),
        (
            "chart.0",
            "shape",
            "An entry of “chart” must be a mapping of keys to values, and this is not one.",
        ),
        ("chart.1.max_width", "unit-wrong", found_width()),
        ("chart.1.size", "shape", "“size” is “two”; write a whole number."),
        ("body", "shape", "“body” must be a mapping of keys to values, and this is not one."),
    ]


def found_width() -> str:
    data = harbour() | {"chart": [{"max_width": "wide", "size": "2"}]}
    ((_, _, message),) = found(data)
    assert "“wide”" in message
    return message


def test_a_part_that_lacks_a_key_is_named() -> None:
    data = harbour()
    del data["mounts"][0]["ranges"][0]["up_to"]
    assert found(data) == [
        (
            "mounts.0.ranges.0.up_to",
            "key-missing",
            "“up_to” is missing in an entry of “ranges”; write it.",
        )
    ]


def test_a_list_that_needs_an_entry() -> None:
    data = harbour()
    data["mounts"][0]["ranges"] = []
    assert found(data) == [
        ("mounts.0.ranges", "shape", "“ranges” needs at least one opening range; write it.")
    ]


def test_a_fault_of_the_whole_is_told_at_the_line_that_has_it() -> None:
    data = harbour() | {"sizes": "6 to 1"}
    ((path, code, message),) = found(data)
    assert (path, code) == ("sizes", "sheet-wrong")
    assert "write the weaker first" in message


@pytest.mark.parametrize("data", [None, [], "generic-a", 7])
def test_a_sheet_is_a_mapping(data: object) -> None:
    assert found(data) == [
        ("", "shape", "A sheet must be a mapping of keys to values, and this is not one.")
    ]


def test_so_many_faults_are_told_and_no_more() -> None:
    data = harbour() | {"chart": [{"max_width": "wide", "size": "two"}] * 10_000}
    assert len(found(data)) == MOST + 1


def test_a_field_needs_a_kind() -> None:
    @dataclass(frozen=True)
    class Stop:
        opens_to: Angle
        material: str

    with pytest.raises(TypeError, match="The field material needs a kind of value"):
        fields_of(Stop)
