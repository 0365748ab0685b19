"""`handing`: the hand of a door, from what can be seen of it.

Two ways of looking. North America stands outside (corridor, key or secure side) and notes where
the hinges are and which way the leaf swings. DIN 107 stands on the pull side, where the knuckles
show. The pull side of a door that swings away is the inside, so left and right change over:
LH and RHR are one leaf seen from its two sides (DIN right); so are RH and LHR (DIN left).
"""

from collections.abc import Mapping

from guide.trade.answer import Answer, BadInput
from guide.trade.computation import Computation, Given, Input, Output, given

SIDES = ("left", "right")
HANDS = ("LH", "RH", "LHR", "RHR")

NORTH_AMERICAN_SOURCE = "common practice in North American door hardware"
EUROPEAN_SOURCE = "DIN 107"

_HAND = {
    ("left", "away"): "LH",
    ("right", "away"): "RH",
    ("left", "toward"): "LHR",
    ("right", "toward"): "RHR",
}
"""(hinges as seen from outside, swing as seen from outside) to hand."""

_FULL_NAMES = {
    "LH": "left hand",
    "RH": "right hand",
    "LHR": "left hand reverse",
    "RHR": "right hand reverse",
}

_WHO_DECIDES = "Between two rooms “outside” is a guess: the door schedule decides."


def hand_from_outside(hinges: str, swing: str) -> str:
    """LH, RH, LHR or RHR, from the hinge side ("left", "right") and the swing ("away", "toward")
    seen from outside."""
    return _HAND[hinges, swing]


def knuckles_from_outside(hinges: str, swing: str) -> str:
    """The side the knuckles are on for someone on the pull side, from what outside sees.

    Where the leaf swings toward the outside, outside is the pull side; otherwise the viewer
    walks through the opening and turns round, and the hinges change sides.
    """
    return hinges if swing == "toward" else _other(hinges)


def hand_from_knuckles(knuckles: str, outside: str) -> str:
    """LH, RH, LHR or RHR, from the knuckles seen on the pull side and from which side ("push",
    "pull") is the outside one."""
    if outside == "pull":
        return hand_from_outside(knuckles, "toward")
    return hand_from_outside(_other(knuckles), "away")


def din_from_knuckles(knuckles: str) -> str:
    """DIN left or right: the side the knuckles are on, seen from the pull side (DIN 107)."""
    return knuckles


def _other(side: str) -> str:
    return "right" if side == "left" else "left"


def _handing(inputs: Mapping[str, Given]) -> Answer:
    hinges = given(inputs, "hinges", str)
    swing = given(inputs, "swing", str)
    knuckles = given(inputs, "knuckles", str)
    outside = given(inputs, "outside", str)
    if (hinges is None) != (swing is None):
        missing = "swing=away or toward" if swing is None else "hinges=left or right"
        raise BadInput(f"hinges and swing go together, both seen from outside; add {missing}.")
    if hinges is None or swing is None:
        if knuckles is None:
            raise BadInput(
                "Give hinges= and swing= as seen from outside, or knuckles= as seen from the"
                " pull side."
            )
        return from_pull_side(knuckles, outside)
    _refuse_contradiction(hinges, swing, knuckles, outside)
    hand = hand_from_outside(hinges, swing)
    din = din_from_knuckles(knuckles_from_outside(hinges, swing))
    swings = "away from you" if swing == "away" else "toward you"
    working = (
        f"Seen from outside the hinges are on the {hinges} and the door swings {swings}:"
        f" {_FULL_NAMES[hand]} ({hand}), DIN {din}."
    )
    return Answer({"hand": hand, "din": din}, (working,), (_WHO_DECIDES,))


def from_pull_side(knuckles: str, outside: str | None) -> Answer:
    """Hand and DIN hand as seen from the pull side; the hand is None if `outside` is not known."""
    din = din_from_knuckles(knuckles)
    seen = f"Seen from the pull side the knuckles are on the {knuckles}"
    if outside is None:
        left_open = "which side is outside is not known, so LH, RH, LHR or RHR is left open"
        return Answer({"hand": None, "din": din}, (f"{seen}: DIN {din}; {left_open}.",))
    hand = hand_from_knuckles(knuckles, outside)
    working = f"{seen} and the {outside} side is outside: {_FULL_NAMES[hand]} ({hand}), DIN {din}."
    return Answer({"hand": hand, "din": din}, (working,), (_WHO_DECIDES,))


def _refuse_contradiction(
    hinges: str, swing: str, knuckles: str | None, outside: str | None
) -> None:
    should_show = knuckles_from_outside(hinges, swing)
    if knuckles is not None and knuckles != should_show:
        raise BadInput(
            f"hinges={hinges} swing={swing} puts the knuckles on the {should_show} seen from the"
            f" pull side, but knuckles={knuckles} was given; look at the door again."
        )
    should_be_outside = "pull" if swing == "toward" else "push"
    if outside is not None and outside != should_be_outside:
        raise BadInput(
            f"swing={swing} makes outside the {should_be_outside} side, but outside={outside} was"
            " given; look at the door again."
        )


KNUCKLES_ABOUT = "the side the hinge knuckles are on, seen from the pull side"
OUTSIDE_ABOUT = "which side of the door is outside: the corridor, key or secure side"
OUTSIDE_SIDES = ("push", "pull")


COMPUTATION = Computation(
    name="handing",
    about="The hand of a door, North American and DIN, from either side.",
    inputs=(
        Input("hinges", "choice", False, "the hinge side, seen from outside", SIDES),
        Input(
            "swing",
            "choice",
            False,
            "which way the door swings, seen from outside",
            ("away", "toward"),
        ),
        Input("knuckles", "choice", False, KNUCKLES_ABOUT, SIDES),
        Input("outside", "choice", False, OUTSIDE_ABOUT, OUTSIDE_SIDES),
    ),
    output=Output("mapping", ("hand", "din"), labels=(("hand", HANDS), ("din", SIDES))),
    compute=_handing,
    source=f"{NORTH_AMERICAN_SOURCE}; {EUROPEAN_SOURCE}",
    example="knuckles=left outside=pull",
)
