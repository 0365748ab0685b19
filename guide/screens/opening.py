"""The requests of the first screen carried out: begin a run, go on with one, show a record."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

from guide.checker.graph_cache import graph_of
from guide.errors import HingesideError
from guide.files.findings import BadFile
from guide.run.door_name import named
from guide.run.events import Event
from guide.run.journal import Damaged, JournalError
from guide.run.overview import known
from guide.run.prompt import OUTCOME_WORDS
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.state import State
from guide.run.step import Refused
from guide.run.store import begin_run, fitting, open_run, read_run, recover
from guide.screens.home_view import HomeView
from guide.screens.requests import GoOn, NewJob, Practise, ReadRecord, SetAside
from guide.screens.run_view import RunView
from guide.screens.view import RecordText

if TYPE_CHECKING:
    from guide.practice.practice import Practice


def carry_out(home: HomeView, settings: Settings, record_text: RecordText | None) -> Session | None:
    """Take the first screen's request; give the run it opens, if it opens one. What fails is said there."""
    request, home.request = home.request, None
    if request is None:
        return None
    home.say("")
    try:
        match request:
            case NewJob():
                return _begin(request, settings)
            case GoOn(path):
                return open_run(path, settings.name)
            case SetAside(path):
                _set_aside(path, home, settings.name)
            case ReadRecord(path):
                state, events = read_run(path)
                write = record_text or _short_record
                home.read(path.stem, fitting(path, lambda: write(state, events)))
    except Damaged as error:
        if isinstance(request, GoOn):
            home.offer_set_aside(request.path, str(error))
        else:
            home.say(str(error), refused=True)
    except (BadFile, JournalError, Refused, OSError) as error:
        home.say(str(error), refused=True)
    return None


def job_after(run: RunView) -> Session | None:
    """Begin the job that a left run leads to; None where it cannot be, and the run's message says why."""
    from guide.run.next_job import begin_after

    try:
        return begin_after(run.session.state, run.desk.onward)
    except (HingesideError, OSError) as error:
        run.message = str(error)
    return None


def practice_at(home: HomeView) -> "Practice | None":
    """Take the first screen's request for a practice door; None if the door cannot be read."""
    request, home.request = home.request, None
    if not isinstance(request, Practise):
        return None
    from guide.practice.practice import Practice
    from guide.practice.random_door import any_seed, random_door

    home.say("")
    if request.path is None:
        return Practice(random_door(any_seed()))
    from guide.procedure.practice_file import load_practice

    try:
        return Practice(load_practice(request.path))
    except BadFile as error:
        home.say(str(error), refused=True)
    return None


def _begin(job: NewJob, settings: Settings) -> Session:
    graph = graph_of(job.procedure)
    sheet: dict[str, Any] | None = None
    if job.sheet is not None:
        from guide.procedure.sheet_cache import sheet_of

        sheet = sheet_of(job.sheet).to_json()
    about = {
        **named(job.door),
        "name": settings.name,
        "firm": settings.firm,
        "rules": settings.rules,
        "nfpa_80": settings.nfpa_80,
        "ibc": settings.ibc,
    }
    return begin_run(graph, units=settings.units, sheet=sheet, about=about)


def _set_aside(path: Path, home: HomeView, by: str) -> None:
    try:
        open_run(path, by).close()
    except Damaged as error:
        home.say(recover(path, error, by))
        home.forget(path)


def _short_record(state: State, events: list[Event]) -> str:
    """What is known and what was done, if no fuller record has been handed in."""
    lines = [state.graph.title, OUTCOME_WORDS.get(state.ended, "Not finished"), ""]
    lines += [f"{fact.question} {fact.value}" for fact in known(state)]
    lines += ["", *state.route(), "", f"{len(events)} events."]
    return "\n".join(lines)
