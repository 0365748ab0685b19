"""A paper as a PDF: letter or A4, a first page, bookmarks for every section, page numbers."""

import io
import textwrap
from collections.abc import Iterator
from datetime import UTC, datetime
from itertools import zip_longest

from fpdf import FPDF
from fpdf.fonts import FontFace

from guide.papers.rendering.paper import (
    Block,
    Bullets,
    Code,
    Pairs,
    Paper,
    Photo,
    Photos,
    Section,
    Signature,
    Signatures,
    Sketch,
    Table,
    Words,
)
from guide.papers.rendering.pdf_letters import ENCODING, LOST, plain
from guide.papers.rendering.scene_pdf import draw_scene
from guide.run.photos import small_copy

MARGIN = 15.0
FOOT = 16.0
"""Left free below for the last line [mm]."""
_LINE = 4.3
_SIZE = 9.0
_SKETCH_HIGH = 85.0
_PHOTO_HIGH, _ACROSS, _GAP = 46.0, 3, 5.0
_PHOTO_PIXELS = 700
_SIGN_HIGH = 14.0
_NAMES_WIDE = 0.3
"""Share of the width that the names of pairs have."""
_ON_A_PAGE = 800
"""Letters of a cell, in the narrowest column."""
_TOGETHER = 12
"""Pairs that are not divided over two pages."""
NOT_PRINTED = "Letters that this PDF cannot print are shown as “?”; the HTML form has them."


class _Pdf(FPDF):
    """Pages with a last line each."""

    foot = ""

    def footer(self) -> None:
        """The last line of a page, and its number."""
        self.set_y(-FOOT + 3)
        self.set_font("helvetica", size=7)
        self.set_text_color(70)
        self.multi_cell(self.epw - 24, 3, self.foot, new_x="RIGHT", new_y="TOP")
        self.cell(24, 3, f"Page {self.page_no()} of {{nb}}", align="R")
        self.set_text_color(0)


def paper_pdf(paper: Paper) -> bytes:
    """The paper as a PDF; the same paper is the same file."""
    pdf = _Pdf(unit="mm", format="letter" if paper.units == "inch" else "a4")
    pdf.core_fonts_encoding = ENCODING
    pdf.foot = plain(paper.foot)
    made = datetime.fromisoformat(paper.dated) if paper.dated else datetime(2000, 1, 1, tzinfo=UTC)
    pdf.set_creation_date(made)
    pdf.set_lang("en-US" if paper.units == "inch" else "en-GB")
    pdf.set_title(plain(f"{paper.kind}: {paper.title}"))
    pdf.set_subject(plain(paper.status))
    if paper.by:
        pdf.set_author(plain(paper.by))
    pdf.set_margin(MARGIN)
    pdf.set_auto_page_break(True, margin=FOOT)
    pdf.add_page()
    _head(pdf, paper)
    for one in paper.front:
        _section(pdf, one)
    if paper.detail:
        pdf.add_page()
        pdf.start_section("Detail")
        for one in paper.detail:
            _section(pdf, one, 1)
    return bytes(pdf.output())


def _head(pdf: _Pdf, paper: Paper) -> None:
    pdf.set_font("helvetica", size=8)
    _write(pdf, paper.kind.upper())
    pdf.set_font("helvetica", "B", 15)
    _write(pdf, paper.title, 6.5)
    pdf.set_font("helvetica", "B", 11)
    _write(pdf, paper.status, 5.2)
    pdf.set_font("helvetica", size=_SIZE)
    for note in paper.notes:
        _write(pdf, note)
    if LOST in plain("".join(_texts(paper)).replace(LOST, "")):
        _write(pdf, NOT_PRINTED)


def _section(pdf: _Pdf, section: Section, level: int = 0) -> None:
    if pdf.will_page_break(_room(section.blocks)):
        pdf.add_page()
    pdf.ln(2.2)
    pdf.start_section(plain(section.title), level)
    pdf.set_font("helvetica", "B", 10.5)
    _write(pdf, section.title, 5)
    y = pdf.get_y()
    pdf.set_draw_color(130)
    pdf.set_line_width(0.2)
    pdf.line(MARGIN, y, pdf.w - MARGIN, y)
    pdf.set_y(y + 0.8)
    for block in section.blocks:
        pdf.set_font("helvetica", size=_SIZE)
        _block(pdf, block)


def _room(blocks: tuple[Block, ...]) -> float:
    """What must be free below a heading [mm]: a drawing, or a few pairs, stay with it."""
    match blocks[0]:
        case Sketch():
            return _SKETCH_HIGH + 10 * _LINE
        case Pairs(rows) if len(rows) <= _TOGETHER:
            return (len(rows) + 3 * len(blocks)) * (_LINE + 0.4)
        case _:
            return 4 * _LINE


def _block(pdf: _Pdf, block: Block) -> None:
    match block:
        case Words(text, strong):
            pdf.set_font(style="B" if strong else "")
            _write(pdf, text)
        case Code(text):
            pdf.set_font("courier", size=8)
            _write(pdf, text)
        case Pairs(rows):
            _rows(pdf, (), rows, (_NAMES_WIDE, 1 - _NAMES_WIDE))
        case Table(headings, rows, shares=shares):
            _rows(pdf, headings, rows, shares)
        case Bullets(lines, numbered):
            for number, line in enumerate(lines, 1):
                _bullet(pdf, f"{number}." if numbered else "•", line)
        case Sketch(scene):
            draw_scene(pdf, scene, _SKETCH_HIGH)
            pdf.set_font("helvetica", size=_SIZE)
            _write(pdf, scene.says)
        case Photos(photos):
            _photos(pdf, photos)
        case Signatures(lines):
            _signatures(pdf, lines)


def _rows(
    pdf: _Pdf,
    headings: tuple[str, ...],
    rows: tuple[tuple[str, ...], ...],
    shares: tuple[float, ...],
) -> None:
    """Rows of cells, each as high as its text, the headings again on a new page."""
    with pdf.table(
        borders_layout="HORIZONTAL_LINES" if headings else "NONE",
        cell_fill_mode="NONE",
        col_widths=shares or None,
        first_row_as_headings=bool(headings),
        headings_style=FontFace(emphasis="BOLD", size_pt=8),
        line_height=_LINE,
        text_align="LEFT",
        v_align="TOP",
        padding=(0.2, 1, 0.2, 0),
    ) as table:
        for cells in (headings, *rows) if headings else rows:
            for part in _parts(cells):
                row = table.row()
                for cell in part:
                    row.cell(plain(cell))


def _parts(cells: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """A row as rows that each fit on a page."""
    if all(len(cell) <= _ON_A_PAGE for cell in cells):
        yield cells
        return
    yield from zip_longest(*(textwrap.wrap(cell, _ON_A_PAGE) for cell in cells), fillvalue="")


def _bullet(pdf: _Pdf, sign: str, line: str) -> None:
    indent = 7.0
    if pdf.will_page_break(_LINE):
        pdf.add_page()
    pdf.cell(indent, _LINE, sign)
    pdf.multi_cell(pdf.epw - indent, _LINE, plain(line), align="L", new_x="LMARGIN", new_y="NEXT")


def _photos(pdf: _Pdf, photos: tuple[Photo, ...]) -> None:
    """Rows of three, each with its caption below."""
    wide = (pdf.epw - (_ACROSS - 1) * _GAP) / _ACROSS
    for first in range(0, len(photos), _ACROSS):
        if pdf.will_page_break(_PHOTO_HIGH + 8 * _LINE):
            pdf.add_page()
        top = lowest = pdf.get_y() + 1
        for place, photo in enumerate(photos[first : first + _ACROSS]):
            lowest = max(lowest, _photo(pdf, photo, MARGIN + place * (wide + _GAP), top, wide))
        pdf.set_xy(MARGIN, lowest + 2)


def _photo(pdf: _Pdf, photo: Photo, x: float, top: float, wide: float) -> float:
    """One photo and its caption; where they end."""
    small = small_copy(photo.data, _PHOTO_PIXELS) if photo.data is not None else None
    if small is not None:
        pdf.image(
            io.BytesIO(small),
            *(x, top, wide, _PHOTO_HIGH),
            keep_aspect_ratio=True,
            alt_text=plain(photo.shows),
        )
        top += _PHOTO_HIGH + 1
    for family, size, text in (
        ("helvetica", _SIZE, photo.shows),
        ("helvetica", 7.5, photo.said),
        ("courier", 6.5, photo.sha256),
    ):
        pdf.set_font(family, size=size)
        pdf.set_xy(x, top)
        pdf.multi_cell(wide, _LINE - 1, plain(text), align="L", new_x="LEFT", new_y="NEXT")
        top = pdf.get_y()
    pdf.set_font("helvetica", size=_SIZE)
    return top


def _signatures(pdf: _Pdf, lines: tuple[Signature, ...]) -> None:
    if pdf.will_page_break(_SIGN_HIGH + 2 * _LINE):
        pdf.add_page()
    gap = 10.0
    wide = (pdf.epw - gap * (len(lines) - 1)) / len(lines)
    top = pdf.get_y() + _SIGN_HIGH
    for number, line in enumerate(lines):
        x = MARGIN + number * (wide + gap)
        small = small_copy(line.drawn, _PHOTO_PIXELS) if line.drawn is not None else None
        if small is not None:
            pdf.image(
                io.BytesIO(small),
                *(x, top - _SIGN_HIGH + 1, wide * 0.7, _SIGN_HIGH - 2),
                keep_aspect_ratio=True,
                alt_text=plain(f"Signature of {line.name or 'the fitter'}"),
            )
        pdf.line(x, top, x + wide, top)
        pdf.set_xy(x, top + 0.5)
        name = f": {line.name}" if line.name else ""
        pdf.cell(wide * 0.7, _LINE, plain(f"{line.role}{name}"))
        pdf.cell(wide * 0.3, _LINE, "Date:")
    pdf.set_xy(MARGIN, top + _LINE + 1)


def _write(pdf: _Pdf, text: str, high: float = _LINE) -> None:
    pdf.multi_cell(0, high, plain(text), align="L", new_x="LMARGIN", new_y="NEXT")


def _texts(paper: Paper) -> list[str]:
    """Every text of the paper, to see whether its letters can be printed."""
    found = [paper.title, paper.status, paper.foot, *paper.notes]
    for one in (*paper.front, *paper.detail):
        found.append(one.title)
        for block in one.blocks:
            match block:
                case Words(text) | Code(text):
                    found.append(text)
                case Pairs(rows) | Table(rows=rows):
                    found += [cell for row in rows for cell in row]
                case Bullets(lines):
                    found += lines
                case Photos(photos):
                    found += [part for photo in photos for part in (photo.shows, photo.said)]
                case Signatures(signed):
                    found += [line.name for line in signed]
                case Sketch(scene):
                    found.append(scene.says)
    return found
