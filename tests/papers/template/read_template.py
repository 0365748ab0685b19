"""A template read back from its PDF: lines, marks and cross-hairs in millimetres, pages joined."""

import io
import re
from dataclasses import dataclass, field

from pypdf import PdfReader

MM = 25.4 / 72
Point = tuple[float, float]

_LINE = re.compile(r"([-\d.]+) ([-\d.]+) m ([-\d.]+) ([-\d.]+) l S")
_WORDS = re.compile(r"\((.*)\) Tj")


@dataclass
class Page:
    """What one page shows; millimetres from its lower left corner."""

    size: Point
    lines: list[tuple[Point, Point]] = field(default_factory=list)
    dashed: list[tuple[Point, Point]] = field(default_factory=list)
    """Lines of long dashes: the datums."""
    words: list[str] = field(default_factory=list)
    holes: list[Point] = field(default_factory=list)
    marks: dict[str, Point] = field(default_factory=dict)
    """Register marks by name."""


def read(pdf: bytes) -> list[Page]:
    """Every page; a cross of 10 mm is a hole, one of 8 mm with a name after it a register mark."""
    return [_page(one) for one in PdfReader(io.BytesIO(pdf)).pages]


def _page(one: object) -> Page:
    box = one.mediabox  # type: ignore[attr-defined]
    page = Page((float(box.width) * MM, float(box.height) * MM))
    content = one.get_contents().get_data().decode("latin-1")  # type: ignore[attr-defined]
    dash, last, cross = "", None, None
    for row in content.splitlines():
        if row.endswith(" d"):
            dash = row
        elif found := _LINE.fullmatch(row):
            x0, y0, x1, y1 = (float(number) * MM for number in found.groups())
            line = ((x0, y0), (x1, y1))
            (page.dashed if dash.startswith("[17") else page.lines).append(line)
            cross = _crossing(last, line)
            if cross is not None and cross[1] == 10:
                page.holes.append(cross[0])
            last = line
        elif found := _WORDS.search(row):
            text = found[1].replace("\\(", "(").replace("\\)", ")")
            page.words.append(text)
            if re.fullmatch(r"R\d+", text) and cross is not None and cross[1] == 8:
                page.marks[text] = cross[0]
    return page


def _crossing(
    level: tuple[Point, Point] | None, upright: tuple[Point, Point]
) -> tuple[Point, int] | None:
    """Centre and size of a cross: a level line, then an upright one as long with the same middle."""
    if level is None:
        return None
    (ax, ay), (bx, by) = level
    (cx, cy), (dx, dy) = upright
    level_middle, upright_middle = ((ax + bx) / 2, ay), (cx, (cy + dy) / 2)
    apart = max(abs(a - b) for a, b in zip(level_middle, upright_middle, strict=True))
    long, high = abs(bx - ax), abs(dy - cy)
    if ay != by or cx != dx or apart > 0.02 or abs(long - high) > 0.02:
        return None
    return level_middle, round(long)


def joined(pages: list[Page]) -> tuple[list[Point], Point]:
    """Every hole once, and where the two datum lines cross, with the pages laid mark on mark."""
    offsets: dict[int, Point] = {0: (0.0, 0.0)}
    while len(offsets) < len(pages):
        for number, page in enumerate(pages):
            if number in offsets:
                continue
            for other, (x, y) in list(offsets.items()):
                shared = page.marks.keys() & pages[other].marks.keys()
                if shared:
                    name = min(shared)
                    (px, py), (qx, qy) = page.marks[name], pages[other].marks[name]
                    offsets[number] = (x + qx - px, y + qy - py)
                    break
    holes: list[Point] = []
    for number, page in enumerate(pages):
        x, y = offsets[number]
        for hx, hy in page.holes:
            place = (hx + x, hy + y)
            if all(max(abs(place[0] - a), abs(place[1] - b)) > 0.05 for a, b in holes):
                holes.append(place)
    return holes, (_one(pages, offsets, upright=True), _one(pages, offsets, upright=False))


def _one(pages: list[Page], offsets: dict[int, Point], *, upright: bool) -> float:
    """Where the one upright or level datum line stands, as the mean of its parts on all pages."""
    axis = 0 if upright else 1
    places = [
        start[axis] + offsets[number][axis]
        for number, page in enumerate(pages)
        for start, end in page.dashed
        if start[axis] == end[axis]
    ]
    assert max(places) - min(places) < 0.05
    return sum(places) / len(places)
