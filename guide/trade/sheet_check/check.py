"""A closer's sheet against itself: its arms, its holes, and numbers that other numbers speak against.

A sheet that can be read may still be wrong: a digit dropped, two swapped, 1/16 written for 1/8. Each finding is a plain
sentence that names the number most likely mistyped. Nothing here replaces comparing the numbers with the maker's own
sheet.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from guide.measures import Quantity
from guide.trade.en_1154 import EN_1154_TABLE_1
from guide.trade.fastening.threads import THREADS, thread_typed
from guide.trade.sheet.parts import Hole, SheetBody, SheetMount
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check_arm import check_arms
from guide.trade.sheet_check.finding import SheetFinding, at_mount, look_at, named, odd_one

_EDGE = Fraction(3, 8)
"""Least from a hole to the edge of what it goes into [in] (our choice)."""
_OVERHANG = Fraction(3, 2)
"""Most that a body reaches past its outermost holes [in] (our choice)."""
_IN_LINE = Fraction(1, 32)
"""Holes of one pattern to each other [in] (common practice)."""
_SHOE_REACH = Fraction(3)
"""Most from the shoe's pivot to its holes [in] (our choice)."""
_HANGS = Fraction(2)
"""Most from a datum to the near edge of the body [in] (our choice)."""

_WINDS = {"regular": 1, "top-jamb": 1, "parallel": -1}
"""Which way the body faces so that opening winds its spring: the pinion turns one way on a regular arm
and a parallel arm and the other on a top jamb, and the last two are seen from the other side."""

_RIGHT_ANGLE = Quantity(Fraction(85), "deg")
"""Ranges run from a right angle up to 180 deg (common practice), less what a rounding takes."""
_CHART_TOLERANCE = Fraction(1, 20)
"""How far a chart's width may be from one of EN 1154's for that size or the one below (our choice)."""
_TURNS_TOLERANCE = Fraction(1, 10)
_NUMBER = re.compile(r"\d+(?:\.\d+)?", re.ASCII)


def check_sheet(sheet: Sheet) -> tuple[SheetFinding, ...]:
    """Every finding, arms first; empty for a sheet with nothing to say against it."""
    return (*check_arms(sheet), *check_holes(sheet), *check_numbers(sheet))


# --- holes and outline ---


def check_holes(sheet: Sheet) -> Iterator[SheetFinding]:
    """Holes inside the part, on the leaf, and such that the same part serves both hands."""
    if sheet.body is not None:
        yield from _outline(sheet.body)
        yield from _turned_over(sheet.body)
        yield from _columns(sheet.body)
        for mount in sheet.mounts:
            yield from _on_the_leaf(sheet, mount, sheet.body)
    if sheet.shoe is not None:
        yield from _two_sides(sheet.shoe.holes)
    yield from _facing(sheet)


def _hole(part: str, holes: tuple[Hole, ...], hole: Hole, key: str) -> tuple[str | int, ...]:
    return (part, "holes", holes.index(hole), key)


def _outline(body: SheetBody) -> Iterator[SheetFinding]:
    for hole in body.holes:
        end = body.valve_end if hole.along.base > 0 else body.other_end
        if abs(hole.along.base) > end.base - _EDGE / 2:
            path = _hole("body", body.holes, hole, "along")
            message = f"The hole {hole.name} is not under the body; {look_at('along', hole.along)}"
            yield SheetFinding("hole-off-body", path, message)
        if abs(hole.down.base) > body.height.base / 2 - _EDGE / 2:
            path = _hole("body", body.holes, hole, "down")
            message = f"The hole {hole.name} is not under the body; {look_at('down', hole.down)}"
            yield SheetFinding("hole-off-body", path, message)
    if not body.holes:
        return
    reach = (
        ("valve_end", body.valve_end, max(hole.along.base for hole in body.holes)),
        ("other_end", body.other_end, -min(hole.along.base for hole in body.holes)),
        ("height", body.height, 2 * max(hole.down.base for hole in body.holes)),
    )
    for key, end, outermost in reach:
        if end.base - outermost > _OVERHANG:
            what = f"the body's {key.replace('_', ' ')}"
            message = f"The body reaches far past its holes; {look_at(what, end)}"
            yield SheetFinding("body-outline", ("body", key), message)
    if not body.pinion_out < body.projects:
        message = (
            f"The pinion, {body.pinion_out} out, is not inside a body {body.projects} deep;"
            f" {look_at('both')}"
        )
        yield SheetFinding("body-outline", ("body", "projects"), message)


def _turned_over(body: SheetBody) -> Iterator[SheetFinding]:
    """The body is turned end for end for the other hand, which turns its pattern upside down."""
    for hole in body.holes:
        twins = [one for one in body.holes if _near(one.along.base, hole.along.base)]
        if not any(_near(one.down.base, -hole.down.base) for one in twins):
            key = "along" if len(twins) == 1 else "down"
            path = _hole("body", body.holes, hole, key)
            yield SheetFinding(
                "mirror",
                path,
                f"Turned over for the other hand, the body has no hole for {hole.name};"
                f" {look_at(f'its {key}', hole.along if key == 'along' else hole.down)}",
            )


def _columns(body: SheetBody) -> Iterator[SheetFinding]:
    for hole in body.holes:
        alone = not any(
            one is not hole and _near(one.along.base, hole.along.base) for one in body.holes
        )
        if alone and len(body.holes) > 2:
            path = _hole("body", body.holes, hole, "along")
            message = (
                f"The hole {hole.name} is in line with no other; {look_at('its along', hole.along)}"
            )
            yield SheetFinding("hole-out-of-line", path, message)


def _two_sides(holes: tuple[Hole, ...]) -> Iterator[SheetFinding]:
    """The shoe serves both hands as it is, so what is on one side is on the other."""
    for hole in holes:
        if not any(
            _near(one.along.base, -hole.along.base) and _near(one.down.base, hole.down.base)
            for one in holes
        ):
            level = any(_near(one.down.base, hole.down.base) for one in holes if one is not hole)
            key = "along" if level or hole.along.base == 0 else "down"
            yield SheetFinding(
                "mirror",
                _hole("shoe", holes, hole, key),
                f"For the other hand the shoe has no hole for {hole.name};"
                f" {look_at(f'its {key}', hole.along if key == 'along' else hole.down)}",
            )
        if max(abs(hole.along.base), abs(hole.down.base)) > _SHOE_REACH:
            key = "along" if abs(hole.along.base) > _SHOE_REACH else "down"
            path = _hole("shoe", holes, hole, key)
            yield SheetFinding(
                "hole-off-shoe",
                path,
                f"The hole {hole.name} is far from the shoe's pivot; {look_at(f'its {key}')}",
            )


def _on_the_leaf(sheet: Sheet, mount: SheetMount, body: SheetBody) -> Iterator[SheetFinding]:
    toward_hinge = body.valve_end if mount.valves_toward == "hinge" else body.other_end
    half = body.height.base / 2
    for number, found in enumerate(mount.ranges):
        clear = found.body_datum.base - half
        if not 0 <= clear <= _HANGS:
            where = "past" if clear < 0 else f"{Quantity(clear, 'in')} from"
            path = at_mount(sheet.mounts, mount, "ranges", number, "body_datum")
            yield SheetFinding(
                "body-datum",
                path,
                f"{named(mount, found)}: the body would lie {where} the {mount.datum};"
                f" {look_at('body_datum', found.body_datum)}",
            )
        if mount.mount != "top-jamb" and found.body_along < toward_hinge:
            path = at_mount(sheet.mounts, mount, "ranges", number, "body_along")
            yield SheetFinding(
                "hole-off-leaf",
                path,
                f"{named(mount, found)}: the body would stand past the hinge edge of the leaf;"
                f" {look_at('body_along', found.body_along)}",
            )


def _facing(sheet: Sheet) -> Iterator[SheetFinding]:
    ways = [
        _WINDS[mount.mount] * (1 if mount.valves_toward == "hinge" else -1)
        for mount in sheet.mounts
    ]
    odd = odd_one(ways)
    if odd is not None:
        mount = sheet.mounts[odd]
        yield SheetFinding(
            "body-facing",
            at_mount(sheet.mounts, mount, "valves_toward"),
            f"{named(mount)}: with the valves toward the {mount.valves_toward} the pinion would turn"
            f" against its spring, going by the other mounts; {look_at('valves_toward')}",
        )


def _near(one: Fraction, other: Fraction) -> bool:
    return abs(one - other) <= _IN_LINE / 2


# --- numbers ---


def check_numbers(sheet: Sheet) -> Iterator[SheetFinding]:
    """Numbers that other numbers of the sheet, or EN 1154, speak against; none needs the arm."""
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
                f"The {part}'s screws are {piece.thread}, which is not a standard thread;"
                f" {look_at('thread')}",
            )
