"""A drawing as data: shapes in inches, each with a role, and one sentence with the same content.

x is to the right and y up, as seen by a person at the foot of the drawing. Renderers decide how a role
looks; a scene has no colours and no characters.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]
"""(x, y) in inches."""

ROLES = (
    "head",
    "closed",
    "swing",
    "frame",
    "leaf",
    "body",
    "valves",
    "shoe",
    "hinge",
    "arm",
    "datum",
    "hole",
    "dimension",
    "axis",
    "limit",
    "curve",
    "second",
    "reading",
)
"""From back to front, as the painter's algorithm needs them; those from "axis" on are of a plot.

"head" is the outline of the frame's head above a plan, "closed" the leaf in its closed position, "valves" the end of
the body that has them, "datum" a line that dimensions start from."""


@dataclass(frozen=True, slots=True)
class Polyline:
    """A line through points; closed, it returns to the first."""

    role: str
    points: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Area:
    """A filled polygon."""

    role: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, from one bearing to another."""

    role: str
    centre: Point
    radius: float
    start_deg: float
    """Bearing from the centre, anticlockwise from +x."""
    sweep_deg: float
    """From there to its end, anticlockwise above zero."""


@dataclass(frozen=True, slots=True)
class Circle:
    """A whole circle; one of role "hole" is a hole, shown with a cross-hair."""

    role: str
    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Label:
    """Words for one thing. A renderer puts the longest that fits beside one of its places."""

    places: tuple[Point, ...]
    """Places on the thing, the best first; a letter is put at the first."""
    texts: tuple[str, ...]
    """The same thing said longer and shorter, longest first."""
    role: str
    """The role of what it names."""
    key: str = ""
    """One letter for the place if no words fit; it is explained beneath. Without one the label is then
    left out, and also in a small picture."""
    explained: bool = False
    """Whether the letter is always at the place and the words always beneath."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A distance between two places, both level or one above the other, with arrow ends."""

    start: Point
    end: Point
    text: str
    key: str = ""
    """One letter beside an upright one if there is no room for the text."""


@dataclass(frozen=True, slots=True)
class Caption:
    """Words at one place exactly, in a drawing of any size: the numbers of an axis."""

    place: Point
    text: str
    before: bool = False
    """Whether they end at the place; else their middle is there."""


Shape: TypeAlias = Polyline | Area | Arc | Circle | Label | Dimension | Caption


@dataclass(frozen=True, slots=True)
class Scene:
    """One drawing."""

    says: str
    """A sentence that says what the drawing shows."""
    shapes: tuple[Shape, ...]
    above: str = ""
    below: str = ""
    """A line of words over and under the drawing."""
    room: tuple[Point, ...] = ()
    """Places that must stay in the picture although nothing is drawn there now."""


def bounds(scene: Scene) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of everything but the words [in]."""
    points = list(scene.room)
    for shape in scene.shapes:
        points += _points(shape)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _points(shape: Shape) -> Iterable[Point]:
    match shape:
        case Polyline() | Area():
            return shape.points
        case Arc():
            return arc_points(shape, 15.0)
        case Circle():
            (x, y), r = shape.centre, shape.radius
            return ((x - r, y - r), (x + r, y + r))
        case Dimension():
            return (shape.start, shape.end)
        case Label() | Caption():
            return ()


def arc_points(arc: Arc, step_deg: float) -> Iterator[Point]:
    """Points along an arc, both ends among them, at most `step_deg` apart."""
    count = max(1, math.ceil(abs(arc.sweep_deg) / step_deg))
    for number in range(count + 1):
        bearing = math.radians(arc.start_deg + arc.sweep_deg * number / count)
        x, y = arc.centre
        yield x + arc.radius * math.cos(bearing), y + arc.radius * math.sin(bearing)
