"""The plan of a site on paper: what to take along first, then a box to tick for each door."""

from collections.abc import Iterator
from datetime import UTC, datetime

from fpdf import FPDF

from guide.papers.plan import heading, own_questions, sections
from guide.site.plan.door_plan import DoorPlan
from guide.site.plan.site_plan import SitePlan
from guide.trade.mounts import MOUNT_WORDS

MARGIN = 15.0
_LINE = 4.6
_BOX = 4.0
_MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""The date every file carries, so that the same plan is the same file."""
_BEFORE = ("PICK LIST", "TOOLS")
"""Sections that come first: they are wanted at the van."""
_IN_BOXES = ("TO FIND OUT", "PLATES")
"""Sections that are on the doors' own lines."""
_SIGNS = str.maketrans(
    {"“": '"', "”": '"', "’": "'", "–": "-", "—": "-", "…": "...", "′": "'", "″": '"'}
)


def plan_pdf(plan: SitePlan) -> bytes:
    """The plan as a PDF: letter for a schedule in inches, else A4."""
    pdf = FPDF(unit="mm", format="letter" if plan.schedule.units == "inch" else "a4")
    pdf.set_creation_date(_MADE)
    pdf.set_margin(MARGIN)
    pdf.set_auto_page_break(True, margin=MARGIN)
    pdf.set_title(_plain(f"Plan of {plan.schedule.name}"))
    pdf.add_page()
    title, *rest = heading(plan)
    _bold(pdf, title, 14)
    _lines(pdf, rest)
    found = list(sections(plan))
    for name, lines in found:
        if name.startswith(_BEFORE):
            _bold(pdf, name)
            _lines(pdf, [f"[  ] {line}" for line in lines] if name == "PICK LIST" else lines)
    _bold(pdf, "DOORS")
    for one in plan.planned:
        _door(pdf, one)
    for name, lines in found:
        if not name.startswith((*_BEFORE, *_IN_BOXES)):
            _bold(pdf, name)
            _lines(pdf, lines)
    return bytes(pdf.output())


def _door(pdf: FPDF, one: DoorPlan) -> None:
    """One door: a box to tick, what goes on it, what is open."""
    lines = _door_lines(one)
    if pdf.will_page_break(_LINE * (len(lines) + 1)):
        pdf.add_page()
    x, y = pdf.get_x(), pdf.get_y()
    pdf.rect(x, y + 0.4, _BOX, _BOX)
    pdf.set_font("helvetica", "B", 9)
    size = "size open" if one.size is None else f"EN size {one.size}"
    name = f"{one.door.number}  {one.door.place}".strip()
    pdf.set_x(x + _BOX + 2)
    pdf.multi_cell(
        0, _LINE, _plain(f"{name}: {MOUNT_WORDS[one.mount]}, {size}"), new_x="LMARGIN", new_y="NEXT"
    )
    _lines(pdf, lines, indent=_BOX + 2)
    pdf.ln(1.2)


def _door_lines(one: DoorPlan) -> list[str]:
    lines = [f"Spring: {one.turns}."] if one.turns else []
    lines += [
        f"{part.name.capitalize()} for the {part.carries}: {part.why}. {part.told}".strip()
        for part in one.accessories
    ]
    lines += [f"{row.part.capitalize()}: {row.drill}." for row in one.fasteners]
    lines += [f"?  {text}" for text in own_questions(one)]
    return [*lines, f"{one.least} to {one.most} min"]


def _bold(pdf: FPDF, text: str, size: int = 11) -> None:
    pdf.ln(2.5)
    pdf.set_font("helvetica", "B", size)
    pdf.multi_cell(0, _LINE + 1.4, _plain(text), new_x="LMARGIN", new_y="NEXT")


def _lines(pdf: FPDF, lines: list[str], indent: float = 0.0) -> None:
    pdf.set_font("helvetica", size=9)
    for line in lines:
        for part in _wrapped(pdf, _plain(line), pdf.epw - indent):
            pdf.set_x(MARGIN + indent)
            pdf.cell(0, _LINE, part, new_x="LMARGIN", new_y="NEXT")


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


def _plain(text: str) -> str:
    """A text in the letters the PDF's own fonts have."""
    return text.translate(_SIGNS).encode("latin-1", "replace").decode("latin-1")
