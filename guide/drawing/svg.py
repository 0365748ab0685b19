"""A scene as SVG for papers: no scripts, no fonts of its own, colours by their basic names.

Shapes are drawn in the order of the scene, each over those before it.
"""

from dataclasses import dataclass
from xml.sax.saxutils import escape

from guide.drawing.looks import HATCHED, LOOKS, Apart
from guide.drawing.scene import (
    Arc,
    Area,
    Caption,
    Circle,
    Dimension,
    Label,
    Point,
    Polyline,
    Scene,
    Shape,
    arc_points,
    bounds,
)

_UNIT = 10.0
"""Units of the drawing for one inch."""
_ARC_STEP_DEG = 3.0
_LETTER = 0.6
"""Width of a letter, in heights of the type."""


_DEFS = (
    '<defs><pattern id="frame" width="6" height="6" patternUnits="userSpaceOnUse">'
    '<path d="M0 6L6 0" stroke="black" stroke-width="0.8"/></pattern>'
    '<marker id="tip" viewBox="0 0 8 6" refX="8" refY="3" markerWidth="8" markerHeight="6"'
    ' orient="auto-start-reverse"><path d="M0 0L8 3L0 6z"/></marker></defs>'
)

_IDS = ("frame", "tip")
"""The ids in it."""


def render_svg(scene: Scene, marks: str = "") -> str:
    """The scene as one SVG document, its sentence in `title` and `desc`. `marks` ends its ids, where one page has
    several."""
    left, bottom, right, top = bounds(scene)
    type_size = max(7.0, (right - left) * _UNIT / 45)
    margin = 12 * type_size * _LETTER
    page = _SvgPage(left - margin / _UNIT, top + 2.5 * type_size / _UNIT, type_size)
    wide = (right - left) * _UNIT + 2 * margin
    body = [_drawn(page, shape) for shape in scene.shapes if not isinstance(shape, Label)]
    labels = [one for one in scene.shapes if isinstance(one, Label)]
    body += _labels(page, labels, wide)
    foot = (top - bottom) * _UNIT + 4.5 * type_size
    body.append(page.words(scene.above, wide / 2, type_size * 1.2, "middle"))
    body.append(page.words(scene.below, wide / 2, foot, "middle"))
    for label in labels:
        if label.explained:
            foot += 1.4 * type_size
            body.append(page.words(f"{label.key} {label.texts[0]}", type_size, foot, "start"))
    high = foot + type_size
    plain = f'role="img" font-family="sans-serif" font-size="{type_size:.1f}"'
    made = "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:.1f} {high:.1f}" {plain}>',
            f"<title>{escape(scene.above)}</title>",
            f"<desc>{escape(scene.says)}</desc>",
            _DEFS,
            *(line for line in body if line),
            "</svg>",
            "",
        ]
    )
    for name in _IDS if marks else ():
        made = made.replace(f'id="{name}"', f'id="{name}{marks}"').replace(
            f"url(#{name})", f"url(#{name}{marks})"
        )
    return made


@dataclass(frozen=True, slots=True)
class _SvgPage:
    left: float
    top: float
    type_size: float

    def at(self, point: Point) -> Point:
        return (point[0] - self.left) * _UNIT, (self.top - point[1]) * _UNIT

    def path(self, points: tuple[Point, ...], *, closed: bool) -> str:
        return "M" + "L".join("{:.2f} {:.2f}".format(*self.at(p)) for p in points) + "Z" * closed

    def words(self, text: str, x: float, y: float, anchor: str) -> str:
        """A text with a white edge, so that it can be read over lines."""
        if not text:
            return ""
        return (
            f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" stroke="white" stroke-width="3"'
            f' paint-order="stroke">{escape(text)}</text>'
        )


def _drawn(page: _SvgPage, shape: Shape) -> str:
    match shape:
        case Area(role, points):
            return _path(role, page.path(points, closed=True), filled=True)
        case Polyline(role, points, closed):
            return _path(role, page.path(points, closed=closed), filled=False)
        case Arc(role):
            points = tuple(arc_points(shape, _ARC_STEP_DEG))
            return _path(role, page.path(points, closed=False), filled=False)
        case Circle(role, centre, radius):
            x, y = page.at(centre)
            look, r = LOOKS[role], radius * _UNIT
            circle = (
                f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{r:.2f}" stroke="{look.colour}"'
                f' stroke-width="{min(look.weight, 1.0)}" fill="{_fill(role)}" class="{role}"/>'
            )
            if role != "hole":
                return circle
            arms = f"M{x - 2 * r:.2f} {y:.2f}h{4 * r:.2f}M{x:.2f} {y - 2 * r:.2f}v{4 * r:.2f}"
            return circle + _path(role, arms, filled=False)
        case Dimension(start, end, text):
            (x0, y0), (x1, y1) = page.at(start), page.at(end)
            line = _path("dimension", page.path((start, end), closed=False), filled=False).replace(
                "/>", ' marker-start="url(#tip)" marker-end="url(#tip)"/>'
            )
            level = abs(x1 - x0) > abs(y1 - y0)
            x, y = (x0 + x1) / 2, (y0 + y1) / 2 + page.type_size / 3
            return line + page.words(
                text, x if level else x + page.type_size / 2, y, "middle" if level else "start"
            )
        case Caption(place, text, before):
            x, y = page.at(place)
            return page.words(text, x, y + page.type_size / 3, "end" if before else "middle")
        case Label():
            return ""


def _path(role: str, data: str, *, filled: bool) -> str:
    look = LOOKS[role]
    dashes = " ".join(f"{one:g}" for one in look.dash)
    dash = f' stroke-dasharray="{dashes}"' if dashes else ""
    fill = _fill(role) if filled else "none"
    return (
        f'<path d="{data}" stroke="{look.colour}" stroke-width="{look.weight}"{dash}'
        f' fill="{fill}" class="{role}"/>'
    )


def _fill(role: str) -> str:
    fill = LOOKS[role].fill
    return "url(#frame)" if fill == HATCHED else fill or "none"


def _labels(page: _SvgPage, labels: list[Label], wide: float) -> list[str]:
    """Letters at their places; words beside theirs, moved down until no two overlap."""
    apart, drawn = Apart(page.type_size), []
    for label in labels:
        text = label.key if label.explained else label.texts[0]
        x, y = page.at(label.places[0])
        x += page.type_size / 2
        y += -page.type_size / 4 if label.explained else page.type_size / 3
        room = len(text) * page.type_size * _LETTER
        drawn.append(page.words(text, *apart.put(min(x, wide - room), y, room), "start"))
    return drawn
