"""Holes on the wrong side of their line: a sign left out, or up taken for down.

A body with holes on both sides of the pinion, or a plate whose holes lie above the body, says by its other numbers
which of its holes are on the wrong side: put back, the part has nothing against it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations
from typing import TypeVar

from guide.measures import Quantity
from guide.trade.sheet.codec import Path as FilePath
from guide.trade.sheet.parts import Accessory, Hole, SheetBody, SheetShoe
from guide.trade.sheet_check.finding import SheetFinding

Part = TypeVar("Part", SheetBody, SheetShoe, Accessory)

_MOST_HOLES = 12
"""Holes of one part beyond which nobody looks for a slip of sides (our choice)."""


def with_sides(
    part: Part,
    name: str,
    at: FilePath,
    found: Callable[[Part], Iterator[SheetFinding]],
) -> Iterator[SheetFinding]:
    """What is found against a part; where holes on the other side would clear it, those holes instead.

    `found` gives the findings of the part, or of it with other holes.
    """
    findings = list(found(part))
    if not findings or not 0 < len(part.holes) <= _MOST_HOLES:
        yield from findings
        return
    for key, holes in _tries(part.holes):
        turned = tuple(_turned(one, key) if one in holes else one for one in part.holes)
        if list(found(replace(part, holes=turned))):
            continue
        yield _on_the_other_side(name, at, part.holes, (key, holes))
        return
    yield from findings


def _tries(holes: tuple[Hole, ...]) -> Iterator[tuple[str, tuple[Hole, ...]]]:
    """Which holes may be on the wrong side, and by which number: one, those of one line, two, or all."""
    for key in ("along", "down"):
        off_line = [one for one in holes if _of(one, key).base]
        lines = [
            tuple(one for one in off_line if _of(one, key) == value)
            for value in dict.fromkeys(_of(one, key) for one in off_line)
        ]
        for chosen in (*((one,) for one in off_line), *lines, *combinations(off_line, 2)):
            yield key, chosen
        yield key, tuple(off_line)


def _of(hole: Hole, key: str) -> Quantity:
    found: Quantity = getattr(hole, key)
    return found


def _turned(hole: Hole, key: str) -> Hole:
    value = _of(hole, key)
    other = Quantity(-value.magnitude, value.unit)
    return replace(hole, along=other) if key == "along" else replace(hole, down=other)


def _on_the_other_side(
    name: str, at: FilePath, holes: Sequence[Hole], slip: tuple[str, tuple[Hole, ...]]
) -> SheetFinding:
    key, wrong = slip
    which = " and ".join(f"{one.name} ({_of(one, key)})" for one in wrong)
    centre = "pivot" if name == "shoe" else "pinion"
    sides = f"along from the {centre}" if key == "along" else "above or below the line"
    verb, pronoun = ("is", "its") if len(wrong) == 1 else ("are", "their")
    return SheetFinding(
        "hole-side",
        (*at, "holes", holes.index(wrong[0]), key),
        f"The {name}'s {which} {verb} probably on the other side, {sides}: look again at {pronoun} side.",
    )
