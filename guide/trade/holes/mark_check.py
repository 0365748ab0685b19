"""Marks read back, compared with where they should be: which to move, how far and which way, and which classic
mistake would explain it. Lengths in inches.

No sentence names the place wanted: the marks are measured again after they were moved, and a tape is read best by
somebody who has not just been told what it should say.

`check_lines` compares the reference lines of body and shoe; `marks` is the computation that uses it.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from guide.trade.holes.layout import Layout, ReferencePoint
from guide.trade.holes.marking_mistakes import (
    LABELS,
    Datums,
    Mark,
    Slip,
    classic,
    datum_slips,
    unit_slips,
    whole_slips,
)

POSITION = Fraction(1, 16)
"""How far a mark may be out [in] (common practice)."""

VERDICTS = ("right", "off", *LABELS)
"""What a check says; every one after the second is a classic mistake."""

Told = Callable[[Fraction], str]
"""Writes a length [in] for the fitter."""

_WAYS = {
    "along": ("toward the hinge", "toward the latch"),
    "down": ("up", "down"),
    "up": ("down", "up"),
    "out": ("nearer to the leaf", "out from the leaf"),
}
"""Which way to move a mark that reads too much, and one that reads too little."""

LEAVE = "leave it"
"""What to do with a mark that is right."""


@dataclass(frozen=True, slots=True)
class Move:
    """What puts one number of one mark right."""

    of: str
    """"body" or "shoe"."""
    words: str
    """How far and which way: "1/4 in toward the hinge"."""


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check of marks found."""

    verdict: str
    """One of `VERDICTS`."""
    sentences: tuple[str, ...]
    """One for every mark, then one for every mistake that would explain what is off."""
    moves: tuple[Move, ...] = ()
    """Of the marks that are off, in the order they were read."""

    def correction(self, of: str) -> str:
        """What to do with the mark of body or shoe: "move it 1/4 in toward the hinge and 1/8 in up"."""
        ways = " and ".join(move.words for move in self.moves if move.of == of)
        return f"move it {ways}" if ways else LEAVE


@dataclass(frozen=True, slots=True)
class Rows:
    """The numbers that one row of a sheet gives: another range, with the words for it."""

    words: str
    layout: Layout


def check_lines(
    layout: Layout,
    read: Mapping[str, Fraction],
    datums: Datums,
    told: Told,
    system: str,
    others: Sequence[Rows] = (),
    tolerance: Fraction = POSITION,
) -> Checked:
    """The reference lines that were read back: "body_along", "body_datum", "shoe_along", "shoe_datum".

    `others` are the sheet's other rows for this mount. KeyError if one was not read.
    """
    marks = []
    for line in (layout.body, layout.shoe):
        for key, direction, wanted in (
            (f"{line.of}_along", "along", line.along),
            (f"{line.of}_datum", line.direction, line.across),
        ):
            words = "along" if direction == "along" else f"{direction} from the datum"
            if direction == "out":
                words = "out from the leaf"
            name = f"{line.of.capitalize()} {words}"
            marks.append(Mark(name, line.of, direction, wanted, read[key], wanted))
    slips = [
        *datum_slips(datums, marks, tolerance),
        *_swapped(layout),
        *(_other_row(one) for one in others),
        *unit_slips(),
        *whole_slips(system),
    ]
    return _judged(marks, slips, told, tolerance)


def _judged(
    marks: Sequence[Mark], slips: Sequence[Slip], told: Told, tolerance: Fraction
) -> Checked:
    off = [one for one in marks if abs(one.off) > tolerance]
    sentences = [_correction(one, told, tolerance) for one in marks]
    moves = tuple(Move(one.of, _move(one, told)) for one in off)
    if not off:
        return Checked("right", tuple(sentences))
    named = classic(off, slips, tolerance)
    for place, (slip, explained) in enumerate(named):
        which = " and ".join(one.name[0].lower() + one.name[1:] for one in explained)
        perhaps = "Or else" if place else "It looks"
        sentences.append(f"{perhaps} as if {slip.says}: {which}.")
    return Checked(named[0][0].label if named else "off", tuple(sentences), moves)


def _correction(mark: Mark, told: Told, tolerance: Fraction) -> str:
    start = f"{mark.name}: read {told(mark.read)}"
    if abs(mark.off) > tolerance:
        return f"{start}; move it {_move(mark, told)}."
    return f"{start}, right." if mark.off == 0 else f"{start}, right within {told(tolerance)}."


def _move(mark: Mark, told: Told) -> str:
    return f"{told(abs(mark.off))} {_WAYS[mark.direction][0 if mark.off > 0 else 1]}"


def _swapped(layout: Layout) -> list[Slip]:
    lines: dict[str, ReferencePoint] = {"body": layout.body, "shoe": layout.shoe}

    def of_the_other(mark: Mark) -> Fraction:
        other = lines["shoe" if mark.of == "body" else "body"]
        return other.along if mark.direction == "along" else other.across

    def the_other_number(mark: Mark) -> Fraction:
        line = lines[mark.of]
        return line.across if mark.direction == "along" else line.along

    return [
        Slip("rows-swapped", "the rows of body and shoe changed places", of_the_other),
        Slip("rows-swapped", "the two numbers of a row changed places", the_other_number),
    ]


def _other_row(row: Rows) -> Slip:
    lines = {"body": row.layout.body, "shoe": row.layout.shoe}

    def reading(mark: Mark) -> Fraction:
        line = lines[mark.of]
        return line.along if mark.direction == "along" else line.across

    return Slip("another-row", f"taken from the row {row.words}", reading)
