"""What is known of a door when one job ends and the next begins at it, in the same visit."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from guide.procedure.facts import UNSURE, Fact, Value
from guide.procedure.graph import Graph
from guide.run.session import utc_now
from guide.run.state import State

VISIT = timedelta(hours=12)
"""A job begun later than this after the last event of the one before is of another visit."""
ABOUT_DOOR = ("site", "door", "place", "name", "firm", "rules")
"""What a run was begun with that its next job is begun with too."""


@dataclass(frozen=True, slots=True)
class Carried:
    """What the next job is begun with."""

    supplied: Mapping[str, Value]
    """Suggested at their questions, as a door schedule's values are."""
    used: tuple[str, ...]
    """Facts of `supplied` that are not asked again in this visit."""
    about: Mapping[str, str]
    """What the door and the person are called, and the run before, under `after`."""


def carried(state: State, graph: Graph, now: str | None = None) -> Carried:
    """What the run before knows and the next procedure asks, by name and kind: of the door and the visit, never a
    reading. `now` is in UTC as events write it."""
    supplied: dict[str, Value] = {}
    visit = _same_visit(state, now)
    for name, fact in graph.facts.items():
        before, value = state.graph.facts.get(name), state.known(name)
        if before is None or value is None or value == UNSURE or not _same(before, fact):
            continue
        if fact.schedule or (fact.once_a_visit and visit):
            supplied[name] = value
    used = tuple(name for name in supplied if visit and graph.facts[name].once_a_visit)
    about = {key: str(state.about[key]) for key in ABOUT_DOOR if state.about.get(key)}
    return Carried(supplied, used, {**about, "after": state.run})


def offered_again(state: State, graph: Graph) -> dict[str, Value]:
    """What an earlier job knows of its opening, for a new job at the same door or at one that is its like: the values
    that a door schedule might hold. They are offered at their questions, never used without an answer."""
    brought = carried(state, graph).supplied
    return {name: value for name, value in brought.items() if graph.facts[name].schedule}


def _same(before: Fact, fact: Fact) -> bool:
    """Whether two procedures mean the same by a fact that is asked in both."""
    asked = not before.worked and not fact.worked
    return asked and before.kind == fact.kind and before.options.keys() == fact.options.keys()


def _same_visit(state: State, now: str | None) -> bool:
    began, last = datetime.fromisoformat(now or utc_now()), datetime.fromisoformat(state.last_utc)
    return timedelta(0) <= began - last <= VISIT
