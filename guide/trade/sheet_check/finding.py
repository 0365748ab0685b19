"""What a check of a closer's sheet found: a sentence, and the number to look at again."""

from collections.abc import Sequence
from dataclasses import dataclass

from guide.measures import Quantity
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.codec import Path
from guide.trade.sheet.parts import OpeningRange, SheetMount


@dataclass(frozen=True, slots=True)
class SheetFinding:
    """One thing that cannot be right, or is unlikely to be."""

    code: str
    """Which check found it: a stable word."""
    path: Path
    """Of the number most likely mistyped."""
    message: str
    """What is wrong, and the number to compare with the maker's sheet."""
    advice: bool = False
    """Whether a sheet copied rightly may say so too; else the numbers cannot be right."""


def at_mount(sheet_mounts: Sequence[SheetMount], mount: SheetMount, *keys: str | int) -> Path:
    """The path of a number under one mount."""
    return ("mounts", list(sheet_mounts).index(mount), *keys)


def named(mount: SheetMount, found: OpeningRange | None = None) -> str:
    """A mount, and a range of it, as a sentence begins with it."""
    words = MOUNT_WORDS[mount.mount].capitalize()
    return words if found is None else f"{words}, opening to {found.up_to}"


def look_at(what: str, value: Quantity | None = None) -> str:
    """The end of a sentence that names the number to look at."""
    return f"look again at {what}" + ("." if value is None else f", {value}.")


def odd_one(values: Sequence[object]) -> int | None:
    """The place of the only value that differs from all the others, which agree; None if none does.

    Of two values that differ it is the second, for want of a third to ask.
    """
    for place, value in enumerate(values):
        others = [*values[:place], *values[place + 1 :]]
        if others and all(other == others[0] for other in others) and value != others[0]:
            return 1 if len(values) == 2 else place
    return None
