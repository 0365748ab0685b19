"""`hand`: the North American hand of a door, from the pull side."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.door.handing import (
    HANDS,
    KNUCKLES_ABOUT,
    NORTH_AMERICAN_SOURCE,
    OUTSIDE_ABOUT,
    OUTSIDE_SIDES,
    SIDES,
    from_pull_side,
    hand_from_knuckles,
)


def _hand(inputs: Mapping[str, Given]) -> Answer:
    knuckles = needed(inputs, "knuckles", str)
    outside = needed(inputs, "outside", str)
    found = from_pull_side(knuckles, outside)
    certain = given(inputs, "exterior", bool) or False
    return Answer(
        hand_from_knuckles(knuckles, outside), found.working, () if certain else found.cautions
    )


COMPUTATION = Computation(
    name="hand",
    about="The North American hand, from the pull side and which side is outside.",
    inputs=(
        Input("knuckles", "choice", True, KNUCKLES_ABOUT, SIDES),
        Input("outside", "choice", True, OUTSIDE_ABOUT, OUTSIDE_SIDES),
        Input(
            "exterior",
            "yesno",
            False,
            "whether it opens to the weather: then “outside” is certain",
        ),
    ),
    output=Output("choice", HANDS),
    compute=_hand,
    source=NORTH_AMERICAN_SOURCE,
    example="knuckles=left outside=pull",
)
