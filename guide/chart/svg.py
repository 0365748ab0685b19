"""A chart as SVG, in our own layout: one row a block, in the order of the file, indented by its depth.

The way to the next row runs down between the two. Every other way runs in a lane: forward in the right margin,
back in the left one. What a way needs is written at its end, above the box that it leads to.
"""

from dataclasses import dataclass
from xml.sax.saxutils import escape

from guide.chart.picture import Arrow, Box, Picture

ROW = 58
"""Pixels from one row to the next."""
HIGH = 34
"""Pixels of a box's height."""
WIDE = 600
"""Pixels of a box's width."""
INDENT = 22
"""The indent of a branch [px]."""
LANE = 9
"""Pixels from one lane to the next."""
EDGE = 14
"""Pixels between the lanes and the boxes, and around the whole."""
TOP = 54
"""Pixels above the first row."""
LETTERS = 90
"""Characters of a line in a box."""

_STYLE = (
    "text{font:12px sans-serif;fill:#111}.name{font-weight:bold}.label{font-size:11px}"
    "rect,path{fill:#fff;stroke:#111}path{fill:none}.cuts{stroke-width:4}"
    ".decides{stroke-dasharray:6 3}.hold{stroke-width:2;stroke-dasharray:2 2}.back{stroke-dasharray:4 3}"
)
_KEY = (
    "One row a block, in order. A dashed box decides, a dotted one is a hold point, a heavy one cuts. "
    "Dashed ways lead back."
)
_TIP = (
    '<defs><marker id="tip" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" markerHeight="7" '
    'orient="auto"><path d="M0 0L8 4L0 8z" style="fill:#111"/></marker></defs>'
)


def svg(picture: Picture) -> str:
    """The chart as one SVG image, with a title and a description for a screen reader."""
    page = _ChartLayout(picture)
    size = f'width="{page.width}" height="{page.height}" viewBox="0 0 {page.width} {page.height}"'
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size}>',
        f"<title>{escape(picture.title)}</title>",
        f"<desc>{_KEY}</desc>",
        f"<style>{_STYLE}</style>",
        _TIP,
        f'<text class="name" x="{EDGE}" y="{EDGE + 12}">{escape(picture.title)}</text>',
        *(page.down(arrow) for arrow in page.near),
        *(page.round(arrow, lane) for arrow, lane in page.forth.items()),
        *(page.round(arrow, lane) for arrow, lane in page.back.items()),
        *(page.box(box) for box in picture.boxes),
        *page.labels(),
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


@dataclass(frozen=True, slots=True)
class _Spot:
    """The place of a box [px]."""

    row: int
    x: int
    y: int


class _ChartLayout:
    """Rows, lanes and sizes of one chart."""

    def __init__(self, picture: Picture) -> None:
        rows = {box.index: row for row, box in enumerate(picture.boxes)}
        self.picture = picture
        self.near = [a for a in picture.arrows if rows[a.target] == rows[a.source] + 1]
        self.forth = _lanes(
            [a for a in picture.arrows if rows[a.target] > rows[a.source] + 1], rows
        )
        self.back = _lanes([a for a in picture.arrows if a.back], rows)
        self.left = EDGE * 2 + LANE * len(set(self.back.values()))
        deepest = max((box.depth for box in picture.boxes), default=0)
        self.right = self.left + INDENT * deepest + WIDE
        self.width = self.right + EDGE * 2 + LANE * len(set(self.forth.values()))
        self.height = TOP + ROW * len(rows) + EDGE
        self.spots = {
            box.index: _Spot(row, self.left + INDENT * box.depth, TOP + ROW * row)
            for row, box in enumerate(picture.boxes)
        }

    def down(self, arrow: Arrow) -> str:
        """The way from a box to the next row."""
        source, target = self.spots[arrow.source], self.spots[arrow.target]
        x = max(source.x, target.x) + 20
        return _way(f"M{x} {source.y + HIGH}V{target.y}", arrow)

    def round(self, arrow: Arrow, lane: int) -> str:
        """The way along a lane."""
        source, target = self.spots[arrow.source], self.spots[arrow.target]
        if arrow.back:
            x, start, end = self.left - EDGE - LANE * lane, source.x, target.x
        else:
            x, start, end = self.right + EDGE + LANE * lane, source.x + WIDE, target.x + WIDE
        return _way(f"M{start} {source.y + HIGH - 8}H{x}V{target.y + 8}H{end}", arrow)

    def labels(self) -> list[str]:
        """The conditions of the arrows: beside the way down from the row above, and at the end of each lane."""
        found = []
        for arrow in self.near:
            target = self.spots[arrow.target]
            x = max(target.x, self.spots[arrow.source].x) + 28
            found.append(_label(f'x="{x}" y="{target.y - 6}"', arrow.label))
        for index, spot in self.spots.items():
            needs = dict.fromkeys(a.label for a in (*self.forth, *self.back) if a.target == index)
            place = f'x="{spot.x + WIDE}" y="{spot.y - 6}" text-anchor="end"'
            found.append(_label(place, "; ".join(filter(None, needs))))
        return [label for label in found if label]

    def box(self, box: Box) -> str:
        """A box with its name and kind, and its text below."""
        spot = self.spots[box.index]
        classes = " ".join(
            name
            for name, is_so in (
                ("hold", box.kind == "hold"),
                ("decides", box.decides),
                ("cuts", box.cuts),
            )
            if is_so
        )
        name = f"{box.group}/{box.name}" if box.group else box.name
        kind = f"{box.kind}, cuts" if box.cuts else box.kind
        curve = HIGH // 2 if box.kind == "end" else 3
        x, y = spot.x, spot.y
        return (
            f'<rect class="{classes}" x="{x}" y="{y}" width="{WIDE}" height="{HIGH}" rx="{curve}"/>'
            f'<text x="{x + 12}" y="{y + 14}"><tspan class="name">{escape(name)}</tspan>'
            f" ({escape(kind)})</text>"
            f'<text x="{x + 12}" y="{y + 28}">{escape(_short(box.text))}</text>'
        )


def _lanes(arrows: list[Arrow], rows: dict[int, int]) -> dict[Arrow, int]:
    """A lane for each arrow, short ones inside, so that no two that share a row run over each other."""
    taken: list[list[tuple[int, int]]] = []
    found: dict[Arrow, int] = {}
    for arrow in sorted(arrows, key=lambda a: (abs(rows[a.target] - rows[a.source]), a.source)):
        low, high = sorted((rows[arrow.source], rows[arrow.target]))
        free = (n for n, spans in enumerate(taken) if all(high < a or b < low for a, b in spans))
        lane = next(free, len(taken))
        if lane == len(taken):
            taken.append([])
        taken[lane].append((low, high))
        found[arrow] = lane
    return found


def _way(path: str, arrow: Arrow) -> str:
    name = ' class="back"' if arrow.back else ""
    return f'<path{name} d="{path}" marker-end="url(#tip)"/>'


def _label(place: str, text: str) -> str:
    return f'<text class="label" {place}>{escape(_short(text))}</text>' if text else ""


def _short(text: str) -> str:
    return text if len(text) <= LETTERS else text[: LETTERS - 1] + "…"
