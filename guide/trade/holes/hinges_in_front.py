"""`hinges-in-front`: the side the hinges are on for a person who faces the body's place."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Output, needed
from guide.trade.door.handing import SIDES
from guide.trade.holes.advice import PRACTICE_SOURCE, SIDE_WORDS
from guide.trade.holes.inputs import HAND_INPUT, KNUCKLES_INPUT, MOUNT_INPUT, knuckles_of
from guide.trade.holes.layout import hinges_in_front


def _hinges_in_front(inputs: Mapping[str, Given]) -> Answer:
    mount = needed(inputs, "mount", str)
    side = hinges_in_front(mount, knuckles_of(inputs))
    return Answer(
        side, (f"Facing the body's place on the {SIDE_WORDS[mount]}, hinges on your {side}.",)
    )


COMPUTATION = Computation(
    name="hinges-in-front",
    about="The side the hinges are on for someone facing the body's place.",
    inputs=(MOUNT_INPUT, HAND_INPUT, KNUCKLES_INPUT),
    output=Output("choice", SIDES),
    compute=_hinges_in_front,
    source=PRACTICE_SOURCE,
    example="mount=regular knuckles=left",
)
