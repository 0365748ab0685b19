"""The full-size template of one closer on one opening, as a PDF of as many pages as it takes.

It lies on the door as the fitter faces it. Hinge line and datum are drawn as lines to fold or tape on;
every hole is a cross-hair with its drill. The same input gives the same bytes.
"""

from dataclasses import dataclass
from datetime import UTC, datetime
from fractions import Fraction

from fpdf import FPDF

from guide.measures import write
from guide.papers.template.template_tiles import (
    FOOT,
    HEAD,
    MARGIN,
    OVERLAP,
    Box,
    Tile,
    Tiling,
    clip,
    holds,
    register_marks,
    tile,
)
from guide.trade.door.hinges import HINGE_WORDS
from guide.trade.holes.layout import SOFFIT
from guide.trade.holes.places import Place, Places, places
from guide.trade.holes.rows import Row, carried_over, drill_sentence, row_that_covers, rows
from guide.trade.holes.set_out import SettingOut
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet_check.check import check_sheet

MM = 25.4
CAUTION = "The maker's own sheet governs. Before drilling, measure the check bars and compare all numbers with it."
INVENTED = "INVENTED CLOSER: for practice only. Never drill from this paper."
LEFT = "DO NOT DRILL before the sheet is corrected:"
_ARM = 5.0
"""Half a cross-hair [mm]."""
_MARK = 4.0
"""Half a register mark [mm]."""
_AROUND = 8.0
"""Paper around what is drawn [mm]."""
_MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""The date every file carries, so that the same template is the same file."""


@dataclass(frozen=True, slots=True)
class TemplateOf:
    """The inputs of a template."""

    setting_out: SettingOut
    units: str
    """"inch" or "metric"."""

    @property
    def name(self) -> str:
        """What the numbers are from."""
        sheet = self.setting_out.sheet
        return "typed numbers" if sheet is None else sheet.sheet

    @property
    def invented(self) -> bool:
        """Whether the sheet is for practice only."""
        sheet = self.setting_out.sheet
        return sheet is not None and "invented" in sheet.about.casefold()


def template_pdf(of: TemplateOf, paper: str = "letter") -> bytes:
    """The template as a PDF on "letter" or "a4".

    NoAnswer if nothing may be marked, or the sheet gives no holes. KeyError for another paper.
    """
    drawing = _Drawing(of)
    tiling = tile(drawing.whole, paper)
    pdf = FPDF(unit="mm", format=tiling.page)
    pdf.set_creation_date(_MADE)
    pdf.set_auto_page_break(False)
    pdf.set_margin(0)
    pdf.set_title(_plain(f"Template: {of.name}, {MOUNT_WORDS[drawing.layout.mount]}"))
    marks = register_marks(tiling)
    for number, one in enumerate(tiling.tiles, start=1):
        pdf.add_page()
        page = _Page(pdf, tiling, one)
        _title(page, drawing, f"Page {number} of {len(tiling.tiles)}")
        _check_bars(page)
        drawing.draw(page)
        for name, mark in marks.items():
            if holds(one.box, mark):
                _register(page, name, mark)
    return bytes(pdf.output())


def pages(of: TemplateOf, paper: str = "letter") -> tuple[int, int]:
    """The number of pages across and down; errors as in `template_pdf`."""
    tiling = tile(_Drawing(of).whole, paper)
    return tiling.across, tiling.down


class _Page:
    """One page: from millimetres of the whole template to those of the page, y down from its top."""

    def __init__(self, pdf: FPDF, tiling: Tiling, one: Tile) -> None:
        self.pdf, self.tiling, self.tile = pdf, tiling, one

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        left, _, _, top = self.tile.box
        return MARGIN + point[0] - left, MARGIN + HEAD + top - point[1]

    def line(self, start: tuple[float, float], end: tuple[float, float], width: float) -> None:
        """Draw the part of a line of the template that is on this page."""
        part = clip(start, end, self.tile.box)
        if part is not None:
            self.pdf.set_line_width(width)
            self.pdf.line(*self.at(part[0]), *self.at(part[1]))

    def words(self, text: str, point: tuple[float, float], size: float) -> None:
        """A text beside a place of the template, where the place is on this page."""
        if not holds(self.tile.box, point):
            return
        x, y = self.at(point)
        self.pdf.set_font("helvetica", size=size)
        wide = self.pdf.get_string_width(_plain(text))
        x = min(x, self.tiling.page[0] - MARGIN / 2 - wide)
        self.pdf.text(x, y, _plain(text))


class _Drawing:
    """Everything on the template, in millimetres from where the two datum lines cross."""

    def __init__(self, of: TemplateOf) -> None:
        self.of = of
        of.setting_out.drilled()
        self.layout = of.setting_out.check()
        self.places: Places = places(of.setting_out)
        self.fold = _mm(self.places.fold)
        placed = [_point(place) for _, place in self.places.holes]
        self.holes = [*zip(rows(of.setting_out, None, of.units), placed, strict=True)]
        points = [*placed, *map(_point, self.places.outline), (0.0, 0.0), (0.0, self.fold)]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        self.whole: Box = (
            min(xs) - _AROUND,
            min(ys) - _AROUND,
            max(xs) + _AROUND,
            max(ys) + _AROUND,
        )

    def draw(self, page: _Page) -> None:
        left, bottom, right, top = self.whole
        page.pdf.set_dash_pattern(dash=6, gap=2)
        page.line((0.0, bottom), (0.0, top), 0.4)
        page.line((left, 0.0), (right, 0.0), 0.4)
        if self.fold:
            page.line((left, self.fold), (right, self.fold), 0.4)
        page.pdf.set_dash_pattern()
        self._name_datums(page)
        self._outline(page)
        for row, place in self.holes:
            if holds(page.tile.box, place):
                self._hole(page, row, place)

    def _outline(self, page: _Page) -> None:
        """The body's outline and its valve end, so that a paper laid the wrong way round is seen."""
        if not self.places.outline:
            return
        corners = [_point(place) for place in self.places.outline]
        page.pdf.set_dash_pattern(dash=1, gap=1)
        for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
            page.line(start, end, 0.15)
        page.pdf.set_dash_pattern()
        (x0, y0), _, (x1, y1), _ = corners
        inside = x1 + 1.5 if x1 < x0 else x1 - 14.0
        page.words("VALVES", (inside, max(y0, y1) - 3.0), 7)

    def _name_datums(self, page: _Page) -> None:
        left, bottom, right, _ = self.whole
        toward_latch = 1.0 if self.places.hinges == "left" else -1.0
        hinge_line = f"HINGE LINE: {self.layout.along_from}"
        page.words(hinge_line, (1.5 if toward_latch > 0 else -58.0, bottom + 2.0), 8)
        across = right * 0.55 if toward_latch > 0 else left * 0.75
        name = "STOP LINE" if self.layout.datum == "underside of the stop" else "DATUM LINE"
        page.words(f"{name}: {self.layout.datum}", (across, 1.0), 8)
        if self.layout.shoe.part == SOFFIT:
            page.words(
                "Fold here: above it lies under the soffit, out from the push face of the leaf",
                (across, self.fold + 4.5),
                6,
            )

    def _hole(self, page: _Page, row: Row, place: tuple[float, float]) -> None:
        x, y = page.at(place)
        page.pdf.set_line_width(0.15)
        page.pdf.line(x - _ARM, y, x + _ARM, y)
        page.pdf.line(x, y - _ARM, x, y + _ARM)
        page.pdf.circle(x, y, 1.6)
        lines = (
            row.hole.name,
            *([row.hole.only_if] if row.hole.only_if else []),
            row.drill,
            f"{write(row.along)} along, {write(row.across)} {row.direction}",
        )
        for number, text in enumerate(reversed(lines)):
            page.words(text, (place[0] + 1.2, place[1] + 2.1 + 2.7 * number), 7)


def _mm(inches: Fraction) -> float:
    return float(inches) * MM


def _point(place: Place) -> tuple[float, float]:
    return _mm(place[0]), _mm(place[1])


def _title(page: _Page, drawing: _Drawing, number: str) -> None:
    of, so = drawing.of, drawing.of.setting_out
    mount, hinges = drawing.layout.mount, drawing.places.hinges
    big = MOUNT_WORDS[mount].upper()
    big = f"{so.opening.hand}  {big}" if so.opening.hand else f"{big}, HINGES {hinges.upper()}"
    pdf, (wide, _) = page.pdf, page.tiling.page
    pdf.set_font("helvetica", "B", 24)
    pdf.text(MARGIN, MARGIN + 9, _plain(big))
    pdf.set_font("helvetica", size=9)
    place = f"{number}: row {page.tile.down + 1}, column {page.tile.across + 1}"
    pdf.text(wide - MARGIN - pdf.get_string_width(place), MARGIN + 9, place)
    for row, text in enumerate(_head_lines(of, hinges)):
        pdf.set_font("helvetica", "B" if text == INVENTED or text.startswith(LEFT) else "", 7)
        _fit_size(pdf, text, wide - 2 * MARGIN, 7)
        pdf.text(MARGIN, MARGIN + 15 + 3.4 * row, _plain(text))


def _head_lines(of: TemplateOf, hinges: str) -> list[str]:
    """What the paper is for, how it is laid, and what to drill."""
    so = of.setting_out
    side = "pull" if so.opening.mount == "regular" else "push"
    on = HINGE_WORDS[so.opening.hinge or "butt"]
    lines = [INVENTED] if of.invented else []
    lines += _left(of)
    lines += [
        f"Lay it on the {side} side, facing you: hinges on your {hinges}.",
        f"{of.name}, {row_that_covers(so) or MOUNT_WORDS[so.check().mount]}; {on}",
    ]
    lines += [f"{one}." for one in carried_over(so, of.units).removesuffix(".").split(". ") if one]
    for part in ("leaf", "frame face", "soffit"):
        words = drill_sentence(so, part, of.units)
        lines += [f"{part.capitalize()}: {words}."] if words else []
    lines += [one.told for one in so.accessories.found]
    return [*lines, CAUTION]


def _left(of: TemplateOf) -> list[str]:
    """What the check finds in the sheet and was left so, for the person who drills from the paper."""
    if of.setting_out.sheet is None:
        return []
    wrong = [one for one in check_sheet(of.setting_out.sheet) if not one.advice]
    more = f" And {len(wrong) - 1} more: hingeside check." if len(wrong) > 1 else ""
    return [f"{LEFT} {wrong[0].message}{more}"] if wrong else []


def _fit_size(pdf: FPDF, text: str, room: float, size: float) -> None:
    while pdf.get_string_width(_plain(text)) > room and size > 5:
        size -= 0.5
        pdf.set_font_size(size)


def _check_bars(page: _Page) -> None:
    """Two bars to lay a tape on: copies and printers shrink."""
    pdf, (wide, high) = page.pdf, page.tiling.page
    y = high - MARGIN - FOOT + 9.0
    pdf.set_font("helvetica", size=8)
    pdf.text(MARGIN, y - 3.0, "Print at 100 percent. Lay a tape on both bars:")
    for length, name, down in ((4 * MM, "4 in", 2.0), (100.0, "100 mm", 10.0)):
        pdf.set_line_width(0.3)
        pdf.line(MARGIN, y + down, MARGIN + length, y + down)
        for end in (MARGIN, MARGIN + length):
            pdf.line(end, y + down - 2, end, y + down + 2)
        pdf.text(MARGIN + length + 3, y + down + 1, name)
    if len(page.tiling.tiles) > 1:
        text = f"Lay the pages over each other by {OVERLAP:.0f} mm, register mark on register mark."
        pdf.text(wide - MARGIN - pdf.get_string_width(text), y - 3.0, text)


def _register(page: _Page, name: str, mark: tuple[float, float]) -> None:
    x, y = page.at(mark)
    pdf = page.pdf
    pdf.set_line_width(0.25)
    pdf.line(x - _MARK, y, x + _MARK, y)
    pdf.line(x, y - _MARK, x, y + _MARK)
    pdf.circle(x, y, _MARK / 2)
    pdf.set_font("helvetica", size=6)
    pdf.text(x + 1, y - 1, name)


def _plain(text: str) -> str:
    """A text in the letters the PDF's own fonts have."""
    return text.encode("latin-1", "replace").decode("latin-1")
