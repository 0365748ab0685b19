"""`sheet-size-fits`: whether an EN size is among the sizes of the sheet's closer."""

from collections.abc import Mapping

from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.mounts import SIZES
from guide.trade.sheet.lookup import SHEET_INPUT, SOURCE
from guide.trade.sheet.sheet import Sheet


def _size_fits(inputs: Mapping[str, Given]) -> Answer:
    sheet = needed(inputs, "sheet", Sheet)
    size = needed(inputs, "size", int)
    low, high = sheet.sizes
    fits = low <= size <= high
    has = f"EN size {low}" if low == high else f"EN sizes {low} to {high}"
    verdict = "is among them" if fits else "is not among them"
    return Answer(fits, (f"{sheet.sheet} has {has}: EN size {size} {verdict}.",))


COMPUTATION = Computation(
    name="sheet-size-fits",
    about="Whether an EN size is among the sizes of the sheet's closer.",
    inputs=(
        SHEET_INPUT,
        Input("size", "count", True, "EN size", low=SIZES[0], high=SIZES[1]),
    ),
    output=Output("yesno"),
    compute=_size_fits,
    source=SOURCE,
    example="sheet=generic-a size=3",
)
