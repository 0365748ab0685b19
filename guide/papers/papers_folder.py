"""The papers of a run in hand, put where the person finds them: the record, and the template of its holes."""

import re
from pathlib import Path

from guide.errors import HingesideError
from guide.files.library import papers_folder
from guide.files.writing import why_not, write_beside
from guide.papers.record import record_text
from guide.papers.template import INVENTED, pages, template_pdf
from guide.papers.template_inputs import inputs_of_run, read_template
from guide.run.session import Session
from guide.run.state import State


def put_papers(session: Session) -> str:
    """Write record and template of the run as it stands; what was written and where, in sentences.

    A template that cannot be made yet, and a folder that cannot be written, are said, with the reason.
    """
    state = session.state
    folder, name = papers_folder(), file_name(state)
    record = folder / f"{name}-record.txt"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        write_beside(record, record_text(state, session.journal.events()).encode("utf-8"))
    except OSError as error:
        return f"Nothing is written: {why_not(error, folder)}"
    try:
        template = _template(state, folder / f"{name}-template.pdf")
    except OSError as error:
        template = f"No template: {why_not(error, folder)}"
    return f"Record: {record}. {template}"


def file_name(state: State) -> str:
    """The beginning of the file names of a run's papers: its procedure, its door, its own number."""
    door = re.sub(r"[^a-z0-9]+", "-", str(state.about.get("door", "")).casefold()).strip("-")
    return "-".join(one for one in (state.graph.name, door[:40], state.run[:6]) if one)


NEEDED = {"knuckles": "hinge side", "hinge": "hinge", "mount": "mount", "opening": "opening"}
"""What a template needs of a run, and what it is called."""


def _template(state: State, path: Path) -> str:
    missing = [
        words
        for name, words in NEEDED.items()
        if name in state.graph.facts and state.known(name) is None
    ]
    if missing and state.sheet is not None:
        return f"No template yet: not answered are {', '.join(missing)}."
    try:
        made_of, paper = read_template(inputs_of_run(state))
        pdf = template_pdf(made_of, paper)
    except HingesideError as error:
        return f"No template: {error}"
    across, down = pages(made_of, paper)
    write_beside(path, pdf)
    many = across * down
    sheets = "1 page" if many == 1 else f"{many} pages"
    never = f" {INVENTED}" if made_of.invented else ""
    return f"Template: {path}, {sheets}, to be printed at 100 percent.{never}"
