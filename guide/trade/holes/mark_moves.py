"""`mark-moves`: how to move the marks that were read back wrong, in words for a step of a procedure."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Output
from guide.trade.holes.marks import INPUTS, checked_marks

PARTS = ("body", "shoe")


def _moves(inputs: Mapping[str, Given]) -> Answer:
    _, checked, working = checked_marks(inputs)
    return Answer({of: checked.correction(of) for of in PARTS}, working)


COMPUTATION = Computation(
    name="mark-moves",
    about="How far and which way to move each mark that was read back wrong.",
    inputs=INPUTS,
    output=Output("mapping", PARTS),
    compute=_moves,
    source="the maker's sheet, as its owner copied it; tolerances are common practice",
)
