"""Opening a run, a record or a practice door from the first screen."""

from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from guide.checker.graph_cache import graph_of
from guide.errors import HingesideError
from guide.run.carried import offered_again
from guide.run.door_name import named
from guide.run.journal import Damaged
from guide.run.run_list import with_others
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.store import begin_run, fitting, open_run, read_run, recover
from guide.screens.run_view import RunView
from guide.site.site import door_key
from guide.translation import ngettext

if TYPE_CHECKING:
    from guide.practice.practice import Practice


class NewJob(NamedTuple):
    """A job to begin."""

    procedure: Path
    door: str
    """The number and place of the door, in one line; may be empty."""
    sheet: Path | None
    like: Path | None = None
    """A job whose opening is offered again: the same door, or one that is its like."""


def begin(job: NewJob, settings: Settings) -> Session:
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


def set_aside(path: Path, by: str) -> str:
    """Set a damaged run aside and save what can be read of it; what was done, as a sentence."""
    try:
        open_run(path, by).close()
    except Damaged as error:
        return recover(path, error, by)
    return ""


def record_of(path: Path) -> str:
    """The record of a job as text. Raises JournalError."""
    from guide.papers.record.record_forms import record_text  # few look at one

    state, events = read_run(path)
    state = with_others(state, path)
    return fitting(path, lambda: record_text(state, events))


def job_after(run: RunView) -> Session | None:
    """Begin the job that a left run leads to; None where it cannot be, and the run's message says why."""
    from guide.run.next_job import begin_after

    try:
        return begin_after(run.session.state, run.desk.onward)
    except (HingesideError, OSError) as error:
        run.message = str(error)
    return None


RANDOM_DOOR = "random"


def practice_of(path: Path | str) -> "Practice":
    """A practice door; a random one for RANDOM_DOOR. Raises BadFile."""
    from guide.practice.practice import Practice
    from guide.practice.random_door import any_seed, random_door

    if not isinstance(path, Path):
        return Practice(random_door(any_seed()))
    from guide.procedure.practice_file import load_practice

    return Practice(load_practice(path))
