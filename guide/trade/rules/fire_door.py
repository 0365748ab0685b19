"""`fire-door`: whether a door is treated as a fire door, by what its label says. In doubt it is."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, needed

RATED, NOT_RATED, IN_DOUBT = LABELS = ("yes", "no", "doubt")
"""Known to be rated, known not to be, and neither."""

_TOLD = {
    RATED: "It is a fire door.",
    NOT_RATED: "It is not a fire door.",
    IN_DOUBT: "In doubt it is treated as a fire door, until its label, the schedule or the owner says otherwise.",
}


def _fire_door(inputs: Mapping[str, Given]) -> Answer:
    rated = needed(inputs, "rated", str)
    treated = rated != NOT_RATED
    headline = "treated as a fire door" if treated else "not a fire door"
    return Answer("yes" if treated else "no", (_TOLD[rated],), headline=headline)


COMPUTATION = Computation(
    name="fire-door",
    about="Whether a door is treated as a fire door: a painted or missing label leaves it in doubt.",
    inputs=(Input("rated", "choice", True, "whether it is known to be rated", LABELS),),
    output=Output("yesno"),
    compute=_fire_door,
    source="common practice",
    example="rated=doubt",
)
