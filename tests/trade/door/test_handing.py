"""The hand of a door. Rules: common practice in North American door hardware (read); the DIN side
is from DIN 107."""

import math

import pytest

from guide.trade.answer import BadInput
from guide.trade.door.handing import knuckles_from_outside
from guide.trade.registry import run

# "Hinges on the left and the door swings away: left hand (LH). Hinges on the right, swings away:
# right hand (RH). Hinges on the left and the door swings toward you: left hand reverse (LHR).
# Hinges on the right, toward you: right hand reverse (RHR)." Common practice (read).
# "LH and RHR are both DIN right; RH and LHR are both DIN left." DIN 107.
FOUR_HANDS = [
    ("left", "away", "LH", "right"),
    ("right", "away", "RH", "left"),
    ("left", "toward", "LHR", "left"),
    ("right", "toward", "RHR", "right"),
]


@pytest.mark.parametrize(("hinges", "swing", "hand", "din"), FOUR_HANDS)
def test_the_four_hands_seen_from_outside(hinges: str, swing: str, hand: str, din: str) -> None:
    answer = run("handing", {"hinges": hinges, "swing": swing})
    assert answer.value == {"hand": hand, "din": din}
    assert f"({hand}), DIN {din}." in answer.working[0]


@pytest.mark.parametrize(("hinges", "swing", "hand", "din"), FOUR_HANDS)
def test_the_same_leaf_from_its_pull_side(hinges: str, swing: str, hand: str, din: str) -> None:
    outside = "pull" if swing == "toward" else "push"
    seen = {"knuckles": din, "outside": outside}
    assert run("handing", seen).value == {"hand": hand, "din": din}
    assert run("handing", {**seen, "hinges": hinges, "swing": swing}).value == {
        "hand": hand,
        "din": din,
    }
    assert run("hand", seen).value == hand
    assert run("din", {"knuckles": din}).value == din


def test_only_between_two_rooms_is_outside_a_guess() -> None:
    yard_door = {"knuckles": "left", "outside": "pull"}
    assert "is a guess" in run("hand", yard_door).cautions[0]
    assert "is a guess" in run("hand", {**yard_door, "exterior": False}).cautions[0]
    assert run("hand", {**yard_door, "exterior": True}).cautions == ()


@pytest.mark.parametrize("knuckles", ["left", "right"])
def test_knuckles_alone_leave_the_hand_open(knuckles: str) -> None:
    answer = run("handing", {"knuckles": knuckles})
    assert answer.value == {"hand": None, "din": knuckles}
    assert "LH, RH, LHR or RHR is left open" in answer.working[0]


@pytest.mark.parametrize(("hinges", "swing", "din"), [(h, s, d) for h, s, _, d in FOUR_HANDS])
def test_din_agrees_with_a_plan_of_the_door(hinges: str, swing: str, din: str) -> None:
    """Outside stands at y = -1 facing +y, so left is -x; the pull side is where the leaf goes."""
    hinge_x = -1.0 if hinges == "left" else 1.0
    pull_y = 1.0 if swing == "away" else -1.0
    # A viewer at (0, pull_y) faces the wall; the cross product of facing and hinge tells the side.
    facing = (0.0, -pull_y)
    cross = facing[0] * 0.0 - facing[1] * hinge_x
    seen_on = "left" if math.copysign(1, cross) > 0 else "right"
    assert seen_on == din == knuckles_from_outside(hinges, swing)


def test_contradicting_views_are_refused_with_what_was_expected() -> None:
    with pytest.raises(BadInput, match="knuckles on the right seen from the pull side"):
        run("handing", {"hinges": "left", "swing": "away", "knuckles": "left"})
    with pytest.raises(BadInput, match="makes outside the push side, but outside=pull"):
        run("handing", {"hinges": "left", "swing": "away", "outside": "pull"})


@pytest.mark.parametrize(
    ("inputs", "says"),
    [
        ({}, "Give hinges= and swing="),
        ({"outside": "push"}, "Give hinges= and swing="),
        ({"hinges": "left"}, "add swing=away or toward"),
        ({"swing": "away", "knuckles": "left"}, "add hinges=left or right"),
        ({"knuckles": "up"}, "must be left or right, not “up”"),
    ],
)
def test_half_a_view_is_refused_with_what_to_add(inputs: dict[str, str], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        run("handing", inputs)
