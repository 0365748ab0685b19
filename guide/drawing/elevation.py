"""The head of the door as the person who marks it sees it: body, shoe and every hole, from named datums.

The soffit is drawn folded up: out from the leaf is upward there, like on a paper template.
"""

from dataclasses import dataclass
from string import ascii_uppercase

from guide.drawing.facing import ON, STANDS, Facing, other_side
from guide.drawing.scene import Area, Circle, Dimension, Label, Point, Polyline, Scene, Shape
from guide.measures import write
from guide.trade.door.hinges import HINGE_WORDS, pivot_offset
from guide.trade.holes.layout import SOFFIT, Layout, ReferencePoint, to_mark
from guide.trade.holes.places import Place, places
from guide.trade.holes.rows import place_words, row_that_covers, rows
from guide.trade.holes.set_out import SettingOut
from guide.trade.mounts import MOUNT_WORDS

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

    setting_out: SettingOut
    units: str = "inch"
    """The units of the numbers, "inch" or "metric"."""
    listed: bool = True
    """Whether every hole has a letter and its own two numbers beneath."""


@dataclass(frozen=True, slots=True)
class _Start:
    """Where the two lines that are measured from cross, the hinge pin centre at x 0 and the stop at y 0 [in]."""

    facing: Facing
    along: float
    """From the pin centre to where along is measured from, toward the latch."""
    datum: float
    """The height of the line up and down is measured from."""

    @property
    def x(self) -> float:
        """The line that along is measured from, in the drawing."""
        return self.facing.along * self.along

    def at(self, place: Place) -> Point:
        """A place of the setting-out in the drawing."""
        return self.x + float(place[0]), self.datum + float(place[1])


def elevation(of: ElevationOf) -> Scene:
    """The head of the door from the side the body is on.

    NoAnswer if nothing may be marked, or the sheet gives no holes. Of typed numbers without holes the two crosses alone
    are drawn.
    """
    so = of.setting_out
    if so.sheet is not None:
        so.drilled()
    layout, placed, opening = so.check(), places(so), so.opening
    facing = Facing(STANDS[layout.mount], placed.hinges)
    edge = float(pivot_offset(opening.hinge or "butt", opening.usual_thickness).edge)
    top = _USUAL_OVERLAP if opening.overlap is None else float(opening.overlap)
    start = _Start(
        facing,
        edge if layout.along_from == "hinge edge" else 0.0,
        top if layout.datum == "top of the leaf" else 0.0,
    )
    body, shoe = start.at(placed.body), start.at(placed.shoe)
    box = tuple(start.at(corner) for corner in placed.outline)
    holes = [start.at(place) for _, place in placed.holes]
    drawn = [*box, *holes, body, shoe]
    far = max(facing.along * x for x, _ in drawn) + _BEYOND
    foot = min(y for _, y in drawn) - 0.5
    head = max([_FACE + top, *(y + 0.8 for _, y in drawn)])
    shapes: list[Shape] = [
        *_door(facing, edge, top, (foot - 2 * _BETWEEN, head), far),
        *_datums(start, layout, (foot - 2 * _BETWEEN, head), far),
        *_body(box, body),
        *(Circle("hole", hole, 0.14) for hole in holes),
    ]
    for number, (line, place) in enumerate(((layout.body, body), (layout.shoe, shoe)), start=1):
        along, across = (write(to_mark(n, of.units)) for n in (line.along, line.across))
        level = foot - _BETWEEN * (number - 0.5)
        shapes.append(Dimension((start.x, level), (place[0], level), f"{line.of} {along}"))
        beside = facing.along * (far - 0.5)
        base = 0.0 if line.part == SOFFIT else start.datum
        shapes.append(
            Dimension((beside, base), (beside, place[1]), f"{line.of} {across}", "_ab"[number])
        )
    if layout.shoe.part == SOFFIT:
        shapes.append(Label(((shoe[0], head - 0.4), shoe), ("soffit, folded up", "soffit"), "hole"))
    shapes += _lettered(of, holes)
    return Scene(
        says=_says(of, facing, layout),
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


def _body(box: tuple[Point, ...], pinion: Point) -> list[Shape]:
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


def _datums(start: _Start, layout: Layout, height: tuple[float, float], far: float) -> list[Shape]:
    x = start.x
    across = start.facing.along * far
    return [
        Polyline("datum", ((x, height[0]), (x, height[1]))),
        Polyline("datum", ((x, start.datum), (across, start.datum))),
        Label(
            tuple((x, height[0] + up) for up in (0.0, 0.6, 1.2, 1.8)),
            (layout.along_from,),
            "datum",
            "Z",
        ),
        Label(
            tuple((x + (across - x) * share, start.datum) for share in (1.0, 0.9, 0.8, 0.1, 0.2)),
            (layout.datum,),
            "datum",
            "Y",
        ),
    ]


def _lettered(of: ElevationOf, places: list[Point]) -> list[Shape]:
    if not of.listed:
        return []
    shapes: list[Shape] = []
    listed = rows(of.setting_out, None, of.units)
    for letter, row, place in zip(ascii_uppercase, listed, places, strict=False):
        text = f"{row.hole.name}: {write(row.along)} along, {write(row.across)} {row.direction}; {row.drill}"
        shapes.append(Label((place,), (text,), "hole", letter, explained=True))
    return shapes


def _says(of: ElevationOf, facing: Facing, layout: Layout) -> str:
    so = of.setting_out

    def told(line: ReferencePoint) -> str:
        on = so.accessories.of(line.of)
        carried = "" if on is None or on.kind == "extra-screws" else f" on the {on.name}"
        return f"the {line.of} {ON[line.part]}{carried}, {place_words(so, line, of.units)}"

    valves = ""
    if so.valves_toward is not None:
        valves = f", valves toward the {so.valves_toward} on your {facing.side(so.valves_toward)}"
    what = row_that_covers(so) or MOUNT_WORDS[layout.mount]
    hinge = HINGE_WORDS[so.opening.hinge or "butt"]
    return (
        f"Head of the door from the {facing.stands} side, {what}, {hinge}, hinges on your"
        f" {facing.hinges}{valves}: {told(layout.body)}; {told(layout.shoe)}."
    )
