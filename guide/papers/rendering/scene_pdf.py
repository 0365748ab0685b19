"""A drawing of an opening on a page of a PDF: the looks are those of the SVG."""

from dataclasses import dataclass

from fpdf import FPDF

from guide.drawing.looks import COLOURS, HATCHED, HATCHED_PLAIN, LOOKS, Apart
from guide.drawing.scene import (
    Arc,
    Area,
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
from guide.papers.rendering.pdf_letters import plain

_TYPE = 7.0
"""Size of the letters [points]."""
_LINE = 3.2
"""Height of a line of them [mm]."""
_WEIGHT = 0.15
"""Of a line of weight 1 [mm]."""
_ARC_STEP_DEG = 5.0
_SIDE = 26.0
"""Left free at each side for words [mm]."""


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where a drawing lies on the page, and how large."""

    left: float
    top: float
    x0: float
    y1: float
    scale: float

    def at(self, point: Point) -> Point:
        return self.left + (point[0] - self.x0) * self.scale, self.top + (
            self.y1 - point[1]
        ) * self.scale


def draw_scene(pdf: FPDF, scene: Scene, high: float) -> None:
    """Draw the scene below what is on the page, at most `high` [mm], with its two lines of words."""
    x0, y0, x1, y1 = bounds(scene)
    wide = pdf.epw - 2 * _SIDE
    scale = min(wide / max(x1 - x0, 1e-6), high / max(y1 - y0, 1e-6))
    explained = [one for one in scene.shapes if isinstance(one, Label) and one.explained]
    whole = (y1 - y0) * scale + _LINE * (4 + len(explained))
    if pdf.will_page_break(whole):
        pdf.add_page()
    pdf.set_font("helvetica", size=_TYPE)
    _centred(pdf, scene.above)
    left = pdf.l_margin + (pdf.epw - (x1 - x0) * scale) / 2
    frame = _Frame(left, pdf.get_y() + _LINE / 2, x0, y1, scale)
    for shape in scene.shapes:
        _draw(pdf, frame, shape)
    _labels(pdf, frame, [one for one in scene.shapes if isinstance(one, Label)])
    _set_look(pdf, "dimension")
    pdf.set_dash_pattern()
    pdf.set_y(frame.top + (y1 - y0) * scale + _LINE)
    _centred(pdf, scene.below)
    for label in explained:
        pdf.cell(0, _LINE, plain(f"{label.key} {label.texts[0]}"), new_x="LMARGIN", new_y="NEXT")


def _draw(pdf: FPDF, frame: _Frame, shape: Shape) -> None:
    match shape:
        case Area(role, points):
            _set_look(pdf, role)
            pdf.polygon([frame.at(one) for one in points], style=_style(role))
        case Polyline(role, points, closed):
            _set_look(pdf, role)
            found = [frame.at(one) for one in points]
            pdf.polyline(found, polygon=closed)
        case Arc(role):
            _set_look(pdf, role)
            pdf.polyline([frame.at(one) for one in arc_points(shape, _ARC_STEP_DEG)])
        case Circle(role, centre, radius):
            _set_look(pdf, role)
            x, y = frame.at(centre)
            r = radius * frame.scale
            pdf.circle(x, y, r, style=_style(role))
            if role == "hole":
                pdf.line(x - 2 * r, y, x + 2 * r, y)
                pdf.line(x, y - 2 * r, x, y + 2 * r)
        case Dimension(start, end, text):
            _set_look(pdf, "dimension")
            _dimension(pdf, frame.at(start), frame.at(end), plain(text))
        case Label():
            return


def _dimension(pdf: FPDF, start: Point, end: Point, text: str) -> None:
    (x0, y0), (x1, y1) = start, end
    pdf.line(x0, y0, x1, y1)
    level = abs(x1 - x0) > abs(y1 - y0)
    for x, y in (start, end):
        pdf.line(x, y - 0.8, x, y + 0.8) if level else pdf.line(x - 0.8, y, x + 0.8, y)
    room = pdf.get_string_width(text)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    _words(pdf, x - room / 2 if level else x + 1, y + 0.9, text)


def _labels(pdf: FPDF, frame: _Frame, labels: list[Label]) -> None:
    """Letters at their places; words beside theirs, moved down until no two overlap."""
    apart = Apart(_LINE)
    for label in labels:
        text = plain(label.key if label.explained else label.texts[0])
        room = pdf.get_string_width(text)
        x, y = frame.at(label.places[0])
        x = min(x + 1, pdf.w - pdf.r_margin - room)
        y += -0.7 if label.explained else 0.9
        _words(pdf, *apart.put(x, y, room), text)


def _words(pdf: FPDF, x: float, y: float, text: str) -> None:
    """A text on a white ground, so that it can be read over lines."""
    pdf.set_fill_color(255, 255, 255)
    pdf.rect(x - 0.2, y - 2.2, pdf.get_string_width(text) + 0.4, 2.7, style="F")
    pdf.text(x, y, text)


def _centred(pdf: FPDF, text: str) -> None:
    if text:
        pdf.multi_cell(0, _LINE, plain(text), align="C", new_x="LMARGIN", new_y="NEXT")


def _set_look(pdf: FPDF, role: str) -> None:
    look = LOOKS[role]
    pdf.set_draw_color(*COLOURS[look.colour])
    pdf.set_line_width(look.weight * _WEIGHT)
    dash, gap = look.dash[:2] or (0.0, 0.0)
    pdf.set_dash_pattern(dash=dash * _WEIGHT * 1.5, gap=gap * _WEIGHT * 1.5)
    if look.fill:
        pdf.set_fill_color(*(HATCHED_PLAIN if look.fill == HATCHED else COLOURS[look.fill]))


def _style(role: str) -> str:
    """Lines and fill of a closed shape, in the words of the library."""
    return "DF" if LOOKS[role].fill else "D"
