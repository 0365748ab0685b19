"""The report over doors, one door through the years, and the summary of a round, as PDFs."""

from collections.abc import Iterable

from guide.papers import round_paper, site_report
from guide.papers.pdf_lines import bold, lines_of, new_paper
from guide.papers.site_list import date_of, name_of
from guide.papers.site_report import Report
from guide.site.door_state import DoorState
from guide.site.round_state import PASSED, REPAIRED, RoundState


def report_pdf(report: Report) -> bytes:
    """The report over the doors of a site."""
    title, *rest = site_report.heading(report)
    found = [(name, lines) for name, lines in site_report.sections(report) if name != "DOORS"]
    doors = [_door_line(one) for one in report.states]
    return _paper(title, rest, [("DOORS", doors), *found], report.site.units)


def _door_line(one: DoorState) -> str:
    when = f", {date_of(one.when)}" if one.when else ""
    return f"{name_of(one.door)} ({one.door.rated}): {one.words}{when}"


def door_pdf(report: Report) -> bytes:
    """One door through the years."""
    (title, about), *found = site_report.door_sections(report)
    return _paper(title, about, found, report.site.units)


def round_pdf(one: RoundState) -> bytes:
    """The summary of a round for owner and authority."""
    title, *rest = round_paper.heading(one)
    doors = []
    for door in one.doors:
        line = f"{name_of(door.door.door)}: {door.words}, {date_of(door.when) or 'no date'}"
        open_ = ", ".join(fault.first.item.title for fault in door.open)
        doors.append(f"{line}; open: {open_}" if open_ else line)
    sound = sum(door.state in (PASSED, REPAIRED) for door in one.doors)
    rest.append(f"Doors without an open deficiency: {sound} of {len(one.doors)}.")
    return _paper(title, rest, [("DOORS", doors), *round_paper.sections(one)], one.site.units)


def _paper(
    title: str, about: Iterable[str], found: Iterable[tuple[str, list[str]]], units: str
) -> bytes:
    pdf = new_paper(title, units)
    bold(pdf, title, 14)
    lines_of(pdf, list(about))
    for name, lines in found:
        bold(pdf, name)
        lines_of(pdf, lines)
    return bytes(pdf.output())
