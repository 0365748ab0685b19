"""A drop plate's holes against the plate's own lowering, the body, the leaf, and the limit from which it is needed.

The plate is for a rail too low for the body's own holes, or for glass behind the body: its holes are in the rail above
the body's line, and the body covers it along the door.
"""

import re
from collections.abc import Iterator
from fractions import Fraction

from guide.measures import Quantity
from guide.trade.mounts import BODY_INTO
from guide.trade.sheet.codec import Path as FilePath
from guide.trade.sheet.parts import Accessory, Hole, SheetBody, SheetMount
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check_sides import with_sides
from guide.trade.sheet_check.finding import SheetFinding, look_at, named

_EDGE = Fraction(3, 8)
"""Least from a hole to the edge of what it goes into [in] (our choice)."""

_IN_LINE = Fraction(1, 64)
"""Holes of one row to each other, either way [in] (common practice)."""

_NUMBER = re.compile(r"\d+(?:\.\d+)?(?: \d+/[1-9]\d*|/[1-9]\d*)?", re.ASCII)


def check_plate(sheet: Sheet, plate: Accessory, at: FilePath) -> Iterator[SheetFinding]:
    """Every finding on one drop plate of the sheet."""

    def of_holes(one: Accessory) -> Iterator[SheetFinding]:
        yield from rows_and_columns(one, at)
        if sheet.body is not None and one.holes:
            yield from _along_the_body(one, sheet.body, at)
            yield from _in_the_rail(sheet, one, sheet.body, at)
            yield from _in_the_face(sheet, one, sheet.body, at)

    yield from with_sides(plate, plate.name, at, of_holes)
    yield from _limit(sheet, plate, at)


def rows_and_columns(plate: Accessory, at: FilePath) -> Iterator[SheetFinding]:
    """The holes of a plate are in rows along it, each as long as the others."""
    for number, hole in enumerate(plate.holes):
        others = [one for one in plate.holes if one is not hole]
        for key in ("along", "down"):
            value: Quantity = getattr(hole, key)
            alone = not any(abs(getattr(one, key).base - value.base) <= _IN_LINE for one in others)
            if alone and len(others) > 1:
                yield SheetFinding(
                    "hole-out-of-line",
                    (*at, "holes", number, key),
                    f"The hole {hole.name} of the {plate.name} is in line with no other;"
                    f" {look_at(f'its {key}', value)}",
                )


def _along_the_body(plate: Accessory, body: SheetBody, at: FilePath) -> Iterator[SheetFinding]:
    """The plate lies behind the body, with holes on both sides of the pinion."""
    for number, hole in enumerate(plate.holes):
        end, reach = (
            ("end with the valves", body.valve_end)
            if hole.along.base > 0
            else ("other end", body.other_end)
        )
        if abs(hole.along.base) > reach.base:
            size = Quantity(abs(hole.along.magnitude), hole.along.unit)
            yield SheetFinding(
                "plate-past-body",
                (*at, "holes", number, "along"),
                f"The hole {hole.name} of the {plate.name} is {size} from the pinion, past the body's"
                f" {end}, {reach}; look again at its side and at both numbers.",
                advice=True,
            )
    if len(plate.holes) > 2 and len({one.along.base > 0 for one in plate.holes}) == 1:
        yield SheetFinding(
            "plate-past-body",
            (*at, "holes", 0, "along"),
            f"All holes of the {plate.name} are on one side of the pinion; look again at the side of each.",
            advice=True,
        )


def _mounts(sheet: Sheet, plate: Accessory, into: str) -> list[SheetMount]:
    """The mounts with the body on the leaf, or on the frame's face, that the plate goes with."""
    return [
        one
        for one in sheet.mounts
        if plate.mount in (None, one.mount) and BODY_INTO[one.mount] == into
    ]


def _in_the_rail(
    sheet: Sheet, plate: Accessory, body: SheetBody, at: FilePath
) -> Iterator[SheetFinding]:
    """Its holes are on the leaf, and in a lower rail than the body's own would be."""
    mounts = _mounts(sheet, plate, "leaf")
    shift = plate.shift_down
    if not mounts:
        return
    lowest = max(plate.holes, key=lambda one: one.down.base)
    own = max(one.down.base for one in body.holes)
    if shift.base + lowest.down.base >= own:
        key = ("shift_down",) if lowest.down.base < 0 else _path(plate, lowest, "down")
        yield SheetFinding(
            "plate-low",
            (*at, *key),
            f"The {plate.name}'s hole {lowest.name} would be lower than the body's own holes without a plate,"
            f" and it is for a low rail; look again at how far it brings the body down, {shift}, and at which"
            " of its holes are above the body's line.",
        )
    highest = min(plate.holes, key=lambda one: one.down.base)
    for mount in mounts:
        down = min(one.body_datum.base for one in mount.ranges)
        clear = down + shift.base + highest.down.base
        if clear < _EDGE:
            yield SheetFinding(
                "plate-off-leaf",
                (*at, *_path(plate, highest, "down")),
                f"{named(mount)}: the {plate.name}'s hole {highest.name} would be {_apart(clear)} the"
                f" {mount.datum}; look again at how far it is above the body's line and at how far the plate"
                f" brings the body down, {shift}.",
            )


def _in_the_face(
    sheet: Sheet, plate: Accessory, body: SheetBody, at: FilePath
) -> Iterator[SheetFinding]:
    """Its holes are on the face of the frame's head, and in a lower face than the body's own would be."""
    mounts = _mounts(sheet, plate, "frame face")
    shift = plate.shift_down
    if not mounts:
        return
    highest = min(plate.holes, key=lambda one: one.down.base)
    own = min(one.down.base for one in body.holes)
    if shift.base + highest.down.base <= own:
        yield SheetFinding(
            "plate-low",
            (*at, *_path(plate, highest, "down")),
            f"The {plate.name}'s hole {highest.name} would be higher than the body's own holes without a plate,"
            f" and it is for a low face; look again at how far it brings the body down, {shift}, and at how far"
            " the hole is above the body's line.",
        )
    lowest = max(plate.holes, key=lambda one: one.down.base)
    for mount in mounts:
        up = min(one.body_datum.base for one in mount.ranges)
        clear = up - shift.base - lowest.down.base
        if clear < _EDGE:
            where = "above" if clear >= 0 else "below"
            yield SheetFinding(
                "plate-off-leaf",
                (*at, *_path(plate, lowest, "down")),
                f"{named(mount)}: the {plate.name}'s hole {lowest.name} would be {Quantity(abs(clear), 'in')}"
                f" {where} the {mount.datum}; look again at how far it is above the body's line and at how far"
                f" the plate brings the body down, {shift}.",
            )


def _apart(clear: Fraction) -> str:
    return f"{Quantity(abs(clear), 'in')} {'below' if clear >= 0 else 'past'}"


def _path(plate: Accessory, hole: Hole, key: str) -> FilePath:
    return ("holes", plate.holes.index(hole), key)


def _limit(sheet: Sheet, plate: Accessory, at: FilePath) -> Iterator[SheetFinding]:
    """The limit as a number against the sentence, the body's own holes, and the plate's."""
    said = {_number(one) for one in _NUMBER.findall(plate.when)}
    limit = plate.needed_below
    if limit is None:
        if said:
            yield SheetFinding(
                "plate-limit",
                (*at, "needed_below"),
                f"The {plate.name} is for “{plate.when.rstrip('.')}”, and no rail is given as a number: each"
                " door is asked whether it goes on.",
                advice=True,
            )
        return
    if said and limit.magnitude not in said:
        yield SheetFinding(
            "plate-limit",
            (*at, "needed_below"),
            f"The {plate.name} is for “{plate.when.rstrip('.')}”, and its limit as a number is {limit};"
            f" {look_at('both')}",
        )
    own = sheet.body.holes if sheet.body else ()
    for into, what, reach in (
        ("leaf", "rail", max((one.down.base for one in own), default=None)),
        ("frame face", "face", max((-one.down.base for one in own), default=None)),
    ):
        for mount in _mounts(sheet, plate, into):
            line = min(one.body_datum.base for one in mount.ranges)
            if reach is not None and limit.base < line + reach + _EDGE:
                outermost = "lowest" if into == "leaf" else "highest"
                yield SheetFinding(
                    "plate-limit",
                    (*at, "needed_below"),
                    f"{named(mount)}: in a {what} of {limit} the body's own {outermost} holes would find no"
                    f" hold, and the {plate.name} is said to be needed only below that;"
                    f" {look_at('the limit', limit)}",
                )


def _number(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))
