"""A paper as plain lines, for a terminal, a message or a printer."""

from collections.abc import Iterator

from guide.papers.rendering.paper import (
    Block,
    Bullets,
    Code,
    Pairs,
    Paper,
    Photos,
    Section,
    Signatures,
    Sketch,
    Table,
    Words,
)
from guide.text import printable

RULE_AT_MOST = 72
SIGN_HERE = "______________________"
DETAIL = "DETAIL"


def paper_text(paper: Paper) -> str:
    """The paper to be read as it is, one thing a line."""
    head = f"{paper.kind.upper()}: {paper.title}"
    lines = [head, "=" * min(RULE_AT_MOST, len(head)), paper.status, *paper.notes]
    for one in paper.front:
        lines += _section(one)
    if paper.detail:
        lines += ["", DETAIL, "-" * len(DETAIL)]
    for one in paper.detail:
        lines += _section(one)
    lines += ["", paper.foot]
    return "\n".join(printable(line) for line in lines) + "\n"


def _section(section: Section) -> list[str]:
    return ["", section.title, *(f"  {line}" for block in section.blocks for line in _lines(block))]


def _lines(block: Block) -> Iterator[str]:
    match block:
        case Words(text) | Code(text):
            yield text
        case Pairs(rows):
            for name, value in rows:
                yield _joined(name, value)
        case Table():
            yield from (_row(block, row) for row in block.rows)
        case Bullets(lines, numbered):
            yield from (
                f"{number}. {line}" if numbered else line for number, line in enumerate(lines, 1)
            )
        case Sketch(scene):
            yield scene.says
        case Photos(photos):
            for photo in photos:
                yield f"{photo.shows} ({photo.said})"
                yield f"  {photo.sha256}"
        case Signatures(lines):
            for line in lines:
                drawn = "a drawn signature, in the HTML and PDF forms" if line.drawn else SIGN_HERE
                yield f"{line.role}{f', {line.name}' if line.name else ''}: {drawn}   Date: {SIGN_HERE}"


def _row(table: Table, row: tuple[str, ...]) -> str:
    said = row[0]
    for place, cell in enumerate(row[1:]):
        before = table.before[place] if place < len(table.before) else "; "
        if cell and cell != row[place]:  # what stayed as it was is said once
            said = _joined(said, cell) if before == ": " else f"{said}{before}{cell}"
    return said


def _joined(name: str, value: str) -> str:
    """A name and its value; a question already ends with its own sign."""
    return f"{name} {value}" if name.endswith(("?", ":", ".")) else f"{name}: {value}"
