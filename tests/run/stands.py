"""A shipped scenario carried as far as one of its blocks, and stopped there."""

from functools import cache

from guide.run.events import Event
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.state import NEEDS_WORK, label
from guide.run.step import start, step
from tests.run.shipped_runs import carried_shipped


@cache
def _events_until(name: str, at: str) -> tuple[Event, ...]:
    session = carried_shipped(name)[0].session
    assert session is not None
    events = session.journal.events()
    state = start(events[0])
    for number, event in enumerate(events[1:], 1):
        if label(state.graph, state.at) == at and state.status != NEEDS_WORK:
            return tuple(events[:number])
        state = step(state, event)
    if label(state.graph, state.at) == at:
        return tuple(events)
    raise AssertionError(f"{name} never comes to {at}")


def standing_at(name: str, at: str) -> Session:
    """The run of a scenario, waiting at the block of that label; nothing of it is on a disk."""
    events = list(_events_until(name, at))
    state = start(events[0])
    for event in events[1:]:
        state = step(state, event)
    journal = MemoryJournal()
    journal.append(events, at)
    return Session(journal, state, "bench")
