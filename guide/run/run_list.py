"""The list of runs, and what each is beside the others: a copy, another way of one run, another run of one door."""

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from guide.run.catalogue import RunSummary, at_once, read_now
from guide.run.journal import JournalError
from guide.run.log.form import BadLine, chain_of
from guide.run.log.reading import bytes_of
from guide.run.state import State


def list_runs() -> list[RunSummary]:
    """Every run, the latest first, each run id once; one that cannot be read is listed with its problem."""
    known, unread = at_once()
    return in_order([*known, *read_now(unread)])


def in_order(runs: list[RunSummary]) -> list[RunSummary]:
    """The latest first. Of two files that hold one run, only the longer is listed, and it names the other; where they
    went different ways both are, and each names the other. So do two runs of one door on two devices."""
    by_run: dict[str, list[RunSummary]] = {}
    for run in sorted(runs, key=lambda run: (-run.lines, run.name)):
        listed = by_run.setdefault(run.run or run.name, [])
        place = next((n for n, one in enumerate(listed) if _holds(one, run)), None)
        if place is None:
            listed.append(run)
        else:
            listed[place] = replace(listed[place], twin=run.name)
    found = [one for listed in by_run.values() for one in _ways(listed)]
    return sorted(_at_one_door(found), key=lambda run: (run.updated or "9", run.name), reverse=True)


def _holds(longer: RunSummary, shorter: RunSummary) -> bool:
    """Whether every line of one run's shorter file is in its longer one."""
    if longer.lines == shorter.lines:
        return longer.digest == shorter.digest
    return _line_of(longer.path, longer.digest, shorter.lines) == shorter.digest


@lru_cache(maxsize=256)
def _line_of(path: Path, digest: str, line: int) -> str:
    """The digest of a line of a file that ends, as a whole, with the line of `digest`."""
    try:
        return chain_of(bytes_of(path).split(b"\n")[:-1])[line]
    except (BadLine, JournalError, IndexError):
        return ""


def _ways(listed: list[RunSummary]) -> list[RunSummary]:
    """The files of one run, none of which holds all of another; lines of the others are not missed in one."""
    if len(listed) == 1:
        return listed
    first, second = listed[0].name, listed[1].name
    return [
        replace(one, diverged=second if one.name == first else first, missing="") for one in listed
    ]


def _at_one_door(runs: list[RunSummary]) -> list[RunSummary]:
    by_door: dict[tuple[str, ...], list[RunSummary]] = {}
    for run in runs:
        if run.door:
            door = tuple(" ".join(x.casefold().split()) for x in (run.site, run.door, run.title))
            by_door.setdefault(door, []).append(run)
    other = {
        one.path: next((run.name for run in at if run.device != one.device), "")
        for at in by_door.values()
        for one in at
    }
    return [replace(run, elsewhere=other.get(run.path, "")) for run in runs]


def with_others(state: State, path: Path) -> State:
    """The state of a run, for its record: `others` of what it was begun with says what other runs are beside it."""
    told = "".join(_others(run) for run in list_runs() if run.path.resolve() == path.resolve())
    return replace(state, about={**state.about, "others": told}) if told else state


def other_way(path: Path) -> str:
    """The name of another file of the same run that went another way; empty if there is none."""
    return "".join(run.diverged for run in list_runs() if run.path.resolve() == path.resolve())


def _others(run: RunSummary) -> str:
    said = []
    if run.diverged:
        said.append(f"DIVERGED: this job was continued in another way too: {run.diverged}")
    if run.elsewhere:
        said.append(f"another device has a job at this door: {run.elsewhere}")
    return "; ".join(said)
