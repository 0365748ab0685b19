"""A closer's sheet by its holes: inside the part, on the leaf, and such that the same part serves both hands."""

from collections.abc import Iterator
from fractions import Fraction

from guide.measures import Quantity, nearest
from guide.trade.sheet.codec import Path as FilePath
from guide.trade.sheet.parts import (
    Hole,
    SheetBody,
    SheetMount,
    SheetShoe,
)
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check_plate import check_plate, rows_and_columns
from guide.trade.sheet_check.check_sides import with_sides
from guide.trade.sheet_check.finding import SheetFinding, at_mount, look_at, named, odd_one

_EDGE = Fraction(3, 8)
"""Least from a hole to the edge of what it goes into [in] (our choice)."""

_OVERHANG = Fraction(3, 2)
"""Most that a body reaches past its outermost holes [in] (our choice)."""

_IN_LINE = Fraction(1, 32)
"""Holes of one pattern to each other [in] (common practice)."""

_NEARLY_ALIKE = Fraction(1, 4)
"""Most that one end of a body may reach past its holes more than the other and be a slip [in] (our choice)."""

_SHIFTED = Fraction(6)
"""Most that a plate or bracket brings its part away [in] (our choice)."""

_SHOE_REACH = Fraction(3)
"""Most from the shoe's pivot to its holes [in] (our choice)."""

_HANGS = Fraction(2)
"""Most from a datum to the near edge of the body [in] (our choice)."""

_USUALLY_HANGS = Fraction(5, 4)
"""Most that is usual there [in] (our choice)."""

_WINDS = {"regular": 1, "top-jamb": 1, "parallel": -1}
"""Which way the body faces so that opening winds its spring: the pinion turns one way on a regular arm
and a parallel arm and the other on a top jamb, and the last two are seen from the other side."""


def check_holes(sheet: Sheet) -> Iterator[SheetFinding]:
    """Holes inside the part, on the leaf, and such that the same part serves both hands."""
    if sheet.body is not None:
        yield from with_sides(sheet.body, "body", ("body",), _pattern)
        yield from _ends(sheet.body)
        for mount in sheet.mounts:
            yield from _on_the_leaf(sheet, mount, sheet.body)
    if sheet.shoe is not None:
        yield from with_sides(sheet.shoe, "shoe", ("shoe",), _of_the_shoe)
    yield from check_accessories(sheet)
    yield from _facing(sheet)


def _of_the_shoe(shoe: SheetShoe) -> Iterator[SheetFinding]:
    yield from _two_sides("shoe", shoe.holes, ("shoe",))


def _pattern(body: SheetBody) -> Iterator[SheetFinding]:
    yield from _outline(body)
    yield from _turned_over(body)
    yield from _columns(body)


def _hole(part: str, holes: tuple[Hole, ...], hole: Hole, key: str) -> FilePath:
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


def _ends(body: SheetBody) -> Iterator[SheetFinding]:
    """A body reaches equally far past its holes at either end, or plainly further at one: a little is a slip."""
    past_valves = body.valve_end.base - max(hole.along.base for hole in body.holes)
    past_others = body.other_end.base + min(hole.along.base for hole in body.holes)
    if not _IN_LINE < abs(past_valves - past_others) <= _NEARLY_ALIKE:
        return
    key = "valve_end" if past_valves < past_others else "other_end"
    at_valves, at_others = (
        nearest(Quantity(one, "in"), Quantity(Fraction(1, 32), "in"))
        for one in (past_valves, past_others)
    )
    yield SheetFinding(
        "body-ends",
        ("body", key),
        f"The body reaches {at_valves} past its holes at the valve end and {at_others} at the other end;"
        f" {look_at('both ends and the holes beside them')}",
        advice=True,
    )


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


def _two_sides(part: str, holes: tuple[Hole, ...], at: FilePath) -> Iterator[SheetFinding]:
    """The shoe, and what carries it, serve both hands as they are: what is on one side is on the other."""
    for hole in holes:
        if not any(
            _near(one.along.base, -hole.along.base) and _near(one.down.base, hole.down.base)
            for one in holes
        ):
            level = any(_near(one.down.base, hole.down.base) for one in holes if one is not hole)
            key = "along" if level or hole.along.base == 0 else "down"
            yield SheetFinding(
                "mirror",
                (*at, "holes", holes.index(hole), key),
                f"For the other hand the {part} has no hole for {hole.name};"
                f" {look_at(f'its {key}', hole.along if key == 'along' else hole.down)}",
            )
        if max(abs(hole.along.base), abs(hole.down.base)) > _SHOE_REACH:
            key = "along" if abs(hole.along.base) > _SHOE_REACH else "down"
            yield SheetFinding(
                "hole-off-shoe",
                (*at, "holes", holes.index(hole), key),
                f"The hole {hole.name} is far from the shoe's pivot; {look_at(f'its {key}')}",
            )


def check_accessories(sheet: Sheet) -> Iterator[SheetFinding]:
    """Holes of plates and brackets that are not one pattern, and shifts as far as nobody goes."""
    for number, one in enumerate(sheet.accessories):
        at: FilePath = ("accessories", number)
        if one.carries == "shoe":
            yield from _two_sides(one.name, one.holes, at)
        elif one.kind == "drop-plate":
            yield from check_plate(sheet, one, at)
        else:
            yield from rows_and_columns(one, at)
        for key in ("shift_along", "shift_down", "thickness"):
            value: Quantity | None = getattr(one, key)
            if value is not None and abs(value.base) > _SHIFTED:
                yield SheetFinding(
                    "accessory-far",
                    (*at, key),
                    f"The {one.name} would bring the {one.carries} {value} away;"
                    f" {look_at(key, value)}",
                )


def _on_the_leaf(sheet: Sheet, mount: SheetMount, body: SheetBody) -> Iterator[SheetFinding]:
    toward_hinge = body.valve_end if mount.valves_toward == "hinge" else body.other_end
    half = body.height.base / 2
    for number, found in enumerate(mount.ranges):
        clear = found.body_datum.base - half
        if _USUALLY_HANGS < clear <= _HANGS:
            path = at_mount(sheet.mounts, mount, "ranges", number, "body_datum")
            yield SheetFinding(
                "body-datum",
                path,
                f"{named(mount, found)}: the body would lie {Quantity(clear, 'in')} from the {mount.datum},"
                f" further than usual; {look_at('body_datum', found.body_datum)}",
                advice=True,
            )
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
