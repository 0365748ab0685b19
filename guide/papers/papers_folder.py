"""The papers of a run in hand, put where the person finds them: the record, and the template of its holes."""

import re
from pathlib import Path

from guide.errors import HingesideError
from guide.files.library import papers_folder
from guide.files.writing import why_not, write_beside
from guide.papers.record.record_forms import FORMS
from guide.papers.template.template import INVENTED, pages, template_pdf
from guide.papers.template.template_inputs import inputs_of_run, read_template
from guide.run.photos import BadPhoto
from guide.run.run_opening import values_of
from guide.run.session import Session
from guide.run.settings import BadSettings, load_settings
from guide.run.state import State
from guide.trade.holes.opening import typed_of

RECORD_FORMS = ("pdf", "html")
"""The forms in which a record is put there: to be printed, and for a phone."""


def own_signature() -> Path | None:
    """The picture of the person's signature, by the setting; None where there is none or it is gone."""
    try:
        name = load_settings().signature
    except BadSettings:
        return None
    path = Path(name).expanduser() if name else None
    return path if path is not None and path.is_file() else None


def put_papers(session: Session) -> tuple[str, ...]:
    """Write record and template of the run as it stands; what was written and where, a line for each paper.

    A template that cannot be made yet, and a folder that cannot be written, are said, with the reason.
    """
    state = session.state
    folder, name = papers_folder(), file_name(state)
    record, *others = (folder / f"{name}-record.{form}" for form in RECORD_FORMS)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, form in zip((record, *others), RECORD_FORMS, strict=True):
            write_beside(path, FORMS[form](state, session.journal.events(), own_signature()))
    except OSError as error:
        return (f"Nothing is written: {why_not(error, folder)}",)
    except BadPhoto as error:
        return (f"Nothing is written. Your signature, in the settings: {error}",)
    try:
        template = _template(state, folder / f"{name}-template.pdf")
    except OSError as error:
        template = f"No template: {why_not(error, folder)}"
    beside = ", ".join(RECORD_FORMS[1:])
    return f"Record: {record}, and beside it as {beside}.", template


def file_name(state: State) -> str:
    """The beginning of the file names of a run's papers: its procedure, its door, its own number."""
    door = re.sub(r"[^a-z0-9]+", "-", str(state.about.get("door", "")).casefold()).strip("-")
    return "-".join(one for one in (state.graph.name, door[:40], state.run[:6]) if one)


NEEDED = {"knuckles": "hinge side", "hinge": "hinge", "mount": "mount", "opening": "opening"}
"""What a template needs of a run, and what it is called."""
NO_NUMBERS = "No template: this job has no sheet and no numbers to draw the holes from. Use the paper from the box."


def _template(state: State, path: Path) -> str:
    missing = [
        words
        for name, words in NEEDED.items()
        if name in state.graph.facts and state.known(name) is None
    ]
    if missing and state.sheet is not None:
        return f"No template yet: not answered are {', '.join(missing)}."
    if state.sheet is None and typed_of(values_of(state)).missing:
        return NO_NUMBERS
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
