"""What was not checked in a closer's sheet, because the sheet is silent on what the check needs."""

from collections.abc import Iterator
from fractions import Fraction

from guide.measures import Quantity, nearest, write
from guide.trade.arm.sheet_geometry import worked_shoe_out
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.parts import SheetMount
from guide.trade.sheet.sheet import Sheet

_STEP = {"inch": Quantity(Fraction(1, 32), "in"), "metric": Quantity(Fraction(1, 2), "mm")}
"""To what a distance that was worked out is written."""


def skipped_checks(sheet: Sheet) -> tuple[str, ...]:
    """A sentence for every check that was skipped or weakened, and for what was worked out instead."""
    return tuple(_skipped(sheet))


def _skipped(sheet: Sheet) -> Iterator[str]:
    if sheet.body is None:
        yield "The body's holes and outline, and every arm: the body's dimensions are left out."
    if sheet.shoe is None:
        yield "The shoe's holes: they are left out."
    for mount in sheet.mounts:
        yield from _arm(sheet, mount)
    for one in sheet.accessories:
        if not one.copied:
            yield f"The holes of the {one.name}: they are left out, so only its own paper serves."
        if one.kind == "drop-plate" and not one.limited:
            yield (
                f"When the {one.name} goes on: no number is given, so the fitter is asked at each door."
            )
    if sheet.screws and sheet.adjustable and sheet.turns_per_size is None:
        yield "The turns of the spring: the turns for one size are left out."


def _arm(sheet: Sheet, mount: SheetMount) -> Iterator[str]:
    name = MOUNT_WORDS[mount.mount].capitalize()
    if mount.arm is None:
        yield (
            f"{name}: its places along the door, reach and power: the arm's lengths are left out. Read those"
            " numbers back twice."
        )
        return
    if mount.mount == "parallel" or mount.arm.shoe_out is not None or sheet.body is None:
        return
    worked = worked_shoe_out(sheet, mount.mount)
    if worked is None:
        yield (
            f"{name}: its places along the door, reach and power: neither the shoe's distance out nor a forearm"
            " in a row is given."
        )
        return
    out = write(nearest(Quantity(Fraction(worked), "in"), _STEP[sheet.units]))
    rows = [one for one in mount.ranges if one.forearm is not None]
    checked = "against each other alone" if len(rows) > 1 else "against nothing, with one row"
    yield (
        f"{name}: how far out the shoe's pivot is: worked out from the rows as {out}. Their places along and"
        f" forearms were checked {checked}; measure it on the shoe."
    )
