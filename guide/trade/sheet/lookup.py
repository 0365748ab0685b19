"""What a closer's sheet says: where body and shoe go, and whether a size is within its range."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import TypeAlias

from guide.measures import Quantity
from guide.trade.answer import Answer
from guide.trade.computation import Computation, Given, Input, Output, needed
from guide.trade.mounts import MOUNT_WORDS, MOUNTS, SIZES
from guide.trade.sheet.parts import OpeningRange, SheetMount
from guide.trade.sheet.sheet import Sheet

SHEET_INPUT = Input("sheet", "sheet", True, "the sheet of the closer being fitted")

_SOURCE = "the maker's sheet, as its owner copied it"
_CHECK_THE_PAPER = "Hold the number against the maker's own sheet before drilling."

_Measured: TypeAlias = tuple[Quantity, str]
"""A distance and the datum it is measured from."""


def _place(
    inputs: Mapping[str, Given], part: str, pick: Callable[[SheetMount, OpeningRange], _Measured]
) -> Answer:
    sheet = needed(inputs, "sheet", Sheet)
    name = needed(inputs, "mount", str)
    found = sheet.range_for(name, needed(inputs, "opening", Quantity))
    value, start = pick(sheet.mount(name), found)
    working = (
        f"{sheet.sheet}, {MOUNT_WORDS[name]}, opening to {found.up_to}:"
        f" {part} {value} from the {start}."
    )
    return Answer(value, (working,), (_CHECK_THE_PAPER,))


def _body_along(inputs: Mapping[str, Given]) -> Answer:
    return _place(inputs, "body", lambda mount, found: (found.body_along, mount.along_from))


def _body_datum(inputs: Mapping[str, Given]) -> Answer:
    return _place(inputs, "body", lambda mount, found: (found.body_datum, mount.datum))


def _shoe_along(inputs: Mapping[str, Given]) -> Answer:
    return _place(inputs, "shoe", lambda mount, found: (found.shoe_along, mount.along_from))


def _shoe_datum(inputs: Mapping[str, Given]) -> Answer:
    return _place(inputs, "shoe", lambda mount, found: (found.shoe_datum, mount.datum))


def _size_fits(inputs: Mapping[str, Given]) -> Answer:
    sheet = needed(inputs, "sheet", Sheet)
    size = needed(inputs, "size", int)
    low, high = sheet.sizes
    fits = low <= size <= high
    has = f"EN size {low}" if low == high else f"EN sizes {low} to {high}"
    verdict = "is among them" if fits else "is not among them"
    return Answer(fits, (f"{sheet.sheet} has {has}: EN size {size} {verdict}.",))


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


def _row(name: str, about: str, compute: Callable[[Mapping[str, Given]], Answer]) -> Computation:
    return Computation(name, about, _PLACE_INPUTS, Output("length"), compute, _SOURCE)


COMPUTATIONS = (
    _row("sheet-body-along", "Where the body goes along the door.", _body_along),
    _row("sheet-body-datum", "How far the body is from the mount's datum.", _body_datum),
    _row("sheet-shoe-along", "Where the shoe goes along the door.", _shoe_along),
    _row("sheet-shoe-datum", "How far the shoe is from the mount's datum.", _shoe_datum),
    Computation(
        name="sheet-size-fits",
        about="Whether an EN size is among the sizes of the sheet's closer.",
        inputs=(
            SHEET_INPUT,
            Input("size", "count", True, "EN size", low=SIZES[0], high=SIZES[1]),
        ),
        output=Output("yesno"),
        compute=_size_fits,
        source=_SOURCE,
    ),
)
