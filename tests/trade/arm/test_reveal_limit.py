"""How far a leaf opens in a deep reveal, against sums by hand and points moved one by one."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import parse
from guide.trade.answer import Answer
from guide.trade.arm.reveal_limit import reveal_limit
from guide.trade.door.hinges import HINGES, pivot_offset
from guide.trade.registry import find, read_inputs, run

THICKNESS = Fraction(7, 4)


def worked(**texts: str) -> Answer:
    return run("reveal-limit", read_inputs(find("reveal-limit"), texts))


def test_a_wall_as_far_out_as_it_is_aside_stops_the_leaf_near_135_degrees() -> None:
    # From a butt's pin, 1/16 in before the edge and 5/16 in out of the face: 4 in aside and 4 in out. The pull face
    # passes 5/16 in behind the pin, so the leaf gains asin(0.3125 / 5.657) = 3.17 degrees on 135.
    found = reveal_limit(4 + Fraction(5, 16), 4 + Fraction(1, 16), "butt", THICKNESS)
    assert found == pytest.approx(135 + 3.17, abs=0.01)


def test_a_deep_reveal_close_to_the_hinges_leaves_little_more_than_a_right_angle() -> None:
    # tan p = 1.9375 / 5.6875, so p = 18.8; acos(-0.3125 / 6.0085) = 93.0; 111.8 in all, less 2 and rounded down
    assert worked(reveal="6 in", beside="2 in", hinge="butt").value == parse("109 deg")


def test_the_body_on_the_leaf_meets_the_wall_first() -> None:
    # 2 1/2 in out from a face 5/16 in behind the pin: 18.8 + acos(2.1875 / 6.0085) = 18.8 + 68.6 = 87.4
    texts = {"reveal": "6 in", "beside": "2 in", "hinge": "butt"}
    assert worked(**texts, mount="regular").value == parse("85 deg")
    assert worked(**texts, mount="parallel").value == parse("109 deg")
    # with a slim body it is 18.8 + acos(1.1875 / 6.0085) = 97.4
    assert worked(**texts, mount="regular", projection="1 1/2 in").value == parse("95 deg")
    # and one that begins beyond the corner's reach of 5.6 in never meets it
    assert worked(**texts, mount="regular", begins="9 in").value == parse("109 deg")


def test_without_a_reveal_the_wall_is_in_nobodys_way() -> None:
    assert worked(reveal="0 in", beside="2 in", hinge="butt").value == parse("180 deg")


@given(
    st.sampled_from(HINGES),
    st.integers(1, 200),
    st.integers(0, 200),
    st.integers(0, 40),
)
def test_at_the_limit_the_corner_lies_on_the_leaf_or_the_body(
    hinge: str, deep: int, beside: int, out: int
) -> None:
    """The corner is turned back by the opening: then it must lie on the face of the shut leaf, or of the body."""
    projection = Fraction(out, 16)
    offset = pivot_offset(hinge, THICKNESS)
    found = reveal_limit(Fraction(deep, 8), Fraction(beside, 8), hinge, THICKNESS, projection)
    if found == 180:
        return
    x, y = float(offset.edge - Fraction(beside, 8)), float(offset.face + Fraction(deep, 8))
    turn = math.radians(found)
    back = -x * math.sin(turn) + y * math.cos(turn)
    faces = float(offset.face), float(offset.face + projection)
    assert min(abs(back - face) for face in faces) < 1e-9


@given(st.sampled_from(HINGES), st.integers(1, 200), st.integers(0, 200))
def test_a_deeper_reveal_brings_the_limit_of_a_bare_leaf_nearer_to_a_right_angle(
    hinge: str, deep: int, beside: int
) -> None:
    """A far corner is nearly straight out; one in front of the axis is met before 90 degrees, later when deeper."""
    found = reveal_limit(Fraction(deep, 8), Fraction(beside, 8), hinge, THICKNESS)
    deeper = reveal_limit(Fraction(deep + 8, 8), Fraction(beside, 8), hinge, THICKNESS)
    assert abs(deeper - 90) <= abs(found - 90) + 1e-9
