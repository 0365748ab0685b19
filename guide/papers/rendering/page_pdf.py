"""A page of the handbook as a PDF, for the two that are carried to the door and for all others."""

import re
from datetime import UTC, datetime

from fpdf import FPDF
from fpdf.fonts import TextStyle
from markdown_it import MarkdownIt

from guide.papers.rendering.pdf_lines import plain

MARGIN = 15.0
"""Millimeters."""
_MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""The date every file carries, so that the same page is the same file."""
_OF_TWO = re.compile(r"<tr>\n<th>([^<]*)</th>\n<th>([^<]*)</th>\n</tr>")
"""The heading row of a table of two columns; the first is narrow."""
_HEADINGS = {
    "h1": TextStyle(font_style="B", font_size_pt=15, t_margin=0, b_margin=2),
    "h2": TextStyle(font_style="B", font_size_pt=11, t_margin=2.5, b_margin=1),
}


def page_pdf(markdown: str, paper: str = "letter") -> bytes:
    """The page on `letter` or `a4`, as many sheets as it needs."""
    pdf = FPDF(unit="mm", format=paper)
    pdf.set_creation_date(_MADE)
    pdf.set_margin(MARGIN)
    pdf.set_auto_page_break(True, margin=MARGIN)
    pdf.set_title(plain(markdown.partition("\n")[0].removeprefix("# ")))
    pdf.set_font("helvetica", size=10.5)
    pdf.add_page()
    pdf.write_html(_html(plain(markdown)), tag_styles=_HEADINGS, table_line_separators=True)
    return bytes(pdf.output())


def _html(markdown: str) -> str:
    html = MarkdownIt("commonmark").enable("table").render(markdown)
    html = html.replace("[ ]", "[&nbsp;&nbsp;&nbsp;]")
    html = re.sub(r"</?code[^>]*>", "", html)
    html = _OF_TWO.sub(r'<tr>\n<th width="26%">\1</th>\n<th width="74%">\2</th>\n</tr>', html)
    return html.replace("<table>", '<table width="100%" cellpadding="1">')
