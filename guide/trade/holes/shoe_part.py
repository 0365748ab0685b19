"""`shoe-part`: what the shoe's holes go into."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Output
from guide.trade.holes.advice import PART_LABELS, PRACTICE_SOURCE, part_answer
from guide.trade.holes.inputs import MOUNT_INPUT
from guide.trade.mounts import SHOE_INTO


def _shoe_part(inputs: Mapping[str, Given]) -> Answer:
    return part_answer(inputs, "shoe", SHOE_INTO)


COMPUTATION = Computation(
    name="shoe-part",
    about="What the shoe's holes go into.",
    inputs=(MOUNT_INPUT,),
    output=Output("choice", tuple(PART_LABELS.values())),
    compute=_shoe_part,
    source=PRACTICE_SOURCE,
    example="mount=regular",
)
