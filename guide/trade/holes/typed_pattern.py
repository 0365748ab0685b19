"""The holes of body and shoe as somebody typed them from the maker's paper: how they lie, and how far apart.

A paper draws each part's holes as one of a few patterns about its cross, the body's pinion or the shoe's pivot. Typed
toward hinge and latch, not toward the valves, the numbers need no drawing for the other hand.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from guide.measures import Quantity
from guide.trade.computation import Given, Input, given
from guide.trade.inputs import optional_length
from guide.trade.mounts import SHOE_INTO
from guide.trade.sheet.parts import NO_SHIFT, Hole

THROUGH = "through"
"""The paper does not give them: the part itself is held up, and they are marked through it."""
BODY_PATTERNS = (THROUGH, "two", "four", "six")
"""On the screw line, one to each side; at the corners of a rectangle; those, and the middle of each end."""
SHOE_PATTERNS = (THROUGH, "two", "upright", "four")
"""Side by side on the shoe's line; one above the other, or one further out; at the corners of a rectangle."""
THREADS = {
    "m5": "M5x0.8",
    "m6": "M6x1",
    "m8": "M8x1.25",
    "ten-24": "10-24",
    "ten-32": "10-32",
    "twelve-24": "12-24",
    "quarter-20": "1/4-20",
    "quarter-28": "1/4-28",
    "unknown": "",
}
"""What a closer's machine screws usually are (common practice), by the words of a question."""

_Places: TypeAlias = tuple[tuple[str, Quantity], ...]
"""What part of a hole's name each is called by, and how far from the cross."""
_LENGTHS = {
    "typed_body_to_hinge": "from the body's cross to its holes toward the hinge edge",
    "typed_body_to_latch": "from the body's cross to its holes toward the latch edge",
    "typed_body_rows": "from the body's upper row of holes to its lower",
    "typed_shoe_between": "between the shoe's holes along the door",
    "typed_shoe_rows": "between the shoe's rows, up and down or outward",
}

PATTERN_INPUTS = (
    Input("typed_body_pattern", "choice", False, "how the body's holes lie", BODY_PATTERNS),
    Input("typed_shoe_pattern", "choice", False, "how the shoe's holes lie", SHOE_PATTERNS),
    *(
        optional_length(name, f"{about}, by the paper", Fraction(0), Fraction(24))
        for name, about in _LENGTHS.items()
    ),
    Input("typed_thread", "choice", False, "the thread of the screws in the box", tuple(THREADS)),
)
"""What is typed beside the four numbers; each may be left out."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """The holes as the paper has them, as far as they were typed."""

    body: str | None = None
    """One of `BODY_PATTERNS`."""
    shoe: str | None = None
    """One of `SHOE_PATTERNS`."""
    to_hinge: Quantity | None = None
    to_latch: Quantity | None = None
    rows: Quantity | None = None
    between: Quantity | None = None
    shoe_rows: Quantity | None = None
    thread: str = ""
    """Of the machine screws; empty if not known."""

    def holes(self, of: str, mount: str) -> tuple[Hole, ...]:
        """The holes of "body" or "shoe", along above zero toward the latch; empty until all their numbers are typed."""
        return tuple(self._body() if of == "body" else self._shoe(SHOE_INTO[mount] == "soffit"))

    def _body(self) -> Iterator[Hole]:
        hinge, latch, rows = self.to_hinge, self.to_latch, self.rows
        if self.body in (None, THROUGH) or hinge is None or latch is None:
            return
        if self.body != "two" and rows is None:
            return
        for end, along in (("hinge", _minus(hinge)), ("latch", latch)):
            for name, down in _heights(self.body or "", rows):
                yield Hole(f"{end} end{name}", along, down)

    def _shoe(self, outward: bool) -> Iterator[Hole]:
        between, rows = self.between, self.shoe_rows
        if self.shoe in (None, THROUGH):
            return
        if (self.shoe != "upright" and between is None) or (self.shoe != "two" and rows is None):
            return
        sides: _Places = (("", NO_SHIFT),)
        if between is not None and self.shoe != "upright":
            half = _half(between)
            sides = (("hinge side", _minus(half)), ("latch side", half))
        heights: _Places = (("", NO_SHIFT),)
        if rows is not None and self.shoe != "two":
            half = _half(rows)
            near, far = ("nearer the leaf", "further out") if outward else ("upper", "lower")
            heights = ((near, _minus(half)), (far, half))
        for side, along in sides:
            for height, down in heights:
                yield Hole(" ".join(one for one in (side, height) if one), along, down)


def _heights(pattern: str, rows: Quantity | None) -> _Places:
    """Name and distance below the screw line of the holes at one end of the body."""
    if pattern == "two" or rows is None:
        return (("", NO_SHIFT),)
    half = _half(rows)
    middle = ((" middle", NO_SHIFT),) if pattern == "six" else ()
    return ((" upper", _minus(half)), *middle, (" lower", half))


def _half(length: Quantity) -> Quantity:
    return Quantity(length.magnitude / 2, length.unit)


def _minus(length: Quantity) -> Quantity:
    return Quantity(-length.magnitude, length.unit)


def pattern_of(values: Mapping[str, Given]) -> Pattern:
    """What was typed, from values by the names of `PATTERN_INPUTS`."""
    to_hinge, to_latch, rows, between, shoe_rows = (
        given(values, name, Quantity) for name in _LENGTHS
    )
    return Pattern(
        body=given(values, "typed_body_pattern", str),
        shoe=given(values, "typed_shoe_pattern", str),
        to_hinge=to_hinge,
        to_latch=to_latch,
        rows=rows,
        between=between,
        shoe_rows=shoe_rows,
        thread=THREADS[given(values, "typed_thread", str) or "unknown"],
    )


NOTHING_TYPED = Pattern()
"""Only the crosses of body and shoe are known."""
