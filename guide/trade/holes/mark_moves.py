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
    example=(
        "sheet=generic-a mount=regular hinge=butt range='100 deg' along_from=pin datum=top "
        "body_along='7 1/2 in' body_datum='1 1/2 in' shoe_along='13 in' shoe_datum='3/4 in' "
        "body_along_read='7 1/4 in' body_datum_read='1 1/2 in' shoe_along_read='13 in' shoe_datum_read='3/4 in'"
    ),
)
