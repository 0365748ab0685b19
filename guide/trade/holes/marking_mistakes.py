"""The classic mistakes of marking out, each as the reading it would give, and which of them explains
what was read.

Lengths in inches. A mistake is named only where its reading is within tolerance of what was read and
more than twice the tolerance from where the mark should be: nearer than that, a slip of the pencil is as
likely.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

LABELS = (
    "other-hand",
    "wrong-edge",
    "rows-swapped",
    "another-row",
    "unit-mixed",
    "whole-inch",
)
"""The names of the mistakes. Of two that explain as many readings, the earlier comes first."""

_CENTIMETRE = Fraction(254, 100)
_UNITS = (
    ("centimetres were marked for inches", 1 / _CENTIMETRE),
    ("inches were marked for centimetres", _CENTIMETRE),
    ("millimetres were marked for centimetres", Fraction(1, 10)),
    ("centimetres were marked for millimetres", Fraction(10)),
)
"""What was taken for what, and the reading over the right number."""

_WHOLE = {
    "inch": (Fraction(1), "a whole inch"),
    "metric": (Fraction(10) / _CENTIMETRE, "a whole 10 cm"),
}
"""Where people start a tape to spare its worn hook, by unit system."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One number of one mark: where it should be, and what was read back."""

    name: str
    """As a sentence begins: "Body along"."""
    of: str
    """"body" or "shoe"."""
    direction: str
    """"along", "down", "up" or "out"."""
    wanted: Fraction
    read: Fraction
    line: Fraction
    """Its part's reference line in that direction; the wanted number itself for a reference line."""

    @property
    def off(self) -> Fraction:
        """Read less wanted."""
        return self.read - self.wanted


@dataclass(frozen=True, slots=True)
class Slip:
    """One mistake."""

    label: str
    """One of `LABELS`."""
    says: str
    """What would have happened, a phrase after "as if"."""
    reading: Callable[[Mark], Fraction | None]
    """What it would make of a mark; None if it does not concern it."""


@dataclass(frozen=True, slots=True)
class Datums:
    """From where the marks are measured, and what else there was to measure from by mistake."""

    along_from: str
    datum: str
    edge: Fraction
    """Hinge edge from the hinge pin centre, above zero toward the latch."""
    overlap: Fraction | None = None
    """Top of the leaf above the underside of the stop; None if it is not known."""
    width: Fraction | None = None
    """Of the leaf; None if it is not known."""


def explains(slip: Slip, mark: Mark, tolerance: Fraction) -> bool:
    """Whether the mistake would give what was read, and could not be a slip of the pencil."""
    reading = slip.reading(mark)
    return (
        reading is not None
        and abs(reading - mark.read) <= tolerance
        and abs(reading - mark.wanted) > 2 * tolerance
    )


def classic(
    off: Sequence[Mark], slips: Sequence[Slip], tolerance: Fraction
) -> tuple[tuple[Slip, tuple[Mark, ...]], ...]:
    """The mistakes that explain most of the marks that are off, the likeliest first, each with the marks
    it explains. Empty if none explains any."""
    found = [(slip, tuple(one for one in off if explains(slip, one, tolerance))) for slip in slips]
    most = max((len(marks) for _, marks in found), default=0)
    if not most:
        return ()
    best = [(slip, marks) for slip, marks in found if len(marks) == most]
    return tuple(sorted(best, key=lambda one: LABELS.index(one[0].label)))


def datum_slips(datums: Datums, marks: Sequence[Mark], tolerance: Fraction) -> list[Slip]:
    """Measured from the latch edge, from pin centre instead of hinge edge, or from the stop instead of the
    top of the leaf, or the other way round."""
    slips = [*_latch_edge(datums), *_wrong_edge(datums)]
    overlap = datums.overlap
    if overlap is None:
        overlap = _overlap_shown(marks, tolerance)
    if overlap is not None:
        slips += _wrong_datum(datums.datum, overlap)
    return slips


def unit_slips() -> list[Slip]:
    """One unit taken for another."""

    def times(factor: Fraction) -> Callable[[Mark], Fraction]:
        return lambda mark: mark.wanted * factor

    return [Slip("unit-mixed", says, times(factor)) for says, factor in _UNITS]


def whole_slips(system: str) -> list[Slip]:
    """A tape not started at its end and the start not taken off, or taken off twice."""
    step, words = _WHOLE[system]

    def by(amount: Fraction) -> Callable[[Mark], Fraction]:
        return lambda mark: mark.wanted + amount

    says = f"the tape was started at another mark and {words} was forgotten"
    return [Slip("whole-inch", says, by(one)) for one in (step, -step)]


def _latch_edge(datums: Datums) -> list[Slip]:
    if datums.width is None:
        return []
    width, edge = datums.width, datums.edge if datums.along_from == "hinge pin centre" else 0
    says = "laid out for the other hand, from the latch edge of the leaf"

    def mirrored(mark: Mark) -> Fraction | None:
        return width + 2 * edge - mark.wanted if mark.direction == "along" else None

    return [Slip("other-hand", says, mirrored)]


def _wrong_edge(datums: Datums) -> list[Slip]:
    pin = datums.along_from == "hinge pin centre"
    other = "hinge edge" if pin else "hinge pin centre"
    shift = datums.edge if pin else -datums.edge

    def by(amount: Fraction) -> Callable[[Mark], Fraction | None]:
        return lambda mark: mark.wanted + amount if mark.direction == "along" else None

    return [
        Slip("wrong-edge", f"{done} from the {other}", by(amount))
        for done, amount in (("marked", shift), ("read", -shift))
    ]


def _wrong_datum(datum: str, overlap: Fraction) -> list[Slip]:
    stop = datum == "underside of the stop"
    other = "top of the leaf" if stop else "underside of the stop"
    # A mark made from the top of the leaf is higher than one from the stop by the overlap.
    higher = overlap if stop else -overlap

    def by(up: Fraction) -> Callable[[Mark], Fraction | None]:
        def reading(mark: Mark) -> Fraction | None:
            if mark.direction == "up":
                return mark.wanted + up
            return mark.wanted - up if mark.direction == "down" else None

        return reading

    return [
        Slip("wrong-edge", f"{done} from the {other}", by(up))
        for done, up in (("marked", higher), ("read", -higher))
    ]


_OVERLAPS = Fraction(1, 8), Fraction(3, 4)
"""How far the top of a leaf usually is above the underside of the stop (common practice)."""


def _overlap_shown(marks: Sequence[Mark], tolerance: Fraction) -> Fraction | None:
    """The overlap that a mark on the leaf and one on the frame show together, both being off upward or
    downward by the same usual overlap; None if they do not."""
    up = [one.off for one in marks if one.direction == "up"]
    down = [-one.off for one in marks if one.direction == "down"]
    if not up or not down:
        return None
    both = up + down
    if max(both) - min(both) > tolerance:
        return None
    shown = abs(sum(both, Fraction(0)) / len(both))
    return shown if _OVERLAPS[0] <= shown <= _OVERLAPS[1] else None
