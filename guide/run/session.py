"""A run in hand: its state beside its journal. An event counts once it is on the disk."""

import uuid
from collections.abc import Callable, Iterable, Mapping
from datetime import UTC, datetime
from typing import Any, Protocol

from guide.procedure.facts import Value, writing
from guide.procedure.graph import Graph
from guide.procedure.worked_facts import work_out
from guide.run.events import FIRST_HASH, Event
from guide.run.replies import Draft, done
from guide.run.state import NEEDS_WORK, STANDING, State
from guide.run.step import Refused, start, step
from guide.run.walk import in_passing

MOST_WORK = 500
"""Computations that one event may set off."""


class Store(Protocol):
    """What a session needs of a journal."""

    def append(self, events: Iterable[Event]) -> None:
        """Store events, all or none."""

    def events(self) -> list[Event]:
        """Every event so far."""

    def close(self) -> None:
        """Let go of it."""


def utc_now() -> str:
    """The present moment as events write it."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


class Session:
    """One open run."""

    def __init__(
        self, journal: Store, state: State, device: str, clock: Callable[[], str] = utc_now
    ) -> None:
        self.journal = journal
        self.state = state
        self.device = device
        self.clock = clock
        self._sheet: Any = None

    @staticmethod
    def begin(
        journal: Store,
        graph: Graph,
        *,
        device: str,
        units: str = "inch",
        sheet: dict[str, Any] | None = None,
        supplied: Mapping[str, Value] | None = None,
        about: Mapping[str, Any] | None = None,
        clock: Callable[[], str] = utc_now,
    ) -> "Session":
        """Start a run: its first event holds the compiled graph, the sheet and the units."""
        body = {
            "procedure": graph.name,
            "graph": graph.to_json(),
            "digest": graph.digest,
            "units": units,
            "sheet": sheet,
            "supplied": {name: writing(value) for name, value in (supplied or {}).items()},
            "about": dict(about or {}),
        }
        first = Event(
            uuid.uuid4().hex, uuid.uuid4().hex, device, 1, clock(), "started", body, FIRST_HASH
        )
        session = Session(journal, start(first), device, clock)
        state, more = session._settled(session.state)
        journal.append([first, *more])
        session.state = state
        return session

    @staticmethod
    def reopen(
        journal: Store, state: State, *, device: str, clock: Callable[[], str] = utc_now
    ) -> "Session":
        """Go on with a run from what its journal adds up to; says so in it unless the run has ended."""
        session = Session(journal, state, device, clock)
        if not session.state.ended:
            session.send(("resumed", {}))
        return session

    def send(self, draft: Draft) -> State:
        """Take one event: ask the run, put it on the disk, then stand where it leads.

        Raises Refused where the run does not take it and JournalError where it cannot be kept;
        either way the run stands where it stood.
        """
        kind, body = draft
        event = self._event(self.state, kind, body)
        state, more = self._settled(step(self.state, event))
        self.journal.append([event, *more])
        self.state = state
        return state

    def _settled(self, state: State) -> tuple[State, list[Event]]:
        """The state once what goes by itself is done, and the events of that: computations, and their results
        where there is nothing to decide on."""
        events: list[Event] = []
        passed: set[int] = set()
        while (draft := self._by_itself(state, passed)) is not None:
            if len(events) > MOST_WORK:
                raise Refused("This procedure computes without end; tell whoever wrote it.")
            event = self._event(state, *draft)
            state = step(state, event)
            events.append(event)
        return state, events

    def _by_itself(self, state: State, passed: set[int]) -> Draft | None:
        """The event that no person is waited for, if there is one.

        `passed` holds the blocks passed since the last answer: a loop that only computes waits at its second round.
        """
        if state.status == NEEDS_WORK and state.work is not None:
            name, inputs = state.work
            rules = str(state.about.get("rules", ""))
            fact = state.graph.facts[name]
            return "worked", work_out(fact, inputs, self._sheet_of(state), rules)
        index = state.at[0]
        waits = state.status != STANDING or state.pending is not None or index in passed
        if not waits and in_passing(state, state.node):
            passed.add(index)
            return done(state)
        return None

    def _sheet_of(self, state: State) -> Any:
        if self._sheet is None and state.sheet is not None:
            from guide.trade.sheet.sheet import Sheet

            self._sheet = Sheet.from_json(state.sheet)
        return self._sheet

    def _event(self, state: State, kind: str, body: dict[str, Any]) -> Event:
        return Event(
            uuid.uuid4().hex,
            state.run,
            self.device,
            state.seq + 1,
            self.clock(),
            kind,
            body,
            state.last_hash,
        )

    def close(self) -> None:
        """Let go of the journal."""
        self.journal.close()
