"""The record as the front ends show it; its part is imported only where one is wanted."""

from guide.run.events import Event
from guide.run.state import State


def record_text(state: State, events: list[Event]) -> str:
    """The record of a run, to be read."""
    from guide.papers.record import record_text as written

    return written(state, events)
