"""Between which numbers an answer lies: no door within the ranges has an answer outside.

The examples are worked out by hand beside them; the property is tried at random doors, in both systems of units.
"""

import random
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, home_unit, parse
from guide.trade.answer import NoAnswer, OutOfDomain
from guide.trade.computation import Extent, Given, Input, RangedInput
from guide.trade.extent import extent_of, has_extent
from guide.trade.registry import COMPUTATIONS, find, run
from guide.trade.size.spring_turns import MOST_QUARTERS

RANGED = sorted(
    name
    for name, row in COMPUTATIONS.items()
    if has_extent(row) and row.output.kind != "mapping" and row.input("sheet") is None
)


def test_the_computations_with_a_range_of_their_own_are_known() -> None:
    assert {"chord", "clear-width", "door-mass", "pressure-force"} <= set(RANGED)


@pytest.mark.parametrize(
    ("name", "texts", "low", "high"),
    [
        # 2 x 24 x sin 45 = 33.941 in = 862.1 mm; 2 x 36 x sin 45 = 50.912 in = 1293.2 mm, or 50 7/8 in by an inch tape
        ("chord", {"width": "24 in to 36 in", "angle": "90 deg"}, "862 mm", "1293 mm"),
        # at 180 deg the edge lies two widths away
        ("chord", {"width": "24 in to 36 in", "angle": "90 deg to 180 deg"}, "862 mm", "72 in"),
        # 0.9 m x 2 m x 0.04 m x 500 kg/m3 = 36 kg, and 79.37 lb up to 80; 1 m wide: 40 kg, 88.2 lb up to 89
        (
            "door-mass",
            {
                "width": "900 mm to 1000 mm",
                "height": "2 m",
                "thickness": "40 mm",
                "construction": "softwood",
            },
            "36 kg",
            "89 lb",
        ),
    ],
)
def test_a_range_worked_by_hand(name: str, texts: dict[str, str], low: str, high: str) -> None:
    row = find(name)
    inputs = {key: _read(row.input(key), text) for key, text in texts.items()}
    assert extent_of(row, inputs) == Extent(parse(low), parse(high))


def _read(wanted: Input | None, text: str) -> RangedInput:
    assert wanted is not None
    if wanted.kind == "choice":
        return text
    low, _, high = text.partition(" to ")
    return Extent(parse(low, wanted.kind), parse(high or low, wanted.kind))


def test_quarter_turns_are_at_least_one_a_size_and_none_for_the_same_size() -> None:
    row = find("spring-turns")
    assert extent_of(row, {"from": 2, "to": Extent(4, 6)}, "quarter_turns") == Extent(
        2, MOST_QUARTERS
    )
    assert extent_of(row, {"from": 3, "to": 3}, "quarter_turns") == Extent(0, 0)
    assert extent_of(row, {"from": 3, "to": 3}, "direction") == Extent(None, None)
    assert extent_of(row, {"width": parse("36 in")}, "quarter_turns") == Extent(0, MOST_QUARTERS)


def test_a_handle_that_may_be_beyond_the_middle_leaves_the_range_open() -> None:
    """24 in wide with a handle 3 in from the edge works; with one 20 in from it nothing does."""
    row = find("pressure-force")
    leaf: dict[str, RangedInput] = {
        "closer_force": parse("5 lbf"),
        "width": Extent(parse("24 in"), parse("36 in")),
        "height": parse("84 in"),
        "handle": Extent(parse("3 in"), parse("20 in")),
        "pressure": parse("0.1 inH2O"),
    }
    found = extent_of(row, leaf)
    assert found.high is None
    # 5 + 5.2 x 2 x 14 x 0.1 / (2 (2 - 0.25)) = 9.16 lbf
    assert isinstance(found.low, Quantity)
    assert abs(float(found.low.to("lbf").magnitude) - 9.16) < 0.01


@pytest.mark.parametrize("name", RANGED)
@given(seed=st.integers(0, 2**32))
def test_no_answer_lies_outside_its_range(name: str, seed: int) -> None:
    rng = random.Random(seed)
    row = find(name)
    ranged: dict[str, RangedInput] = {}
    values: dict[str, Given] = {}
    for wanted in row.inputs:
        if not wanted.required and rng.random() < 0.4:
            continue
        ranged[wanted.name], values[wanted.name] = _drawn(rng, wanted)
    try:
        found = run(name, values).value
    except (NoAnswer, OutOfDomain):
        assert not row.always_answers
        return
    assert isinstance(found, Quantity | int)
    extent = extent_of(row, ranged)
    assert extent.low is None or extent.low <= found  # type: ignore[operator]
    assert extent.high is None or found <= extent.high  # type: ignore[operator]


def _drawn(rng: random.Random, wanted: Input) -> tuple[RangedInput, Given]:
    """A range of an input, and a value of it; a label is its own range."""
    if wanted.kind == "choice":
        label = rng.choice(wanted.options)
        return label, label
    if wanted.kind == "yesno":
        answer = rng.random() < 0.5
        return answer, answer
    if wanted.kind == "count":
        assert isinstance(wanted.low, int)
        assert isinstance(wanted.high, int)
        few, some, many = sorted(rng.randint(wanted.low, wanted.high) for _ in range(3))
        return Extent(few, many), some
    numbers = sorted(_base(rng, wanted) for _ in range(3))
    if rng.random() < 0.3:
        numbers[rng.choice([0, 2])] = numbers[1]
    low, value, high = (_measure(rng, wanted, number) for number in numbers)
    return Extent(low, high), value


def _base(rng: random.Random, wanted: Input) -> Fraction:
    """A number within the limits, in base units; the ends themselves now and then."""
    low, high = (end.base for end in (wanted.low, wanted.high) if isinstance(end, Quantity))
    share = rng.choice([Fraction(0), Fraction(1), *(Fraction(rng.randint(0, 64), 64),) * 6])
    return low + (high - low) * share


def _measure(rng: random.Random, wanted: Input, number: Fraction) -> Quantity:
    unit = home_unit(wanted.kind, rng.choice(["inch", "metric"]))
    return Quantity(number / Quantity(Fraction(1), unit).base, unit)


def test_a_row_that_claims_a_range_names_its_own_inputs() -> None:
    for row in COMPUTATIONS.values():
        names = {one.name for one in row.inputs}
        assert set(row.grows_with) | set(row.falls_with) <= names, row.name
        assert not set(row.grows_with) & set(row.falls_with), row.name


def test_an_open_end_of_an_input_leaves_the_answer_open() -> None:
    found = extent_of(
        find("chord"), {"width": Extent(parse("24 in"), None), "angle": parse("90 deg")}
    )
    assert found == Extent(parse("862 mm"), None)
