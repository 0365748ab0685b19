"""A closer's sheet by its numbers that other numbers of it, or EN 1154, speak against; none needs the arm."""

import re
from collections.abc import Iterator
from dataclasses import is_dataclass
from fractions import Fraction
from itertools import pairwise

from guide.measures import Quantity
from guide.text import either
from guide.trade.en_1154 import EN_1154_TABLE_1
from guide.trade.sheet.codec import Path as FilePath
from guide.trade.sheet.codec import fields_of
from guide.trade.sheet.parts import (
    UNITS_OF,
    SheetMount,
)
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.finding import SheetFinding, at_mount, look_at, named, odd_one

_RIGHT_ANGLE = Quantity(Fraction(85), "deg")
"""Ranges run from a right angle up to 180 deg (common practice), less what a rounding takes."""

_CHART_TOLERANCE = Fraction(1, 20)
"""How far a chart's width may be from one of EN 1154's for that size or the one below (our choice)."""

_NUMBER = re.compile(r"\d+(?:\.\d+)?", re.ASCII)


def check_numbers(sheet: Sheet) -> Iterator[SheetFinding]:
    """Numbers that other numbers of the sheet, or EN 1154, speak against; none needs the arm."""
    for mount in sheet.mounts:
        yield from _ranges(sheet, mount)
        yield from _datums(sheet, mount)
        yield from _preset(sheet, mount)
        yield from _datum_in_sight(sheet, mount)
    yield from _along_from(sheet)
    yield from _units(sheet)
    yield from _valves(sheet)
    yield from _chart(sheet)


def _ranges(sheet: Sheet, mount: SheetMount) -> Iterator[SheetFinding]:
    first = mount.ranges[0]
    if first.up_to < _RIGHT_ANGLE:
        yield SheetFinding(
            "range-narrow",
            at_mount(sheet.mounts, mount, "ranges", 0, "up_to"),
            f"{named(mount, first)}: a closer's ranges begin at a right angle;"
            f" {look_at('up_to', first.up_to)}",
        )
    for number, (smaller, larger) in enumerate(pairwise(mount.ranges), start=1):
        for key, near, far in (
            ("body_along", smaller.body_along, larger.body_along),
            ("shoe_along", smaller.shoe_along, larger.shoe_along),
        ):
            if far > near:
                yield SheetFinding(
                    "range-order",
                    at_mount(sheet.mounts, mount, "ranges", number, key),
                    f"{named(mount, larger)}: a wider opening brings body and shoe toward the hinge,"
                    f" and this goes from {near} to {far}; {look_at(key)}",
                )


def _datums(sheet: Sheet, mount: SheetMount) -> Iterator[SheetFinding]:
    for key, values in (
        ("body_datum", [one.body_datum for one in mount.ranges]),
        ("shoe_datum", [one.shoe_datum for one in mount.ranges]),
    ):
        odd = odd_one(values)
        if odd is not None:
            others = " or ".join(str(one) for one in dict.fromkeys(values) if one != values[odd])
            yield SheetFinding(
                "datum-differs",
                at_mount(sheet.mounts, mount, "ranges", odd, key),
                f"{named(mount, mount.ranges[odd])}: {key} is {values[odd]} and elsewhere on this"
                f" mount {others}; {look_at(key)}",
            )


def _preset(sheet: Sheet, mount: SheetMount) -> Iterator[SheetFinding]:
    if mount.arm is None:
        return
    told = [Fraction(number) for number in _NUMBER.findall(mount.preset)]
    if told and mount.arm.preset_turn.base not in told:
        yield SheetFinding(
            "preset-differs",
            at_mount(sheet.mounts, mount, "arm", "preset_turn"),
            f"{named(mount)}: the preset says {mount.preset} and preset_turn says"
            f" {mount.arm.preset_turn}; {look_at('both')}",
        )


def _units(sheet: Sheet) -> Iterator[SheetFinding]:
    """Most lengths are in the system the paper is written in."""
    own = UNITS_OF[sheet.units]
    lengths = list(_lengths(sheet, ()))
    others = [(path, one) for path, one in lengths if one.unit not in own]
    if 2 * len(others) > len(lengths):
        yield SheetFinding(
            "units-differ",
            ("units",),
            f"The sheet says {sheet.units}, and {len(others)} of its {len(lengths)} lengths are not in"
            f" {either(own)}; {look_at('units')}",
        )
        return
    for path, one in others:
        yield SheetFinding(
            "units-differ",
            path,
            f"The sheet says {sheet.units}, and this is {one}; {look_at(str(path[-1]), one)}",
            advice=True,
        )


def _lengths(part: object, path: FilePath) -> Iterator[tuple[FilePath, Quantity]]:
    """Every length of a sheet, or of a part of one, with its path."""
    if isinstance(part, Quantity):
        if part.kind == "length":
            yield path, part
    elif isinstance(part, tuple):
        span = any(isinstance(one, Quantity) for one in part)
        for number, one in enumerate(part):
            yield from _lengths(one, path if span else (*path, number))
    elif is_dataclass(part) and not isinstance(part, type):
        for field in fields_of(type(part)):
            value = getattr(part, field.key)
            if value != field.default:
                yield from _lengths(value, (*path, field.key))


_IN_SIGHT = {
    "regular": "top of the leaf",
    "top-jamb": "underside of the stop",
    "parallel": "underside of the stop",
}
"""The datum that is seen from the side where the body goes: on the pull side the leaf covers the stop, and
on the push side the stop covers the top of the leaf."""


def _datum_in_sight(sheet: Sheet, mount: SheetMount) -> Iterator[SheetFinding]:
    if mount.datum != _IN_SIGHT[mount.mount]:
        yield SheetFinding(
            "datum-hidden",
            at_mount(sheet.mounts, mount, "datum"),
            f"{named(mount)}: with the door closed the {mount.datum} is out of sight from the body's"
            f" side, so nothing can be laid or measured from there; look again at datum, usually the"
            f" {_IN_SIGHT[mount.mount]}.",
            advice=True,
        )


def _along_from(sheet: Sheet) -> Iterator[SheetFinding]:
    odd = odd_one([mount.along_from for mount in sheet.mounts])
    if odd is not None:
        mount = sheet.mounts[odd]
        yield SheetFinding(
            "along-from-differs",
            at_mount(sheet.mounts, mount, "along_from"),
            f"{named(mount)}: the distances along are from the {mount.along_from}, and on the other"
            f" mounts not; {look_at('along_from')}",
            advice=True,
        )


def _valves(sheet: Sheet) -> Iterator[SheetFinding]:
    """The valves of one closer turn alike."""
    valves = [
        (number, one)
        for number, one in enumerate(sheet.screws)
        if one.name != "spring" and one.slower != "read the label"
    ]
    odd = odd_one([one.slower for _, one in valves])
    if odd is not None:
        number, valve = valves[odd]
        yield SheetFinding(
            "valve-differs",
            ("screws", number, "slower"),
            f"The {valve.name} valve is slower {valve.slower}, and the others the other way;"
            f" {look_at('slower')}",
            advice=True,
        )


def _chart(sheet: Sheet) -> Iterator[SheetFinding]:
    widths = {size: Fraction(widest) for size, widest, _ in EN_1154_TABLE_1}
    for number, row in enumerate(sheet.chart):
        width = row.max_width.to("mm").magnitude
        usual = [widths[size] for size in (row.size, row.size - 1) if size in widths]
        if not any(abs(width / one - 1) <= _CHART_TOLERANCE for one in usual):
            yield SheetFinding(
                "chart-width",
                ("chart", number, "max_width"),
                f"The chart gives EN size {row.size} for leaves to {row.max_width}, where EN 1154 has"
                f" {' or '.join(f'{float(one):g} mm' for one in usual)}; {look_at('max_width')}",
            )
    yield from _chart_alike(sheet)


def _chart_alike(sheet: Sheet) -> Iterator[SheetFinding]:
    """Two widths of a chart that nearly agree: the rarer is likely the other, miswritten."""
    widths = [row.max_width for row in sheet.chart]
    for number, width in enumerate(widths):
        for other in widths:
            near = width != other and abs(width.base / other.base - 1) < _CHART_TOLERANCE
            if near and widths.count(width) < widths.count(other):
                yield SheetFinding(
                    "chart-width",
                    ("chart", number, "max_width"),
                    f"The chart has {width} once and {other} more often;"
                    f" {look_at('max_width', width)}",
                )
                break
