"""`body-part`: what the body's holes go into."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Output
from guide.trade.holes.advice import PART_LABELS, PRACTICE_SOURCE, part_answer
from guide.trade.holes.inputs import MOUNT_INPUT
from guide.trade.holes.layout import FRAME, LEAF
from guide.trade.mounts import BODY_INTO


def _body_part(inputs: Mapping[str, Given]) -> Answer:
    return part_answer(inputs, "body", BODY_INTO)


COMPUTATION = Computation(
    name="body-part",
    about="What the body's holes go into.",
    inputs=(MOUNT_INPUT,),
    output=Output("choice", (PART_LABELS[LEAF], PART_LABELS[FRAME])),
    compute=_body_part,
    source=PRACTICE_SOURCE,
    example="mount=regular",
)
