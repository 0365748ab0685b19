"""The plan of a site on paper: what to take along first, then a box to tick for each door."""

from fpdf import FPDF

from guide.papers.rendering.pdf_lines import LINE, bold, lines_of, new_paper, plain
from guide.papers.site.plan import heading, own_questions, sections
from guide.site.plan.door_plan import DoorPlan
from guide.site.plan.site_plan import SitePlan
from guide.trade.mounts import MOUNT_WORDS

_BOX = 4.0
_BEFORE = ("PICK LIST", "TOOLS")
"""Sections that come first: they are wanted at the van."""
_IN_BOXES = ("TO FIND OUT", "PLATES")
"""Sections that are on the doors' own lines."""


def plan_pdf(plan: SitePlan) -> bytes:
    """The plan as a PDF: letter for a schedule in inches, else A4."""
    pdf = new_paper(f"Plan of {plan.schedule.name}", plan.schedule.units)
    title, *rest = heading(plan)
    bold(pdf, title, 14)
    lines_of(pdf, rest)
    found = list(sections(plan))
    for name, lines in found:
        if name.startswith(_BEFORE):
            bold(pdf, name)
            lines_of(pdf, [f"[  ] {line}" for line in lines] if name == "PICK LIST" else lines)
    bold(pdf, "DOORS")
    for one in plan.planned:
        _door(pdf, one)
    for name, lines in found:
        if not name.startswith((*_BEFORE, *_IN_BOXES)):
            bold(pdf, name)
            lines_of(pdf, lines)
    return bytes(pdf.output())


def _door(pdf: FPDF, one: DoorPlan) -> None:
    """One door: a box to tick, what goes on it, what is open."""
    lines = _door_lines(one)
    if pdf.will_page_break(LINE * (len(lines) + 1)):
        pdf.add_page()
    x, y = pdf.get_x(), pdf.get_y()
    pdf.rect(x, y + 0.4, _BOX, _BOX)
    pdf.set_font("helvetica", "B", 9)
    size = "size open" if one.size is None else f"EN size {one.size}"
    name = f"{one.door.number}  {one.door.place}".strip()
    pdf.set_x(x + _BOX + 2)
    pdf.multi_cell(
        0, LINE, plain(f"{name}: {MOUNT_WORDS[one.mount]}, {size}"), new_x="LMARGIN", new_y="NEXT"
    )
    lines_of(pdf, lines, indent=_BOX + 2)
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
