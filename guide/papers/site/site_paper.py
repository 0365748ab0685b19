"""The report over doors, one door through the years, and the summary of a round, as papers to be rendered."""

from guide.papers.rendering.paper import (
    Block,
    Bullets,
    Paper,
    Photo,
    Photos,
    Section,
    Signature,
    Signatures,
    Table,
    Words,
    section,
    there,
)
from guide.papers.rendering.paper_html import paper_html
from guide.papers.site import round_paper, site_report
from guide.papers.site.site_list import date_of, name_of
from guide.papers.site.site_report import Report
from guide.run.photos import KEPT, photo_bytes, state_of_photo
from guide.site.round_state import PASSED, REPAIRED, Deficiency, RoundState

HTML, PDF = "html", "pdf"
FORMS = (HTML, PDF)
"""The forms that a paper is rendered in."""


def rendered(paper: Paper, form: str) -> bytes:
    """A paper as one of `FORMS`."""
    if form == HTML:
        return paper_html(paper).encode("utf-8")
    from guide.papers.rendering.paper_pdf import paper_pdf  # a PDF's library takes a while

    return paper_pdf(paper)


def report_paper(report: Report) -> Paper:
    """The report over the doors of a site."""
    title, *about = site_report.heading(report)
    headings = ("Door", "Place", "Rating", "State", "Day", "Jobs")
    rows = tuple(map(site_report.door_row, report.states))
    doors = section("Doors", _lines(about[:-1]), Table(headings, rows, shares=(2, 5, 2, 3, 2, 1)))
    detail = there(
        section(_title(name), _lines(lines)) for name, lines in site_report.sections(report)
    )
    return _paper("Report", title, about[-1], there([doors]), detail, report.site.units)


def door_paper(report: Report) -> Paper:
    """One door through the years."""
    (title, about), *found = site_report.door_sections(report)
    detail = there(section(_title(name), _lines(lines)) for name, lines in found)
    front = there([section("The door", _lines(about[1:]))])
    return _paper("Door", title, about[0], front, detail, report.site.units)


def summary_paper(one: RoundState) -> Paper:
    """The summary of a round for owner and authority, with the photos of each fault."""
    title, *about = round_paper.heading(one)
    rows = tuple(
        (
            *(name_of(door.door.door), door.words, date_of(door.when)),
            ", ".join(fault.first.item.title for fault in door.open),
        )
        for door in one.doors
    )
    doors = Table(("Door", "State", "Day", "Open deficiencies"), rows, shares=(4, 2, 2, 6))
    sound = sum(door.state in (PASSED, REPAIRED) for door in one.doors)
    status = f"{sound} of {len(one.doors)} doors without an open deficiency"
    signatures = Signatures((Signature("Inspected by"), Signature("For the owner")))
    front = there(
        [
            section("The round", _lines(about)),
            section("Doors", doors),
            section("Signatures", _lines(round_paper.signing(one)[-2:]), signatures),
        ]
    )
    faults = [
        section(f"Deficiencies, {name}", *(block for fault in found for block in _fault(fault)))
        for name, found in (
            ("open", [fault for fault in one.deficiencies if fault.closed is None]),
            ("closed", [fault for fault in one.deficiencies if fault.closed is not None]),
        )
    ]
    rest = [
        section(_title(name), _lines(lines))
        for name, lines in round_paper.sections(one)
        if not name.startswith(("DEFICIENCIES", "FOR OWNER"))
    ]
    return _paper("Round", title, status, front, there([*faults, *rest]), one.site.units)


def _fault(fault: Deficiency) -> list[Block]:
    """A deficiency with what became of it, and the photos that were added at it."""
    first, *later = round_paper.fault_lines(fault)
    photos = tuple(
        Photo(
            shows,
            f"{name_of(fault.door.door)}, {date_of(finding.utc)}: {state_of_photo(sha)}",
            sha,
            photo_bytes(sha) if state_of_photo(sha) == KEPT else None,
        )
        for finding in fault.findings
        for shows, sha in finding.item.photos
    )
    return [Words(first), _lines([line.removeprefix("- ") for line in later]), Photos(photos)]


def _lines(lines: list[str]) -> Bullets:
    return Bullets(tuple(lines))


def _title(name: str) -> str:
    """A heading of the text in the letters of a paper."""
    return f"{name[:1]}{name[1:].lower()}"


def _paper(
    kind: str,
    title: str,
    status: str,
    front: tuple[Section, ...],
    detail: tuple[Section, ...],
    units: str,
) -> Paper:
    return Paper(kind, title, status, front, detail, title, units)
