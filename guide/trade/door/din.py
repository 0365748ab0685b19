"""`din`: the hand of a door by DIN 107, from the pull side."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.door.handing import EUROPEAN_SOURCE, KNUCKLES_ABOUT, SIDES, din_from_knuckles


def _din(inputs: Mapping[str, Given]) -> Answer:
    knuckles = needed(inputs, "knuckles", str)
    working = f"Seen from the pull side the knuckles are on the {knuckles}: DIN {knuckles}."
    return Answer(din_from_knuckles(knuckles), (working,))


COMPUTATION = Computation(
    name="din",
    about="The DIN hand, from the pull side.",
    inputs=(Input("knuckles", "choice", True, KNUCKLES_ABOUT, SIDES),),
    output=Output("choice", SIDES),
    compute=_din,
    source=EUROPEAN_SOURCE,
    example="knuckles=left",
)
