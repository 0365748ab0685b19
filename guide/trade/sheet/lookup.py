"""Where a closer's sheet puts body and shoe: shared by the four `sheet-…-along` and `sheet-…-datum` computations."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import TypeAlias

from guide.measures import Quantity
from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.mounts import MOUNT_WORDS, MOUNTS
from guide.trade.sheet.parts import OpeningRange, SheetMount
from guide.trade.sheet.sheet import Sheet

SHEET_INPUT = Input("sheet", "sheet", True, "the sheet of the closer being fitted")

SOURCE = "the maker's sheet, as its owner copied it"
_CHECK_THE_PAPER = (
    "Compare the number with the maker's own sheet before drilling. A plate or a bracket moves it:"
    " setting-out allows for that."
)

_Measured: TypeAlias = tuple[Quantity, str]
"""A distance and the datum it is measured from."""

_PLACE_INPUTS = (
    SHEET_INPUT,
    Input("mount", "choice", True, "how the closer is mounted", MOUNTS),
    Input(
        "opening",
        "angle",
        True,
        "how far the door is to open, from closed",
        low=Quantity(Fraction(1), "deg"),
        high=Quantity(Fraction(180), "deg"),
    ),
)

_PLACE_EXAMPLE = "sheet=generic-a mount=regular opening='100 deg'"


def place_computation(
    name: str, about: str, part: str, pick: Callable[[SheetMount, OpeningRange], _Measured]
) -> Computation:
    """The computation that reads one distance [length] of `part` from the sheet's row for mount and opening.

    NoAnswer if the sheet has no such mount, or no row for so wide an opening.
    """

    def compute(inputs: Mapping[str, Given]) -> Answer:
        sheet = needed(inputs, "sheet", Sheet)
        mount = needed(inputs, "mount", str)
        row = sheet.range_for(mount, needed(inputs, "opening", Quantity))
        value, start = pick(sheet.mount(mount), row)
        working = (
            f"{sheet.sheet}, {MOUNT_WORDS[mount]}, opening to {row.up_to}:"
            f" {part} {value} from the {start}."
        )
        return Answer(value, (working,), (_CHECK_THE_PAPER,))

    return Computation(
        name, about, _PLACE_INPUTS, Output("length"), compute, SOURCE, example=_PLACE_EXAMPLE
    )
