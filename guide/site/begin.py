"""Beginning a job at a door of a site with what its schedule and its earlier jobs know; or the one to go on with."""

from collections.abc import Sequence

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.facts import Value, WrongAnswer
from guide.procedure.graph import Graph
from guide.procedure.outcomes import ACHIEVED
from guide.procedure.sheet_cache import sheet_of
from guide.run.carried import carried, offered_again
from guide.run.catalogue import RunSummary
from guide.run.journal import JournalError
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.store import begin_run, read_run
from guide.site.door_state import IN_WORK, DoorState, decided
from guide.site.round_state import RoundState
from guide.site.site import Site, SiteDoor

LOOKED_BACK = 12
"""Jobs of a door whose answers are looked through, the latest ones."""


def to_go_on_with(one: DoorState, procedure: str) -> RunSummary | None:
    """The latest job of a procedure at a door if it is open, or was left before its purpose; else None."""
    same = [run for run in one.jobs if run.procedure == procedure]
    latest = max(same, key=decided, default=None)
    return None if latest is None or latest.outcome in ACHIEVED else latest


def job_of_list(site: Site, round_: RoundState | None) -> str:
    """The procedure of a list of doors: that of the site, or of a round over them."""
    return site.procedure if round_ is None else round_.round.procedure


def open_job(one: DoorState, site: Site, round_: RoundState | None) -> RunSummary | None:
    """The job to go on with at a door of a list: one in work, or one of the list that was left; else None."""
    if round_ is None and one.state == IN_WORK:
        return one.last
    return to_go_on_with(one, job_of_list(site, round_))


def to_begin(one: DoorState, site: Site, round_: RoundState | None) -> bool:
    """Whether the job of a list is still to be begun at a door."""
    if round_ is None:
        return not any(run.procedure == site.procedure for run in one.jobs)
    waiting = () if round_.over else (*round_.left, *round_.to_recheck)
    return any(door.door.door == one.door for door in waiting)


def begin_at(
    site: Site, one: DoorState, procedure: str, settings: Settings, sheet: str | None = None
) -> Session:
    """Begin a job at a door. `sheet` is a closer's sheet by name, “none” for none; if it is left out, the site's own is
    used for the job that the site is for. Raises NotFound, BadFile, and JournalError where it cannot be kept."""
    graph = graph_of(find("procedure", procedure))
    known = from_schedule(one.door, graph, site.units)
    earlier, used, unread = from_jobs(one.jobs, graph)
    named = sheet or (site.sheet if graph.name == site.procedure else "") or "none"
    door = one.door
    session = begin_run(
        graph,
        units=site.units,
        sheet=None if named == "none" else sheet_of(find("sheet", named)).to_json(),
        supplied={**known, **earlier},
        about={
            "site": site.name,
            "door": door.number,
            "place": door.place,
            **settings.about(),
        },
        carried=used,
    )
    open_ = [one.text for one in door.questions if one.fact not in {*known, *earlier}]
    session.told = _told(len({*known} - {*earlier}), len(earlier), open_, unread)
    return session


def from_schedule(door: SiteDoor, graph: Graph, units: str) -> dict[str, Value]:
    """The facts of a door that the procedure asks and a schedule may supply."""
    found: dict[str, Value] = {}
    for name, text in door.facts.items():
        fact = graph.facts.get(name)
        if fact is None or fact.worked or not fact.schedule:
            continue
        try:
            found[name] = fact.read(text, units)
        except WrongAnswer:
            continue  # this procedure asks it otherwise; it is asked at the door
    return found


def from_jobs(
    jobs: Sequence[RunSummary], graph: Graph
) -> tuple[dict[str, Value], tuple[str, ...], int]:
    """What the earlier jobs of a door know that a schedule may supply, the latest before the others; the facts that are
    used without being asked again in one visit; and how many jobs could not be read."""
    found: dict[str, Value] = {}
    used: tuple[str, ...] = ()
    unread = 0
    for place, run in enumerate(jobs[:LOOKED_BACK]):
        try:
            state, _ = read_run(run.path)
        except JournalError:
            unread += 1
            continue
        if place == 0:
            brought = carried(state, graph)
            found, used = dict(brought.supplied), brought.used
        else:
            found = {**offered_again(state, graph), **found}
    return found, used, unread


def _told(schedule: int, earlier: int, open_: list[str], unread: int) -> str:
    """What is offered, and what is still open, in sentences."""
    told = []
    sources = [f"{schedule} from the schedule"] if schedule else []
    sources += [f"{earlier} from earlier jobs"] if earlier else []
    if sources:
        told.append(f"Answers offered: {', '.join(sources)}. Confirm each at the door.")
    if open_:
        more = f" (1 of {len(open_)})" if len(open_) > 1 else ""
        told.append(f"The schedule leaves open{more}: {open_[0]}")
    if unread:
        told.append(f"Earlier jobs that cannot be read: {unread}.")
    return " ".join(told)
