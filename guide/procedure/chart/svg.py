"""A chart as SVG, laid out by ourselves: one row a block, in the order of the file, indented by its depth.

The way to the next row runs down between the rows. Every other way runs in a lane of its own: forward in the
right margin, back in the left one. A block that is decided by has its label where the way leaves.
"""

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from guide.procedure.chart.picture import Arrow, Box, Picture

ROW = 58
"""Pixels from one row to the next."""
HIGH = 34
"""Pixels of a box's height."""
WIDE = 560
"""Pixels of a box's width."""
INDENT = 22
LANE = 9
EDGE = 14
"""Pixels between the lanes and the boxes, and around the whole."""
TOP = 54
LETTERS = 62
"""Characters of a box's second line."""

_STYLE = (
    "text{font:12px sans-serif;fill:#111}.name{font-weight:bold}.label{font-size:11px}"
    "rect,path{fill:#fff;stroke:#111}path{fill:none}.cuts{stroke-width:4}"
    ".decides{stroke-dasharray:6 3}.hold{stroke-width:2;stroke-dasharray:2 2}.back{stroke-dasharray:4 3}"
)


@dataclass(frozen=True, slots=True)
class _Lane:
    arrow: Arrow
    number: int


def svg(picture: Picture) -> str:
    """The chart as one SVG image, with its title and its kinds of box named for a screen reader."""
    rows = {box.index: row for row, box in enumerate(picture.boxes)}
    depths = {box.index: box.depth for box in picture.boxes}
    near = [a for a in picture.arrows if rows[a.target] == rows[a.source] + 1]
    forth = _lanes([a for a in picture.arrows if rows[a.target] > rows[a.source] + 1], rows)
    back = _lanes([a for a in picture.arrows if rows[a.target] <= rows[a.source]], rows)
    left = EDGE * 2 + LANE * _count(back)
    deepest = max(depths.values(), default=0)
    right = left + INDENT * deepest + WIDE
    width = right + EDGE * 2 + LANE * _count(forth)
    height = TOP + ROW * len(rows) + EDGE
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width}" height="{height}"'
        f' viewBox="0 0 {width} {height}">',
        f"<title>{escape(picture.title)}</title>",
        "<desc>One row a block, in order. A dashed box decides, a dotted one is a hold point, a heavy one "
        "cuts. Dashed ways lead back.</desc>",
        f"<style>{_STYLE}</style>",
        '<defs><marker id="tip" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" markerHeight="7"'
        ' orient="auto"><path d="M0 0L8 4L0 8z" style="fill:#111"/></marker></defs>',
        f'<text class="name" x="{EDGE}" y="{EDGE + 12}">{escape(picture.title)}</text>',
    ]

    def x_of(index: int) -> int:
        return left + INDENT * depths[index]

    def y_of(index: int) -> int:
        return TOP + ROW * rows[index]

    for arrow in near:
        x = max(x_of(arrow.source), x_of(arrow.target)) + 20
        y = y_of(arrow.source) + HIGH
        parts.append(_way(f"M{x} {y}V{y_of(arrow.target)}", arrow))
        parts.append(_label(arrow, x + 8, y + 15))
    for lane in forth:
        x = right + EDGE + LANE * lane.number
        y, end = y_of(lane.arrow.source) + HIGH - 8, y_of(lane.arrow.target) + 8
        start = x_of(lane.arrow.source) + WIDE
        parts.append(_way(f"M{start} {y}H{x}V{end}H{x_of(lane.arrow.target) + WIDE}", lane.arrow))
    for lane in back:
        x = left - EDGE - LANE * lane.number
        y, end = y_of(lane.arrow.source) + HIGH - 8, y_of(lane.arrow.target) + 8
        start = x_of(lane.arrow.source)
        parts.append(_way(f"M{start} {y}H{x}V{end}H{x_of(lane.arrow.target)}", lane.arrow))
    parts += [_box(box, x_of(box.index), y_of(box.index)) for box in picture.boxes]
    return "\n".join(part for part in [*parts, "</svg>"] if part) + "\n"


def _lanes(arrows: list[Arrow], rows: dict[int, int]) -> list[_Lane]:
    """A lane for each arrow, so that no two that share a row run over each other; short ones inside."""
    taken: list[list[tuple[int, int]]] = []
    found: list[_Lane] = []
    for arrow in sorted(arrows, key=lambda a: (abs(rows[a.target] - rows[a.source]), a.source)):
        low, high = sorted((rows[arrow.source], rows[arrow.target]))
        for number, spans in enumerate(taken):
            if all(high < first or last < low for first, last in spans):
                break
        else:
            number = len(taken)
            taken.append([])
        taken[number].append((low, high))
        found.append(_Lane(arrow, number))
    return found


def _count(lanes: list[_Lane]) -> int:
    return 1 + max((lane.number for lane in lanes), default=-1)


def _way(path: str, arrow: Arrow) -> str:
    name = ' class="back"' if arrow.back else ""
    title = f"<title>{escape(arrow.label)}</title>" if arrow.label else ""
    return f'<path{name} d="{path}" marker-end="url(#tip)">{title}</path>'


def _label(arrow: Arrow, x: int, y: int) -> str:
    if not arrow.label:
        return ""
    return f'<text class="label" x="{x}" y="{y}">{escape(arrow.label)}</text>'


def _box(box: Box, x: int, y: int) -> str:
    kinds = [box.kind] if box.kind == "hold" else ["decides"] * box.decides
    kinds += ["cuts"] * box.cuts
    name = f"{box.group}/{box.name}" if box.group else box.name
    kind = f"{box.kind}, cuts" if box.cuts else box.kind
    text = box.text if len(box.text) <= LETTERS else box.text[: LETTERS - 1] + "…"
    curve = HIGH // 2 if box.kind == "end" else 3
    return (
        f"<g><title>{escape(f'{kind}: {name}')}</title>"
        f'<rect class={quoteattr(" ".join(kinds))} x="{x}" y="{y}" width="{WIDE}"'
        f' height="{HIGH}" rx="{curve}"/>'
        f'<text x="{x + 8}" y="{y + 14}"><tspan class="name">{escape(name)}</tspan>'
        f" ({escape(kind)})</text>"
        f'<text x="{x + 8}" y="{y + 28}">{escape(text)}</text></g>'
    )
