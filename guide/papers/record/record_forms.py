"""The forms a record is written in, by name."""

from collections.abc import Callable
from pathlib import Path

from guide.papers.record.record import record_csv, record_json
from guide.papers.record.record_paper import record_paper
from guide.papers.rendering.paper_html import paper_html
from guide.papers.rendering.paper_text import paper_text
from guide.run.events import Event
from guide.run.state import State

Written = Callable[[State, list[Event], Path | None], bytes]
"""Gets a run, and a picture of the fitter's signature if there is one."""
PDF = "pdf"
"""The form that is not text."""


def record_text(state: State, events: list[Event], signature: Path | None = None) -> str:
    """The record to be read: plain lines."""
    return paper_text(record_paper(state, events, signature))


def record_html(state: State, events: list[Event], signature: Path | None = None) -> str:
    """The record as one page for a browser."""
    return paper_html(record_paper(state, events, signature))


def record_pdf(state: State, events: list[Event], signature: Path | None = None) -> bytes:
    """The record to be printed."""
    from guide.papers.rendering.paper_pdf import paper_pdf  # a PDF's library takes a while

    return paper_pdf(record_paper(state, events, signature))


FORMS: dict[str, Written] = {
    "text": lambda state, events, signature: record_text(state, events, signature).encode("utf-8"),
    "html": lambda state, events, signature: record_html(state, events, signature).encode("utf-8"),
    PDF: record_pdf,
    "json": lambda state, events, signature: record_json(state, events).encode("utf-8"),
    "csv": lambda state, events, signature: record_csv(state, events).encode("utf-8"),
}
"""Each gives the bytes of a file."""
