"""A new job at a door that is named by hand, and what another job knows of its opening, to be confirmed again."""

from pathlib import Path
from typing import Any, NamedTuple

from guide.checker.graph_cache import graph_of
from guide.run.carried import offered_again
from guide.run.door_name import named
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.store import begin_run, read_run
from guide.site.site import door_key
from guide.translation import ngettext


class NewJob(NamedTuple):
    """A job to begin."""

    procedure: Path
    door: str
    """The number and place of the door, in one line; may be empty."""
    sheet: Path | None
    like: Path | None = None
    """A job whose opening is offered again: the same door, or one that is its like."""


def begin_new(job: NewJob, settings: Settings) -> Session:
    """Begin a job. Raises BadFile, Refused, JournalError and OSError."""
    graph = graph_of(job.procedure)
    sheet: dict[str, Any] | None = None
    if job.sheet is not None:
        from guide.procedure.sheet_cache import sheet_of

        sheet = sheet_of(job.sheet).to_json()
    about = {**named(job.door), **settings.about()}
    if job.like is None:
        return begin_run(graph, units=settings.units, sheet=sheet, about=about)
    before, _events = read_run(job.like)
    offered = offered_again(before, graph)
    if door_key(about["door"]) == door_key(str(before.about.get("door", ""))):
        about["site"] = str(before.about.get("site", ""))
        about["place"] = about["place"] or str(before.about.get("place", ""))
    session = begin_run(graph, units=before.units, sheet=sheet, supplied=offered, about=about)
    told = ngettext(
        "{count} answer of the other job is offered; confirm it.",
        "{count} answers of the other job are offered; confirm each.",
        len(offered),
    )
    session.told = told.format(count=len(offered))
    return session
