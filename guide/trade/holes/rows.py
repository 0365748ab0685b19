"""The words of a setting-out: the only ones there are, for prompts, drill steps, `work holes`, template and record."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from guide.measures import Quantity, write
from guide.trade.holes.fixing import Fixing, drill_words, hole_words, screw_words
from guide.trade.holes.layout import ReferencePoint, to_mark
from guide.trade.holes.placed_hole import PlacedHole
from guide.trade.holes.set_out import SettingOut
from guide.trade.mounts import MOUNT_WORDS

_OTHER_WAY = {"down": "up", "up": "down", "out": "in"}


@dataclass(frozen=True, slots=True)
class Row:
    """One hole in words."""

    hole: PlacedHole
    along: Quantity
    """To what a mark is given to."""
    along_from: str
    across: Quantity
    """Never below zero; `direction` says which way."""
    across_from: str
    direction: str
    drill: str
    """What it takes, short: "No. 7 to tap 1/4-20"."""
    text: str
    """The whole in one sentence."""


def rows(so: SettingOut, group: str | None, units: str) -> tuple[Row, ...]:
    """The holes of a group of `GROUPS`, or all of them, in words. NoAnswer if nothing may be marked."""
    layout = so.check()
    found = so.holes if group is None else so.group(group)
    return tuple(_row(hole, layout.along_from, units) for hole in found)


def _row(hole: PlacedHole, along_from: str, units: str) -> Row:
    across, way = second(hole.line, hole.across)
    along, up = to_mark(hole.along, units), to_mark(across, units)
    drill = hole_words(hole.fixing)
    name = hole.name[0].upper() + hole.name[1:]
    extra = f" ({hole.only_if})" if hole.only_if else ""
    text = (
        f"{name}{extra}, {hole.part}: {write(along)} along from the {along_from}, {write(up)} {way} from"
        f" the {hole.line.across_from}; {drill}."
    )
    return Row(hole, along, along_from, up, hole.line.across_from, way, drill, text)


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a list of holes on a step."""

    text: str
    hole: Row | None = None
    """The hole it is about; None for a line on all of them."""


def lines(so: SettingOut, group: str, units: str) -> tuple[Line, ...]:
    """The holes of a group as a step lists them: from where, each hole, then what to drill.

    One line with the reason if nothing may be marked; none where no holes go, or only the paper shows them.
    """
    if so.refusal != "go-on":
        return (Line(so.why),)
    if so.layout is None:
        parts = _PARTS.get(group, ())
        return tuple(
            Line(f"{words}.") for part in parts if (words := drill_sentence(so, part, units))
        )
    found = rows(so, group, units)
    if not found:
        return ()
    first = found[0]
    start = f"Along from the {first.along_from}, {first.direction} from the {first.across_from}."
    ends = [
        Line(sentence)
        for part in dict.fromkeys(one.hole.part for one in found)
        for sentence in _drill_and_hold(so, part, units)
    ]
    return (Line(start), *(_line(row) for row in found), *ends)


def _drill_and_hold(so: SettingOut, part: str, units: str) -> tuple[str, ...]:
    """What to drill, and what holds there; without the second if it is not known."""
    holds = holding(so, part)
    drill = f"{drill_sentence(so, part, units)}."
    return (drill, f"What holds there: {holds}.") if holds else (drill,)


def _line(row: Row) -> Line:
    name = row.hole.name[0].upper() + row.hole.name[1:]
    only_if = f" ({row.hole.only_if})" if row.hole.only_if else ""
    return Line(
        f"{name}: {write(row.along)} along, {write(row.across)} {row.direction}{only_if}", row
    )


_PARTS = {
    "leaf": ("leaf",),
    "head": ("frame face", "soffit"),
    "frame": ("frame face",),
    "soffit": ("soffit",),
}
"""Groups by what the holes go into, as the layout names it."""


def second(line: ReferencePoint, across: Fraction) -> tuple[Fraction, str]:
    """The second number, never below zero, and which way it runs."""
    way = line.direction
    return (across, way) if across >= 0 else (-across, _OTHER_WAY[way])


def place_words(so: SettingOut, line: ReferencePoint, units: str) -> str:
    """Where a part's reference point is: "7 in along from the hinge edge, 2 in down from the top of the leaf"."""
    along_from = so.check().along_from
    along, up = write(to_mark(line.along, units)), write(to_mark(line.across, units))
    return f"{along} along from the {along_from}, {up} {line.direction} from the {line.across_from}"


def place_on(so: SettingOut, line: ReferencePoint, units: str) -> str:
    """Where a part comes to be, and what carries it there: "..., on the drop plate"."""
    on = so.accessories.of(line.of)
    carried = "" if on is None or on.kind == "extra-screws" else f", on the {on.name}"
    return f"{place_words(so, line, units)}{carried}"


def row_that_covers(so: SettingOut) -> str:
    """The sheet's row in words, and that it covers a smaller opening; empty without a sheet."""
    if so.row is None or so.opening.mount is None or so.opening.angle is None:
        return ""
    row = f"{MOUNT_WORDS[so.opening.mount]}, row to {so.row.up_to}"
    if so.row.up_to == so.opening.angle:
        return row
    return f"{row}, which covers an opening of {so.opening.angle}"


def carried_over(so: SettingOut, units: str) -> str:
    """How the line along is got to where the marks go, and what was taken off; empty if it is in view."""
    line = so.along
    if line is None or not line.carried:
        return ""
    if not line.offset:
        return line.carried
    way = "toward the latch" if line.offset > 0 else "toward the jamb"
    by = write(to_mark(abs(line.offset), units))
    return (
        f"{line.carried} The {line.name} is {by} {way} from the {line.sheet_line} that the sheet"
        " measures from; that is allowed for."
    )


def drill_sentence(so: SettingOut, part: str, units: str) -> str:
    """What to drill in leaf, frame face or soffit, one sentence without its full stop; empty if no holes go there.

    Holes that are drilled only in some case are counted apart. Where only the paper shows the holes, none is counted.
    """
    return _by_fixing(so, part, partial(drill_words, units=units))


def screws_sentence(so: SettingOut, part: str, units: str) -> str:
    """The screws to lay out for leaf, frame face or soffit; empty if no holes go there."""
    return _by_fixing(so, part, partial(screw_words, units=units))


def _by_fixing(so: SettingOut, part: str, words: Callable[[Fixing, int | None], str]) -> str:
    """The words for each fixing in that part and how many holes have it."""
    holes = [one for one in so.holes if one.part == part]
    if not holes:
        here = part in dict(so.fixings) and so.refusal == "go-on"
        return words(so.fixing(part), None) if here else ""
    found = Counter((one.fixing, one.only_if) for one in holes)
    return "; ".join(
        f"{count} more {only_if}" if only_if else words(fixing, count)
        for (fixing, only_if), count in found.items()
    )


THROUGH_THE_PART = "as marked through the part itself"


def pattern_words(so: SettingOut, group: str, units: str) -> str:
    """Every place of a group in one phrase, to be read back: "2 1/4 in and 9 3/4 in along, 7/8 in and 2 3/8 in up".

    Holes that are drilled only in some case are left out. `THROUGH_THE_PART` if nothing gives the places.
    """
    found = [one for one in rows(so, group, units) if not one.hole.only_if]
    if not found:
        return THROUGH_THE_PART
    along = sorted({one.along for one in found})
    ways = {
        one.direction: sorted({row.across for row in found if row.direction == one.direction})
        for one in found
    }
    across = " and ".join(f"{_each(some)} {way}" for way, some in ways.items())
    return f"{_each(along)} along, {across}"


def _each(lengths: Sequence[Quantity]) -> str:
    return (
        ", ".join(write(one) for one in lengths[:-1])
        + (" and " if len(lengths) > 1 else "")
        + write(lengths[-1])
    )


def sure_holes(so: SettingOut, part: str) -> int:
    """How many holes go into leaf, frame face or soffit, those not counted that are drilled only in some case."""
    return sum(1 for one in so.holes if one.part == part and not one.only_if)


def holding(so: SettingOut, part: str) -> str:
    """What holds the screws there, a phrase; empty if no holes go there or it is not known."""
    return so.fixing(part).holds


def basis(group: str) -> tuple[str, ...]:
    """What marks, holds and cuts of a group depend on: the parts of the answer of `setting-out` that say all of it.

    A change of sheet, mount, hand, hinge, opening or accessory changes one of them.
    """
    if group in ("body", "shoe"):
        return (f"{group}_place", f"{group}_accessory", "hinges_on_your")
    both = ("body_place", "shoe_place", "body_accessory", "shoe_accessory", "hinges_on_your")
    return (*both, f"holes_at_{group}", f"drill_{group}")
