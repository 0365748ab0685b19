"""The hand of a door as schedules write it: LH, RHR, “left hand reverse”, DIN left, or a building model's word."""

import re

from guide.site.schedule.cells import quoted
from guide.site.schedule.reading import Reading, asked, not_understood
from guide.site.schedule.sizes import A_PAIR
from guide.trade.door.handing import hand_from_outside, knuckles_from_outside

_REVERSE = r"(?:r(?:ev(?:erse)?)?(?:[ -]?b(?:evel)?)?|reverse(?: bevel)?)"
_HAND = re.compile(
    r"(?P<side>l|r|left|right)[ -]?(?:h(?:and)?)(?:ed)?[ -]*"
    rf"(?P<reverse>{_REVERSE})?(?P<active>[ -]?\(?(?:a|act(?:ive)?)\)?)?"
)
_DIN = re.compile(
    r"din[ -]*(?P<side>l|r|left|right|links|rechts)(?:[ -]*hand)?|(?P<word>links|rechts)"
)
_ONE_SIDE = ("l", "r", "left", "right")
_REVERSED = ("LHR", "RHR")

_OPERATIONS = {
    "single_swing_left": {"knuckles": knuckles_from_outside("left", "away"), "leaves": "single"},
    "single_swing_right": {"knuckles": knuckles_from_outside("right", "away"), "leaves": "single"},
    "double_swing_left": {"special": "both-ways"},
    "double_swing_right": {"special": "both-ways"},
    "double_door_double_swing": {"special": "both-ways"},
    "double_door_single_swing_opposite_left": {"leaves": "double-egress"},
    "double_door_single_swing_opposite_right": {"leaves": "double-egress"},
}
"""IfcDoorTypeOperationEnum of ISO 16739-1: hinges as seen from the side that the leaf swings away from."""


def is_reverse(text: str) -> bool:
    """Whether a hand is LHR or RHR, which only the North American way of naming has."""
    found = _HAND.fullmatch(_plain(text))
    return found is not None and bool(found["reverse"])


def doubtful_hand(text: str) -> Reading:
    """LH or RH in a schedule where nothing tells whether it is meant as in North America or by DIN 107: the same two
    letters then put the hinges on opposite sides."""
    found = _HAND.fullmatch(_plain(text))
    if found is None:
        return read_hand(text)
    return asked(
        f"{quoted(text)} can be the North American hand or the European one, which are opposite: from the side the"
        " leaf opens toward, are the hinges left or right?",
        "knuckles",
    )


def _plain(text: str) -> str:
    return " ".join(text.lower().replace(".", "").split())


def read_hand(text: str) -> Reading:
    """The side of the knuckles seen from the pull side, and which side is outside where the hand tells it."""
    plain = _plain(text)
    if plain in _OPERATIONS:
        return Reading(_OPERATIONS[plain])
    if plain == "double_door_single_swing":
        return Reading(questions=(A_PAIR,))
    din = _DIN.fullmatch(plain)
    if din is not None:
        side = din["side"] or din["word"]
        return Reading({"knuckles": "left" if side.startswith("l") else "right"})
    if plain in _ONE_SIDE:
        return asked(
            f"{quoted(text)} alone does not tell the hand: from the side the leaf opens toward, are the hinges left"
            " or right?",
            "knuckles",
        )
    found = _HAND.fullmatch(plain)
    if found is None:
        return not_understood(text)
    hinges = "left" if found["side"].startswith("l") else "right"
    swing = "toward" if found["reverse"] else "away"
    outside = "pull" if hand_from_outside(hinges, swing) in _REVERSED else "push"
    facts = {"knuckles": knuckles_from_outside(hinges, swing), "outside": outside}
    return Reading(facts | ({"leaves": "active"} if found["active"] else {}))
