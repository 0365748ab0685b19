"""A closer's sheet from its file: validated here, handed on as the trade's plain class."""

import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Annotated, Literal, TypeVar

from pydantic import BeforeValidator, Field

from guide import measures
from guide.measures import MeasureError, Quantity
from guide.procedure import schema
from guide.procedure.facts import bare
from guide.procedure.findings import BadFile
from guide.procedure.source import Path_, Source, need_shape, read_source
from guide.procedure.spelling import short
from guide.trade.sheet.body import Hole, SheetArm, SheetBody, SheetShoe
from guide.trade.sheet.sheet import Accessory, ChartRow, OpeningRange, Screw, Sheet, SheetMount
from guide.trade.signed import parse_signed

T = TypeVar("T")
_SIZES = re.compile(r"([1-9])(?: to ([1-9]))?", re.ASCII)
_TURNS = re.compile(r"(\d{1,3}(?:\.\d{1,3})?)?(?: ?\b(\d{1,2}/[1-9]\d?))?", re.ASCII)


class HoleRow(schema.Shape):
    """One hole, from the pinion or the shoe's pivot; a minus is allowed."""

    name: schema.Line
    along: schema.Line
    down: schema.Line
    kind: Literal["screw", "through-bolt", "extra"] = "screw"


class BodyShape(schema.Shape):
    """The body, from the pinion."""

    pinion_out: schema.Line
    valve_end: schema.Line
    other_end: schema.Line
    projects: schema.Line
    height: schema.Line
    thread: schema.Line
    holes: Annotated[list[HoleRow], Field(min_length=1)]


class ShoeShape(schema.Shape):
    """The shoe, from its pivot."""

    thread: schema.Line
    holes: Annotated[list[HoleRow], Field(min_length=1)]


class ArmShape(schema.Shape):
    """The arm of one mount, between centres."""

    main: schema.Line
    forearm: schema.Line
    """One length, or two with “to” between them where the rod adjusts."""
    rests: Literal["forearm square to the frame", "main arm along the door"]
    shoe_out: schema.Line | None = None
    preset_turn: schema.Line = "0 deg"


class RangeRow(schema.Shape):
    """Where body and shoe go for openings up to one angle."""

    up_to: schema.Line
    body_along: schema.Line
    body_datum: schema.Line
    shoe_along: schema.Line
    shoe_datum: schema.Line
    forearm: schema.Line | None = None


class MountRow(schema.Shape):
    """One way of mounting the closer."""

    mount: Literal["regular", "top-jamb", "parallel"]
    along_from: Literal["hinge edge", "hinge pin centre"]
    datum: Literal["underside of the stop", "top of the leaf"]
    valves_toward: Literal["hinge", "latch"]
    arm_rests: schema.Line
    preset: schema.Line = "none"
    arm: ArmShape | None = None
    ranges: Annotated[list[RangeRow], Field(min_length=1)]


class ScrewRow(schema.Shape):
    """One adjusting screw."""

    name: Literal["sweep", "latch", "backcheck", "delayed-action", "spring"]
    where: schema.Line
    slower: Literal["clockwise", "anticlockwise", "read the label"] = "read the label"
    turns: schema.Line | None = None
    has_stop: schema.YesNo | None = None


class AccessoryRow(schema.Shape):
    """A part the maker has beside the closer."""

    name: schema.Line
    when: schema.Words
    mount: Literal["regular", "top-jamb", "parallel"] | None = None


class ChartLine(schema.Shape):
    """One line of the sheet's own size chart."""

    mount: Literal["regular", "top-jamb", "parallel"] | None = None
    max_width: schema.Line
    size: schema.Whole


def _sizes(value: object) -> object:
    found = _SIZES.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise ValueError("write the sizes as “1 to 6”, or one number")
    return int(found[1]), int(found[2] or found[1])


class SheetShape(schema.Shape):
    """A closer's sheet, copied by its owner from the maker's own."""

    sheet: schema.Id
    about: schema.Words
    units: Literal["inch", "metric"]
    sizes: Annotated[tuple[int, int], BeforeValidator(_sizes)]
    adjustable: schema.YesNo
    turns_per_size: schema.Line | None = None
    through_bolts: schema.Words = ""
    body: BodyShape | None = None
    shoe: ShoeShape | None = None
    mounts: Annotated[list[MountRow], Field(min_length=1)]
    screws: list[ScrewRow] = []
    chart: list[ChartLine] = []
    accessories: list[AccessoryRow] = []


def load_sheet(path: Path) -> Sheet:
    """The sheet in a file. Raises BadFile with every fault."""
    return read_sheet(path)[1]


def read_sheet(path: Path, text: str | None = None) -> tuple[Source, Sheet]:
    """The sheet in a file, and the places of its parts. Raises BadFile with every fault."""
    source = read_source(path, SheetShape, "A sheet", text)
    shape: SheetShape = need_shape(source)
    mounts = [_mount(source, row, ("mounts", number)) for number, row in enumerate(shape.mounts)]
    screws = [_screw(source, row, ("screws", number)) for number, row in enumerate(shape.screws)]
    chart = [_chart(source, row, ("chart", number)) for number, row in enumerate(shape.chart)]
    per_size = _turns(source, shape.turns_per_size, ("turns_per_size",))
    body = None if shape.body is None else _body(source, shape.body, ("body",))
    shoe = None if shape.shoe is None else _shoe(source, shape.shoe, ("shoe",))
    need_shape(source)
    sheet = _made(
        source,
        (),
        lambda: Sheet(
            shape.sheet,
            shape.about,
            shape.units,
            shape.sizes,
            shape.adjustable,
            tuple(one for one in mounts if one is not None),
            tuple(one for one in screws if one is not None),
            tuple(one for one in chart if one is not None),
            per_size,
            shape.through_bolts,
            body,
            shoe,
            tuple(Accessory(row.name, row.when, row.mount) for row in shape.accessories),
        ),
    )
    if sheet is None:
        raise BadFile(source.findings)
    return source, sheet


def _made(source: Source, path: Path_, make: Callable[[], T]) -> T | None:
    """What `make` makes; what the trade says against it is noted at `path`."""
    try:
        return make()
    except ValueError as error:
        source.fault(path, "sheet-wrong", str(error))
        return None


def _mount(source: Source, row: MountRow, path: Path_) -> SheetMount | None:
    ranges = [
        _range(source, line, (*path, "ranges", number)) for number, line in enumerate(row.ranges)
    ]
    whole = [one for one in ranges if one is not None]
    arm = None if row.arm is None else _arm(source, row.arm, (*path, "arm"))
    if len(whole) < len(ranges) or (arm is None) != (row.arm is None):
        return None
    return _made(
        source,
        path,
        lambda: SheetMount(
            row.mount,
            tuple(whole),
            row.datum,
            row.along_from,
            row.valves_toward,
            row.arm_rests,
            row.preset,
            arm,
        ),
    )


def _arm(source: Source, row: ArmShape, path: Path_) -> SheetArm | None:
    main = _measure(source, row.main, "length", (*path, "main"))
    ends = [
        _measure(source, part, "length", (*path, "forearm"))
        for part in row.forearm.split(" to ", 1)
    ]
    shoe_out = (
        None
        if row.shoe_out is None
        else _measure(source, row.shoe_out, "length", (*path, "shoe_out"))
    )
    preset = _measure(source, row.preset_turn, "angle", (*path, "preset_turn"))
    shortest, longest = ends[0], ends[-1]
    if main is None or shortest is None or longest is None or preset is None:
        return None
    if shoe_out is None and row.shoe_out is not None:
        return None
    return _made(
        source, path, lambda: SheetArm(main, (shortest, longest), row.rests, shoe_out, preset)
    )


def _body(source: Source, row: BodyShape, path: Path_) -> SheetBody | None:
    measured = [
        _measure(source, getattr(row, key), "length", (*path, key))
        for key in ("pinion_out", "valve_end", "other_end", "projects", "height")
    ]
    holes = _holes(source, row.holes, (*path, "holes"))
    whole = [one for one in measured if one is not None]
    if len(whole) < len(measured) or holes is None:
        return None
    out, valve_end, other_end, projects, height = whole
    return _made(
        source,
        path,
        lambda: SheetBody(out, valve_end, other_end, projects, height, row.thread, holes),
    )


def _shoe(source: Source, row: ShoeShape, path: Path_) -> SheetShoe | None:
    holes = _holes(source, row.holes, (*path, "holes"))
    return None if holes is None else _made(source, path, lambda: SheetShoe(row.thread, holes))


def _holes(source: Source, rows: list[HoleRow], path: Path_) -> tuple[Hole, ...] | None:
    found = [_hole(source, row, (*path, number)) for number, row in enumerate(rows)]
    whole = tuple(one for one in found if one is not None)
    return whole if len(whole) == len(found) else None


def _hole(source: Source, row: HoleRow, path: Path_) -> Hole | None:
    along = _measure(source, row.along, "length", (*path, "along"), signed=True)
    down = _measure(source, row.down, "length", (*path, "down"), signed=True)
    if along is None or down is None:
        return None
    return _made(source, path, lambda: Hole(row.name, along, down, row.kind))


def _range(source: Source, line: RangeRow, path: Path_) -> OpeningRange | None:
    measured = [
        _measure(source, getattr(line, key), "angle" if key == "up_to" else "length", (*path, key))
        for key in ("up_to", "body_along", "body_datum", "shoe_along", "shoe_datum")
    ]
    forearm = (
        None
        if line.forearm is None
        else _measure(source, line.forearm, "length", (*path, "forearm"))
    )
    whole = [one for one in measured if one is not None]
    if len(whole) < len(measured) or (forearm is None) != (line.forearm is None):
        return None
    up_to, body_along, body_datum, shoe_along, shoe_datum = whole
    return _made(
        source,
        path,
        lambda: OpeningRange(up_to, body_along, body_datum, shoe_along, shoe_datum, forearm),
    )


def _screw(source: Source, row: ScrewRow, path: Path_) -> Screw | None:
    turns = _turns(source, row.turns, (*path, "turns"))
    return _made(source, path, lambda: Screw(row.name, row.where, row.slower, turns, row.has_stop))


def _chart(source: Source, row: ChartLine, path: Path_) -> ChartRow | None:
    width = _measure(source, row.max_width, "length", (*path, "max_width"))
    if width is None:
        return None
    return _made(source, path, lambda: ChartRow(row.mount, width, row.size))


def _measure(
    source: Source, text: str, kind: str, path: Path_, *, signed: bool = False
) -> Quantity | None:
    """A measure with its unit; None where it is none, which is noted."""
    try:
        found = parse_signed(text, kind) if signed else measures.parse(text, kind)
    except MeasureError as error:
        source.fault(path, "unit-wrong", str(error))
        return None
    if bare(text):
        unit = measures.home_unit(kind, "inch")
        source.fault(path, "unit-wrong", f"“{text}” has no unit; write one, as in “{text} {unit}”.")
        return None
    return found


def _turns(source: Source, text: str | None, path: Path_) -> Fraction | None:
    if text is None:
        return None
    found = _TURNS.fullmatch(text.strip())
    # 21/2 is most likely 2 1/2 with its space left out.
    if found is None or not (found[1] or found[2]) or Fraction(found[2] or 0) >= 1:
        source.fault(
            path, "turns-wrong", f"“{short(text)}” is no number of turns; write 4 or 2 1/2."
        )
        return None
    return Fraction(found[1] or 0) + Fraction(found[2] or 0)
