"""The record as the front ends show it; `guide.papers` is imported only if a record is asked, for the start-up time."""

from guide.run.events import Event
from guide.run.state import State


def record_text(state: State, events: list[Event]) -> str:
    """The record of a job as text."""
    from guide.papers.record.record_forms import record_text as written

    return written(state, events)
