"""The clear width past an open leaf, in plan."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity, parse
from guide.trade.answer import Answer, OutOfDomain
from guide.trade.door.clear_width import clear_width
from guide.trade.door.hinges import HINGES
from guide.trade.registry import find, read_inputs, run


def worked(**texts: str) -> Answer:
    return run("clear-width", read_inputs(find("clear-width"), texts))


@pytest.mark.parametrize(
    ("hinge", "clear"),
    # A 36 in leaf 1 3/4 in thick at 90 degrees, by hand from the offsets of our own: latch stop at
    # edge offset + 36 - 5/8 + 1/8 from the pin, less what of the leaf stands in the opening.
    [
        ("butt", "33 1/2 in"),
        ("continuous", "33 5/8 in"),
        ("swing-clear", "35 in"),
        ("centre-pivot", "31 7/8 in"),
        ("offset-pivot", "32 1/4 in"),
    ],
)
def test_each_hinge_at_a_right_angle(hinge: str, clear: str) -> None:
    assert worked(width="36 in", hinge=hinge, opening="90 deg").value == parse(clear)


def test_a_metric_leaf_is_told_in_whole_millimetres() -> None:
    found = worked(width="914.4 mm", hinge="butt", opening="90 deg").value
    assert found == parse("850 mm")  # 33 1/2 in is 850.9 mm


def test_an_opening_past_square_is_judged_at_square() -> None:
    answer = worked(width="34 in", hinge="butt", opening="135 deg")
    assert isinstance(answer.value, Quantity)
    assert answer.value > parse("32 in")
    assert answer.working[1] == "The standard measures at 90 degrees: 31 1/2 in clear."
    assert answer.working[2].endswith("not met.")


def test_a_leaf_stopped_short_of_square_is_cautioned() -> None:
    answer = worked(width="36 in", hinge="butt", opening="80 deg")
    assert any("short of 90 degrees" in one for one in answer.cautions)


def test_swing_clear_hinges_are_named_where_butts_leave_too_little() -> None:
    answer = worked(width="34 in", hinge="butt", opening="90 deg")
    assert any("Swing-clear hinges" in one for one in answer.cautions)


@given(
    st.sampled_from(["butt", "continuous", "swing-clear"]),
    st.floats(10, 180),
    st.floats(10, 180),
)
def test_the_wider_it_opens_the_more_is_clear(hinge: str, one: float, other: float) -> None:
    less, more = sorted((one, other))
    leaf = parse("36 in")
    assert clear_width(leaf, hinge, less) <= clear_width(leaf, hinge, more) + 1e-9


@given(st.sampled_from(HINGES), st.floats(10, 180), st.integers(12, 120))
def test_the_clear_width_is_less_than_the_leaf(hinge: str, opening: float, inches: int) -> None:
    found = clear_width(parse(f"{inches} in"), hinge, opening)
    assert math.isfinite(found)
    assert 0 <= found < inches


def test_an_opening_of_200_degrees_is_refused() -> None:
    with pytest.raises(OutOfDomain, match="10 deg to 180 deg"):
        worked(width="36 in", hinge="butt", opening="200 deg")
