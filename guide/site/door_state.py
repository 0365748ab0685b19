"""The state of each door of a site, read off its jobs: that of the latest, whatever order they come in."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from guide.procedure.outcomes import ACHIEVED
from guide.run.catalogue import RunSummary
from guide.run.inspection import FAIL, read_items
from guide.run.prompt import OUTCOME_WORDS
from guide.site.site import Site, SiteDoor, door_key

NOT_STARTED, IN_WORK, FAILED, NOT_TO_DO = "not-started", "in-work", "failed", "not-to-do"
STATES = {
    NOT_STARTED: "not started",
    IN_WORK: "in work",
    "finished": "finished",
    "left-to-do": "left to do",
    "made-safe": "made safe",
    NOT_TO_DO: "not to be done",
    "found": "fault found",
    FAILED: "failed",
}
"""Every state that a door can be in, and its words."""
WAITING = (NOT_STARTED, IN_WORK)
"""The states in which a door is still to be gone to without anybody's word."""


@dataclass(frozen=True, slots=True)
class DoorState:
    """A door with what became of it."""

    door: SiteDoor
    state: str
    """One of `STATES`."""
    jobs: tuple[RunSummary, ...] = ()
    """Its jobs, the latest first."""

    @property
    def last(self) -> RunSummary | None:
        """The latest job; None if there is none."""
        return self.jobs[0] if self.jobs else None

    @property
    def words(self) -> str:
        """The state in words."""
        return STATES[self.state]

    @property
    def result(self) -> str:
        """What the latest job came to, or where it stands, and what is unfinished beside it; of a finished one what it
        was. Empty without a job."""
        if self.last is None:
            return ""
        last = self.last.title if self.state == "finished" and not self.last.items else ""
        beside = [run.title for run in self.unfinished if run is not self.last]
        also = f"; also unfinished: {', '.join(beside)}" if beside else ""
        return f"{last or result_of(self.last)}{also}"

    @property
    def unfinished(self) -> list[RunSummary]:
        """The jobs that are open, or were left before their purpose, where no later one of their kind is."""
        latest: dict[str, RunSummary] = {}
        for run in self.jobs:
            latest.setdefault(run.procedure, run)
        return [run for run in latest.values() if run.outcome not in ACHIEVED]

    @property
    def when(self) -> str:
        """UTC of what decides the state; empty without a job."""
        return "" if self.last is None else decided(self.last)

    @property
    def set_aside(self) -> str:
        """Why the plan says not to start it; empty if it may be started, or was."""
        planned = self.door.planned
        return planned.set_aside if planned is not None and not self.jobs else ""


def decided(run: RunSummary) -> str:
    """UTC of the event that decides what became of a job: its end, else the last. Notes after the end do not count."""
    return run.ended or run.updated


def latest_first(runs: Iterable[RunSummary]) -> list[RunSummary]:
    """Jobs by the time that decides, the latest first, in the same order however they come."""
    return sorted(runs, key=lambda run: (decided(run), run.started, run.run), reverse=True)


def state_of(runs: Iterable[RunSummary]) -> str:
    """The state of a door with these jobs."""
    last = next(iter(latest_first(runs)), None)
    if last is None:
        return NOT_STARTED
    if not last.outcome:
        return IN_WORK
    if last.items and (failed_items(last) or last.outcome == "found"):
        return FAILED
    return NOT_TO_DO if last.outcome == "not-started" else last.outcome


def failed_items(run: RunSummary) -> list[str]:
    """The titles of the items that an inspection found at fault."""
    return [item.title for item in read_items(run.items) if item.result == FAIL]


def result_of(run: RunSummary) -> str:
    """What a job came to, or where it stands."""
    if run.problem:
        return run.problem
    if not run.outcome:
        return f"STOPPED: {run.step}" if run.stopped else run.step
    failed = failed_items(run)
    if failed:
        return f"{len(failed)} at fault: {', '.join(failed)}"
    if run.outcome == "finished":
        return "No fault" if run.items else OUTCOME_WORDS[run.outcome]
    state = NOT_TO_DO if run.outcome == "not-started" else run.outcome
    return f"{STATES[state].capitalize()}: {run.why or run.step}".rstrip(": ")


def runs_of(site: Site, runs: Iterable[RunSummary]) -> dict[str, list[RunSummary]]:
    """The jobs that name the site, or an earlier name of it, by the key of their door."""
    names = site.keys
    found: dict[str, list[RunSummary]] = defaultdict(list)
    for run in runs:
        if not run.problem and door_key(run.site) in names:
            found[door_key(run.door)].append(run)
    return found


def door_states(site: Site, runs: Iterable[RunSummary]) -> list[DoorState]:
    """Every door of a site with what became of it, in the order of the list."""
    by_door = runs_of(site, runs)
    found = []
    for door in site.doors:
        jobs = latest_first(by_door.get(door.key, ()))
        found.append(DoorState(door, state_of(jobs), tuple(jobs)))
    return found


def strays(site: Site, runs: Iterable[RunSummary]) -> list[RunSummary]:
    """Jobs that name the site and no door of its list."""
    known = {door.key for door in site.doors}
    return [run for key, jobs in runs_of(site, runs).items() if key not in known for run in jobs]


def next_door(states: Sequence[DoorState]) -> DoorState | None:
    """The door to go to: one that is in work, else the first that is not started and not set aside; None if there is
    none."""
    open_ = [one for one in states if one.state == IN_WORK]
    free = [one for one in states if one.state == NOT_STARTED and not one.set_aside]
    return next(iter([*open_, *free]), None)


def chosen(
    states: Iterable[DoorState], *, state: str = "", rating: str = "", words: str = ""
) -> list[DoorState]:
    """The doors in that state, of that rating, and with all these words. Empty chooses all."""
    sought = words.casefold().split()
    return [
        one
        for one in states
        if (not state or one.state == state)
        and (not rating or _rated(one.door, rating))
        and all(word in _told(one) for word in sought)
    ]


def _rated(door: SiteDoor, rating: str) -> bool:
    wanted = rating.casefold()
    if wanted in ("yes", "no"):
        return (door.facts.get("rated", "doubt") != "no") == (wanted == "yes")
    return wanted in door.rated.casefold()


def _told(one: DoorState) -> str:
    door = one.door
    return f"{door.number} {door.place} {door.rated} {one.words} {one.result}".casefold()


def counted(states: Iterable[DoorState]) -> dict[str, int]:
    """How many doors are in each state that some door is in, in the order of `STATES`."""
    count = dict.fromkeys(STATES, 0)
    for one in states:
        count[one.state] += 1
    return {state: number for state, number in count.items() if number}
