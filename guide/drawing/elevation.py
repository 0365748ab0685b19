"""The head of the door as the person who marks it sees it: body, shoe and every hole, from named datums.

The soffit is drawn folded up: out from the leaf is upward there, like on a paper template.
"""

from dataclasses import dataclass
from fractions import Fraction
from string import ascii_uppercase

from guide.drawing.facing import ON, Facing, facing_for, other_side
from guide.drawing.scene import Area, Circle, Dimension, Label, Point, Polyline, Scene, Shape
from guide.measures import write
from guide.trade.door.hinges import USUAL_THICKNESS, pivot_offset
from guide.trade.holes.layout import FRAME, SOFFIT, PlacedHole, ReferencePoint, lay_out, to_mark
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.parts import OpeningRange
from guide.trade.sheet.sheet import Sheet

_GAP = 0.125
"""Between leaf and frame (common practice)."""
_STOP = 0.625
"""How far a stop stands out from its jamb (common practice)."""
_USUAL_OVERLAP = 0.5
"""Top of the leaf above the underside of the stop; 1/8 to 3/4 in (common practice)."""
_FACE = 2.0
"""What is drawn of the frame beside and above the leaf, not a dimension."""
_BETWEEN = 1.5
"""From one dimension line to the next; what is drawn."""
_BEYOND = 3.0
"""What is drawn of the leaf past the closer."""


@dataclass(frozen=True, slots=True)
class ElevationOf:
    """Everything an elevation is drawn from."""

    sheet: Sheet
    mount: str
    found: OpeningRange
    """The range of the mount that reaches the opening."""
    knuckles: str
    """The side the hinge knuckles are on, seen from the pull side."""
    hinge: str = "butt"
    thickness: Fraction = USUAL_THICKNESS
    units: str = "inch"
    """The units of the numbers, "inch" or "metric"."""
    overlap: float | None = None
    """Top of the leaf above the underside of the stop [in]; a usual one is drawn if it is not known."""
    listed: bool = True
    """Whether every hole has a letter and its own two numbers beneath."""


@dataclass(frozen=True, slots=True)
class _Places:
    """The affine mapping from the numbers of a layout to the drawing [in]: hinge pin centre at x 0, stop at y 0."""

    facing: Facing
    start: float
    """From the pin centre to where along is measured from."""
    datum: float
    """The height of the datum up and down is measured from."""

    def at(self, part: str, along: Fraction, across: Fraction) -> Point:
        x = self.facing.along * (self.start + float(along))
        if part == SOFFIT:
            return x, float(across)
        return x, self.datum + (float(across) if part == FRAME else -float(across))

    def line(self, line: ReferencePoint) -> Point:
        return self.at(line.part, line.along, line.across)

    def hole(self, hole: PlacedHole) -> Point:
        return self.at(hole.line.part, hole.along, hole.across)


def elevation(of: ElevationOf) -> Scene:
    """The head of the door from the side the body is on.

    NoAnswer if the sheet has no such mount or gives no holes.
    """
    layout = lay_out(of.sheet, of.mount, of.found)
    facing = facing_for(of.mount, of.knuckles)
    edge = float(pivot_offset(of.hinge, of.thickness).edge)
    top = _USUAL_OVERLAP if of.overlap is None else of.overlap
    places = _Places(
        facing,
        edge if layout.along_from == "hinge edge" else 0.0,
        top if layout.datum == "top of the leaf" else 0.0,
    )
    body, shoe = places.line(layout.body), places.line(layout.shoe)
    box = _body_box(of, facing, body)
    holes = [places.hole(hole) for hole in layout.holes]
    drawn = [*box, *holes, body, shoe]
    far = max(facing.along * x for x, _ in drawn) + _BEYOND
    foot = min(y for _, y in drawn) - 0.5
    head = max([_FACE + top, *(y + 0.8 for _, y in drawn)])
    shapes: list[Shape] = [
        *_door(facing, edge, top, (foot - 2 * _BETWEEN, head), far),
        *_datums(places, layout.along_from, layout.datum, (foot - 2 * _BETWEEN, head), far),
        *_body(of, facing, box, body),
        *(Circle("hole", hole, 0.14) for hole in holes),
    ]
    for number, (line, place) in enumerate(((layout.body, body), (layout.shoe, shoe)), start=1):
        along, across = (write(to_mark(n, of.units)) for n in (line.along, line.across))
        level = foot - _BETWEEN * (number - 0.5)
        start = facing.along * places.start
        shapes.append(Dimension((start, level), (place[0], level), f"{line.of} {along}"))
        beside = facing.along * (far - (0.5 if number == 1 else 2.0))
        base = 0.0 if line.part == SOFFIT else places.datum
        shapes.append(
            Dimension((beside, base), (beside, place[1]), f"{line.of} {across}", "_ab"[number])
        )
    if layout.shoe.part == SOFFIT:
        shapes.append(Label(((shoe[0], head - 0.4), shoe), ("soffit, folded up", "soffit"), "hole"))
    shapes += _lettered(of, layout.holes, holes)
    return Scene(
        says=_says(of, facing, layout.body, layout.shoe, layout.along_from),
        shapes=tuple(shapes),
        above=f"head of the door, from the {facing.stands} side",
        below=f"hinges on your {facing.hinges}, latch on your {other_side(facing.hinges)}",
    )


def _door(
    facing: Facing, edge: float, top: float, height: tuple[float, float], far: float
) -> list[Shape]:
    """Frame and leaf as seen from the person's side."""
    foot, head = height
    if facing.stands == "pull":
        reveal, under = edge - _GAP, top + _GAP
    else:
        reveal, under = edge - _GAP + _STOP, 0.0
    outer = min(edge - _GAP, reveal) - _FACE

    def to(*points: Point) -> tuple[Point, ...]:
        return tuple((facing.along * x, y) for x, y in points)

    return [
        Polyline("frame", to((outer, foot), (outer, head), (far, head))),
        Polyline("frame", to((far, under), (reveal, under), (reveal, foot))),
        Polyline(
            "leaf" if facing.stands == "pull" else "closed",
            to((far, top), (edge, top), (edge, foot)),
        ),
    ]


def _body_box(of: ElevationOf, facing: Facing, pinion: Point) -> tuple[Point, ...]:
    """The corners of the body, its valve end last; empty if the sheet does not give them."""
    body = of.sheet.body
    if body is None:
        return ()
    toward_latch = 1.0 if of.sheet.mount(of.mount).valves_toward == "latch" else -1.0
    way = facing.along * toward_latch
    valves = pinion[0] + way * float(body.valve_end.base)
    other = pinion[0] - way * float(body.other_end.base)
    half = float(body.height.base) / 2
    low, high = pinion[1] - half, pinion[1] + half
    return (other, low), (other, high), (valves, high), (valves, low)


def _body(of: ElevationOf, facing: Facing, box: tuple[Point, ...], pinion: Point) -> list[Shape]:
    if not box:
        return []
    valves = box[2][0]
    inward = valves + (0.6 if valves < box[0][0] else -0.6)
    end = ((inward, box[0][1]), (inward, box[1][1]), box[2], box[3])
    return [
        Polyline("body", box, closed=True),
        Area("valves", end),
        Circle("arm", pinion, 0.25),
        Label((box[3], box[2]), ("valves",), "valves"),
        Label((pinion,), ("pinion",), "arm"),
    ]


def _datums(
    places: _Places, along_from: str, datum: str, height: tuple[float, float], far: float
) -> list[Shape]:
    x = places.facing.along * places.start
    across = places.facing.along * far
    return [
        Polyline("datum", ((x, height[0]), (x, height[1]))),
        Polyline("datum", ((x, places.datum), (across, places.datum))),
        Label(
            tuple((x, height[0] + up) for up in (0.0, 0.6, 1.2, 1.8)),
            (along_from,),
            "datum",
            "Z",
        ),
        Label(
            tuple((x + (across - x) * share, places.datum) for share in (1.0, 0.9, 0.8, 0.1, 0.2)),
            (datum,),
            "datum",
            "Y",
        ),
    ]


def _lettered(of: ElevationOf, holes: tuple[PlacedHole, ...], places: list[Point]) -> list[Shape]:
    if not of.listed:
        return []
    shapes: list[Shape] = []
    for letter, hole, place in zip(ascii_uppercase, holes, places, strict=False):
        along, across = (write(to_mark(n, of.units)) for n in (hole.along, hole.across))
        text = f"{hole.name}: {along} along, {across} {hole.line.direction}; {hole.drill}"
        shapes.append(Label((place,), (text,), "hole", letter, explained=True))
    return shapes


def _says(
    of: ElevationOf, facing: Facing, body: ReferencePoint, shoe: ReferencePoint, along_from: str
) -> str:
    def told(line: ReferencePoint) -> str:
        along, across = (write(to_mark(n, of.units)) for n in (line.along, line.across))
        return (
            f"the {line.of} {ON[line.part]}, {along} along from the {along_from} and {across}"
            f" {line.direction} from the {line.across_from}"
        )

    return (
        f"Head of the door from the {facing.stands} side, {MOUNT_WORDS[of.mount]}, hinges on your"
        f" {facing.hinges}: {told(body)}; {told(shoe)}."
    )
