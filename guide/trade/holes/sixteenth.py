"""`sixteenth`: the latch power that a mark 1/16 in off can cost on this arm."""

from collections.abc import Mapping

from guide.trade.answer import Answer, NoAnswer
from guide.trade.computation import Computation, Given, Output
from guide.trade.door.hinges import HINGE_WORDS
from guide.trade.holes.advice import LINKAGE_SOURCE, SHEET_INPUTS, shift_sentences
from guide.trade.holes.inputs import read_request
from guide.trade.holes.shift import shifts

TOUCHY = 4
"""A change of the latch power by a sixteenth that is worth a warning [percent] (our choice)."""


def _sixteenth(inputs: Mapping[str, Given]) -> Answer:
    request = read_request(inputs)
    right, rows = shifts(request.sheet, request.mount, request.found, request.opening)
    if right.power is None:
        raise NoAnswer(
            f"On {HINGE_WORDS[request.hinge]} the arm of {request.sheet.sheet} cannot be joined with the"
            " door closed: check the sheet, or get the maker's special template."
        )
    most = max(row.percent for row in rows)
    cautions = ("Mark and punch this one with care: the arm is touchy.",) if most > TOUCHY else ()
    return Answer(round(most, 1), tuple(shift_sentences(request)), cautions)


COMPUTATION = Computation(
    name="sixteenth",
    about="Percent of the latch power that a mark 1/16 in off can cost on this arm.",
    inputs=SHEET_INPUTS,
    output=Output("number"),
    compute=_sixteenth,
    source=LINKAGE_SOURCE,
    example="sheet=generic-a mount=regular hinge=butt range='100 deg'",
)
