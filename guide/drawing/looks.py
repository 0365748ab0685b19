"""How each role of a scene looks on paper and screen, and where its words go so that none overlap.

Roles differ in weight, dash or fill besides their colour, so that a black-and-white print is as clear.
"""

from dataclasses import dataclass

from guide.drawing.scene import Point

COLOURS = {
    "gray": (128, 128, 128),
    "black": (0, 0, 0),
    "navy": (0, 0, 128),
    "maroon": (128, 0, 0),
    "green": (0, 128, 0),
    "red": (255, 0, 0),
    "silver": (192, 192, 192),
}
"""Red, green, blue of the basic colour names of the web that looks use."""
HATCHED = "hatched"
"""A fill of slanting lines."""
HATCHED_PLAIN = (225, 225, 225)
"""The grey of a hatched area, for what cannot draw lines in it."""


@dataclass(frozen=True, slots=True)
class Look:
    """The look of one role."""

    colour: str
    """Of its lines; one of `COLOURS`."""
    weight: float
    """Of a line [tenths of an inch of the drawing at its usual size]."""
    dash: tuple[float, ...] = ()
    """Dashes and gaps by turns, in the measure of the weight; empty for a whole line."""
    fill: str = ""
    """One of `COLOURS`, or `HATCHED`; empty for none."""


LOOKS = {
    "head": Look("gray", 0.8, (2, 4)),
    "closed": Look("gray", 0.8, (6, 4)),
    "swing": Look("gray", 0.8, (1, 3)),
    "frame": Look("black", 1.2, fill=HATCHED),
    "leaf": Look("black", 1.8),
    "body": Look("navy", 1.4, fill="silver"),
    "valves": Look("navy", 1.4, fill="navy"),
    "shoe": Look("maroon", 1.4, fill="maroon"),
    "hinge": Look("black", 1.0, fill="black"),
    "arm": Look("maroon", 3.2),
    "datum": Look("green", 1.0, (10, 3, 2, 3)),
    "hole": Look("red", 0.8),
    "dimension": Look("black", 0.8),
    "axis": Look("black", 1.1),
    "limit": Look("red", 1.1, (8, 4)),
    "curve": Look("navy", 1.6),
    "second": Look("maroon", 2.6),
    "reading": Look("navy", 1.0, fill="navy"),
}
"""How each role looks."""


class Apart:
    """Words that are put beside their places, each moved down until it overlaps none before it."""

    def __init__(self, line: float) -> None:
        """`line` is the height of a line of words, in the renderer's measure; y is down."""
        self._line = line
        self._taken: list[tuple[float, float, float]] = []

    def put(self, x: float, y: float, room: float) -> Point:
        """Where words go that are wanted at a place and need so much room to the right."""
        while any(
            abs(y - other) < self._line and x < last and first < x + room
            for first, last, other in self._taken
        ):
            y += self._line
        self._taken.append((x, x + room, y))
        return x, y
