"""Lines of words on the pages of a PDF."""

from collections.abc import Iterator
from datetime import UTC, datetime

from fpdf import FPDF

MARGIN = 15.0
LINE = 4.6
"""The height of a line [mm]."""
_MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""The date every file carries, so that the same paper is the same file."""
_SIGNS = str.maketrans(
    {"“": '"', "”": '"', "’": "'", "–": "-", "—": "-", "…": "...", "′": "'", "″": '"'}
    | {"←": "<-", "→": "->"}
)


def new_paper(title: str, units: str) -> FPDF:
    """A PDF with an empty first page: letter for inches, else A4."""
    pdf = FPDF(unit="mm", format="letter" if units == "inch" else "a4")
    pdf.set_creation_date(_MADE)
    pdf.set_margin(MARGIN)
    pdf.set_auto_page_break(True, margin=MARGIN)
    pdf.set_title(plain(title))
    pdf.add_page()
    return pdf


def bold(pdf: FPDF, text: str, size: int = 11) -> None:
    """A heading."""
    pdf.ln(2.5)
    pdf.set_font("helvetica", "B", size)
    pdf.multi_cell(0, LINE + 1.4, plain(text), new_x="LMARGIN", new_y="NEXT")


def lines_of(pdf: FPDF, lines: list[str], indent: float = 0.0) -> None:
    """Lines of text, each broken to the width of the page."""
    pdf.set_font("helvetica", size=9)
    for line in lines:
        for part in _wrapped(pdf, plain(line), pdf.epw - indent):
            pdf.set_x(MARGIN + indent)
            pdf.cell(0, LINE, part, new_x="LMARGIN", new_y="NEXT")


LONGEST_WORD = 60
"""Letters of a word that is printed in one piece."""


def _wrapped(pdf: FPDF, text: str, room: float) -> Iterator[str]:
    """The text in lines of at most `room` [mm]. The library's own way takes seconds for a large building."""
    blank = pdf.get_string_width(" ")
    words = [piece for word in text.split() for piece in _pieces(word)]
    line, used = "", 2 * pdf.c_margin
    for word in words:
        width = pdf.get_string_width(word)
        if line and used + blank + width > room:
            yield line
            line, used = "", 2 * pdf.c_margin
        used += width + (blank if line else 0.0)
        line = f"{line} {word}" if line else word
    if line:
        yield line


def _pieces(word: str) -> Iterator[str]:
    for start in range(0, len(word), LONGEST_WORD):
        yield word[start : start + LONGEST_WORD]


def plain(text: str) -> str:
    """A text in the letters the PDF's own fonts have."""
    return text.translate(_SIGNS).encode("latin-1", "replace").decode("latin-1")
