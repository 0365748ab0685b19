"""A closer's sheet by its threads: standard ones, one pitch for each diameter, and screws that fit their part."""

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import TypeAlias

from guide.trade.fastening.threads import THREADS, thread_named, thread_typed
from guide.trade.sheet.codec import Path as FilePath
from guide.trade.sheet.parts import (
    THREADED,
    Hole,
    PackedScrew,
    SheetBody,
    SheetShoe,
)
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.finding import SheetFinding, look_at

_SCREW_NUMBER = re.compile(r"(?:No\.? ?|#)?(\d{1,3})", re.ASCII)
_NUMBERS = (8, 18)
"""Thinnest and thickest wood or self-drilling screw that holds a closer (our choice)."""
_LENGTHS = {
    "machine": (Fraction(3, 8), Fraction(3)),
    "wood": (Fraction(3, 4), Fraction(4)),
    "self-drilling": (Fraction(5, 8), Fraction(4)),
    "through-bolt": (Fraction(1), Fraction(4)),
    "rivet-nut": (Fraction(3, 8), Fraction(3)),
}
"""Shortest and longest screw of each kind for a closer [in] (our choice)."""


def check_threads(sheet: Sheet) -> Iterator[SheetFinding]:
    """Every thread is a standard one, screws fit the part they are packed for, and no size has two pitches."""
    threads = list(_all_threads(sheet))
    known = [(path, whose, thread_typed(text)) for path, whose, text in threads]
    for (path, whose, text), (_, _, name) in zip(threads, known, strict=True):
        if name not in THREADS:
            yield SheetFinding(
                "thread-unknown",
                path,
                f"The {whose} screws are {text}, which is not a standard thread; {look_at('thread')}",
            )
    parts = (("body", sheet.body), ("shoe", sheet.shoe))
    unlike = [one for part, piece in parts if piece for one in _unlike_its_part(part, piece)]
    yield from unlike
    for part, piece in parts:
        for number, screw in enumerate(piece.packed if piece else ()):
            yield from _unlikely(f"{part}'s {screw.kind} screws", screw, (part, "packed", number))
            yield from _too_few(part, piece.holes if piece else (), screw, (part, "packed", number))
    if not unlike:
        yield from _two_pitches([one for one in known if one[2] in THREADS])


_InThread: TypeAlias = tuple[FilePath, str, str]
"""Where a thread is, whose screws, and the thread."""


def _all_threads(sheet: Sheet) -> Iterator[_InThread]:
    for part, piece in (("body", sheet.body), ("shoe", sheet.shoe)):
        if piece is not None:
            yield (part, "thread"), f"{part}'s", piece.thread
            for number, screw in enumerate(piece.packed):
                if screw.kind in THREADED:
                    yield (part, "packed", number, "size"), f"{part}'s {screw.kind}", screw.size
    for number, one in enumerate(sheet.accessories):
        if one.thread is not None:
            yield ("accessories", number, "thread"), f"{one.name}'s", one.thread


def _unlike_its_part(part: str, piece: SheetBody | SheetShoe) -> Iterator[SheetFinding]:
    for number, screw in enumerate(piece.packed):
        if screw.kind in THREADED and thread_typed(screw.size) != thread_typed(piece.thread):
            yield SheetFinding(
                "thread-differs",
                (part, "packed", number, "size"),
                f"The {part}'s {screw.kind} screws are {screw.size}, and its thread is {piece.thread};"
                f" {look_at('both')}",
                advice=True,
            )


def _unlikely(whose: str, screw: PackedScrew, at: FilePath) -> Iterator[SheetFinding]:
    """A screw far from what holds a closer."""

    def found(key: str, message: str) -> SheetFinding:
        return SheetFinding("screw-unlikely", (*at, key), message, advice=True)

    number = _SCREW_NUMBER.fullmatch(screw.size.strip())
    if number and not _NUMBERS[0] <= int(number[1]) <= _NUMBERS[1]:
        usual = " to ".join(f"No. {one}" for one in _NUMBERS)
        yield found(
            "size", f"The {whose} are {screw.size}; a closer's are {usual}; {look_at('size')}"
        )
    least, most = _LENGTHS[screw.kind]
    if screw.length is not None and not least <= screw.length.base <= most:
        yield found(
            "length", f"The {whose} are {screw.length} long; {look_at('length', screw.length)}"
        )
    name = thread_typed(screw.size)
    if screw.hole is not None and name in THREADS:
        across = thread_named(name).major.base
        if not across < screw.hole.base < 2 * across:
            yield found(
                "hole",
                f"The hole for the {whose}, {screw.hole}, does not suit {screw.size};"
                f" {look_at('hole', screw.hole)}",
            )


def _too_few(
    part: str, holes: tuple[Hole, ...], screw: PackedScrew, at: FilePath
) -> Iterator[SheetFinding]:
    """Each kind of screw is there for every hole; a box may lack some on purpose."""
    needed = sum(1 for one in holes if one.kind != "extra")
    if screw.count is not None and screw.count < needed:
        yield SheetFinding(
            "screws-few",
            (*at, "count"),
            f"The box has {screw.count} {screw.kind} screws for the {part}, and its holes take {needed};"
            " look again at count.",
            advice=True,
        )


def _two_pitches(known: list[_InThread]) -> Iterator[SheetFinding]:
    """Screws of one diameter have one pitch; where they have two, the finer one is likely a slip."""
    for path, whose, name in known:
        thread = thread_named(name)
        for _, other_whose, other_name in known:
            other = thread_named(other_name)
            if other.major == thread.major and thread.pitch < other.pitch:
                yield SheetFinding(
                    "thread-differs",
                    path,
                    f"The {whose} screws are {name} and the {other_whose} {other_name}, which do not go"
                    f" into one tapped hole; {look_at('both')}",
                    advice=True,
                )
                break
