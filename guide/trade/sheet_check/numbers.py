"""A closer's sheet against itself: numbers that other numbers of the sheet, or EN 1154, speak against."""

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from guide.measures import Quantity
from guide.trade.sheet.parts import SheetMount
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.finding import SheetFinding, at_mount, look_at, named, odd_one
from guide.trade.spring_size import EN_1154_TABLE_1
from guide.trade.threads import THREADS, thread_typed

_RIGHT_ANGLE = Quantity(Fraction(85), "deg")
"""Ranges run from a right angle up to 180 deg (common practice), less what a rounding takes."""
_CHART_TOLERANCE = Fraction(1, 20)
"""How far a chart's width may be from one of EN 1154's for that size or the one below (our choice)."""
_TURNS_TOLERANCE = Fraction(1, 10)
_NUMBER = re.compile(r"\d+(?:\.\d+)?", re.ASCII)


def check_numbers(sheet: Sheet) -> Iterator[SheetFinding]:
    """Every finding that needs no kinematics."""
    for mount in sheet.mounts:
        yield from _ranges(sheet, mount)
        yield from _datums(sheet, mount)
        yield from _preset(sheet, mount)
    yield from _spring(sheet)
    yield from _chart(sheet)
    yield from _threads(sheet)


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


def _spring(sheet: Sheet) -> Iterator[SheetFinding]:
    screws = [(number, one) for number, one in enumerate(sheet.screws) if one.name == "spring"]
    if not screws or sheet.turns_per_size is None or screws[0][1].turns is None:
        return
    number, screw = screws[0]
    turns, low, high = screws[0][1].turns, *sheet.sizes
    needs = sheet.turns_per_size * (high - low)
    if abs(turns - needs) > needs * _TURNS_TOLERANCE:
        yield SheetFinding(
            "spring-turns",
            ("screws", number, "turns"),
            f"From EN size {low} to {high} at {sheet.turns_per_size} turns a size the {screw.name}"
            f" screw needs {needs} turns, and it has {turns}; {look_at('turns and sizes')}",
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


def _threads(sheet: Sheet) -> Iterator[SheetFinding]:
    for part, piece in (("body", sheet.body), ("shoe", sheet.shoe)):
        if piece is not None and thread_typed(piece.thread) not in THREADS:
            yield SheetFinding(
                "thread-unknown",
                (part, "thread"),
                f"The {part}'s screws are {piece.thread}, which is no standard thread;"
                f" {look_at('thread')}",
            )
