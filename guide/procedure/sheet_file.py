"""A closer's sheet from its file: validated here, handed on as the trade's plain class."""

from fractions import Fraction
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from guide import measures
from guide.measures import MeasureError, Quantity
from guide.procedure import schema
from guide.procedure.findings import BadFile
from guide.procedure.source import Path_, Source, need_shape, read_source
from guide.trade.sheet import ChartRow, OpeningRange, Screw, Sheet, SheetMount
from guide.trade.sheet_parts import ALONG_FROM, DATUMS


class RangeRow(schema.Shape):
    """Where body and shoe go for openings up to one angle."""

    up_to: schema.Line
    body_along: schema.Line
    body_datum: schema.Line
    shoe_along: schema.Line
    shoe_datum: schema.Line


class MountRow(schema.Shape):
    """One way of mounting the closer."""

    mount: Literal["regular", "top-jamb", "parallel"]
    along_from: Literal["hinge edge", "hinge pin centre"]
    datum: Literal["underside of the stop", "top of the leaf"]
    valves_toward: Literal["hinge", "latch"]
    arm_rests: schema.Line
    preset: schema.Line = "none"
    ranges: Annotated[list[RangeRow], Field(min_length=1)]


class ScrewRow(schema.Shape):
    """One adjusting screw."""

    name: Literal["sweep", "latch", "backcheck", "delayed-action", "spring"]
    where: schema.Line
    slower: Literal["clockwise", "anticlockwise", "read the label"] = "read the label"
    turns: schema.Line | None = None
    has_stop: schema.YesNo | None = None


class ChartLine(schema.Shape):
    """One line of the sheet's own size chart."""

    mount: Literal["regular", "top-jamb", "parallel"] | None = None
    max_width: schema.Line
    size: schema.Whole


def _sizes(value: object) -> object:
    if isinstance(value, str):
        low, _, high = value.partition(" to ")
        if low.strip().isdigit() and (high or low).strip().isdigit():
            return (int(low), int(high or low))
    raise ValueError("write the sizes as “1 to 6”, or one number")


class SheetShape(schema.Shape):
    """A closer's sheet, copied by its owner from the maker's own."""

    sheet: schema.Id
    about: schema.Words
    units: Literal["inch", "metric"]
    sizes: Annotated[tuple[int, int], BeforeValidator(_sizes)]
    adjustable: schema.YesNo
    turns_per_size: schema.Line | None = None
    through_bolts: schema.Words = ""
    mounts: Annotated[list[MountRow], Field(min_length=1)]
    screws: list[ScrewRow] = []
    chart: list[ChartLine] = []


assert set(ALONG_FROM) == {"hinge edge", "hinge pin centre"}
assert set(DATUMS) == {"underside of the stop", "top of the leaf"}


def load_sheet(path: Path) -> Sheet:
    """The sheet in a file. Raises BadFile with every fault."""
    source = read_source(path, SheetShape, "A sheet")
    shape: SheetShape = need_shape(source)
    mounts = tuple(
        _mount(source, row, ("mounts", number)) for number, row in enumerate(shape.mounts)
    )
    screws = tuple(
        Screw(
            row.name,
            row.where,
            row.slower,
            _turns(source, row.turns, ("screws", number, "turns")),
            row.has_stop,
        )
        for number, row in enumerate(shape.screws)
    )
    chart = tuple(
        ChartRow(
            row.mount,
            _measure(source, row.max_width, "length", ("chart", number, "max_width")),
            row.size,
        )
        for number, row in enumerate(shape.chart)
    )
    per_size = _turns(source, shape.turns_per_size, ("turns_per_size",))
    need_shape(source)
    try:
        return Sheet(
            shape.sheet,
            shape.about,
            shape.units,
            shape.sizes,
            shape.adjustable,
            mounts,
            screws,
            chart,
            per_size,
            shape.through_bolts,
        )
    except ValueError as error:
        source.fault((), "sheet-wrong", str(error))
        raise BadFile(source.findings) from error


def _mount(source: Source, row: MountRow, path: Path_) -> SheetMount:
    ranges = []
    for number, line in enumerate(row.ranges):
        here = (*path, "ranges", number)
        ranges.append(
            OpeningRange(
                _measure(source, line.up_to, "angle", (*here, "up_to")),
                _measure(source, line.body_along, "length", (*here, "body_along")),
                _measure(source, line.body_datum, "length", (*here, "body_datum")),
                _measure(source, line.shoe_along, "length", (*here, "shoe_along")),
                _measure(source, line.shoe_datum, "length", (*here, "shoe_datum")),
            )
        )
    try:
        return SheetMount(
            row.mount,
            tuple(ranges),
            row.datum,
            row.along_from,
            row.valves_toward,
            row.arm_rests,
            row.preset,
        )
    except ValueError as error:
        source.fault(path, "sheet-wrong", str(error))
        raise BadFile(source.findings) from error


def _measure(source: Source, text: str, kind: str, path: Path_) -> Quantity:
    """A measure with its unit; a fault is noted and stops the sheet once all are read."""
    try:
        return measures.parse(text, kind)
    except MeasureError as error:
        source.fault(path, "unit-wrong", str(error))
        return Quantity(Fraction(1), measures.home_unit(kind, "inch"))


def _turns(source: Source, text: str | None, path: Path_) -> Fraction | None:
    if text is None:
        return None
    whole, _, part = text.strip().partition(" ")
    try:
        return Fraction(whole) + (Fraction(part) if part else 0)
    except (ValueError, ZeroDivisionError):
        source.fault(path, "unit-wrong", f"“{text}” is no number of turns; write 4 or 2 1/2.")
        return None
