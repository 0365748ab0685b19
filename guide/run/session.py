"""A run in hand: its state beside its journal. An event counts once it is on the disk."""

import uuid
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from typing import Any, Protocol

from guide.procedure.facts import Value, writing
from guide.procedure.graph import Graph
from guide.procedure.worked_facts import RUNS_OWN, work_out
from guide.run.events import Event
from guide.run.replies import Draft, done
from guide.run.state import NEEDS_WORK, STANDING, State, label
from guide.run.step import Refused, runnable, runnable_as_checked, start, step
from guide.run.walk import in_passing

MOST_WORK = 500
"""Computations that one event may set off."""


class Store(Protocol):
    """What a session needs of a journal."""

    def append(self, events: Sequence[Event], at: str) -> None:
        """Keep events, all or none; `at` is the block at which the run stands then."""

    def events(self) -> list[Event]:
        """Every event so far."""

    def close(self) -> None:
        """Let go of it."""


def utc_now() -> str:
    """The present moment as events write it."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def utc_offset() -> str:
    """How far the clock of this device is ahead of UTC, such as -05:00."""
    return datetime.now(UTC).astimezone().isoformat()[-6:]


class Session:
    """One open run."""

    def __init__(
        self,
        journal: Store,
        state: State,
        device: str,
        clock: Callable[[], str] = utc_now,
        by: str = "",
    ) -> None:
        self.journal = journal
        self.state = state
        self.device = device
        self.clock = clock
        self.by = by
        """The name of the person at the device."""
        self.told = ""
        """What was repaired before the run was gone on with, as a sentence; empty where nothing was."""
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
        carried: Sequence[str] = (),
        clock: Callable[[], str] = utc_now,
    ) -> "Session":
        """Start a run: its first event holds the compiled graph, the sheet and the units.

        `carried` are facts of `supplied` that are used without being asked (carried.py).
        Of `about`, `site`, `door` (its number or label), `place`, `name` and `firm` are on the record.
        """
        offset = utc_offset()
        body = {
            "procedure": graph.name,
            "title": graph.title,
            "graph": graph.to_json(),
            "digest": graph.digest,
            "units": units,
            "sheet": sheet,
            "supplied": {name: writing(value) for name, value in (supplied or {}).items()},
            "about": {"site": "", "door": "", "place": "", **(about or {})},
            "offset": offset,
            **({"carried": list(carried)} if carried else {}),
        }
        by = str((about or {}).get("name", ""))
        run, now = uuid.uuid4().hex, clock()
        first = Event(
            *(uuid.uuid4().hex, run, device, 1, now, "started", body), by=by, offset=offset
        )
        graph.read_back = graph.read_back or (
            runnable_as_checked(graph) if graph.checked else runnable(body["graph"])
        )
        session = Session(journal, start(first, graph.read_back), device, clock, by)
        session._keep([first], *session._settled(session.state, now, offset))
        return session

    @staticmethod
    def reopen(
        journal: Store,
        state: State,
        *,
        device: str,
        clock: Callable[[], str] = utc_now,
        by: str = "",
    ) -> "Session":
        """Go on with a run from what its journal adds up to; says so in it unless the run has ended."""
        session = Session(journal, state, device, clock, by)
        if not session.state.ended:
            session.send(("resumed", {}))
        return session

    def send(self, draft: Draft) -> State:
        """Take one event: ask the run, put it on the disk, then stand where it leads.

        Raises Refused where the run does not take it and JournalError where it cannot be kept;
        either way the run stands where it stood.
        """
        now, offset = self.clock(), utc_offset()
        event = self._event(self.state, draft, now, offset)
        return self._keep([event], *self._settled(step(self.state, event), now, offset))

    def _keep(self, first: list[Event], state: State, more: list[Event]) -> State:
        self.journal.append([*first, *more], label(state.graph, state.at))
        self.state = state
        return state

    def _settled(self, state: State, now: str, offset: str) -> tuple[State, list[Event]]:
        """The state once what goes by itself is done, and the events of that: computations, and their results
        where there is nothing to decide on."""
        events: list[Event] = []
        passed: set[int] = set()
        while (draft := self._by_itself(state, passed)) is not None:
            if len(events) > MOST_WORK:
                raise Refused("This procedure computes without end; tell its author.")
            event = self._event(state, draft, now, offset)
            state = step(state, event)
            events.append(event)
        return state, events

    def _by_itself(self, state: State, passed: set[int]) -> Draft | None:
        """The event that no person is waited for, if there is one.

        `passed` holds the blocks passed since the last answer: a loop that only computes waits at its second round.
        """
        if state.status == NEEDS_WORK and state.work is not None:
            name, inputs = state.work
            own = {setting: str(state.about.get(setting, "")) for setting in RUNS_OWN}
            fact = state.graph.facts[name]
            return "worked", work_out(fact, inputs, self._sheet_of(state), own, state.units)
        index = state.at[0]
        waits = state.status != STANDING or state.pending is not None or index in passed
        if not waits and in_passing(state, state.node):
            passed.add(index)
            return done(state)
        if not waits and state.node.kind == "ask" and state.at not in state.answers:
            name = state.node.body["fact"]
            if name in state.carried:
                return "answered", {
                    "at": label(state.graph, state.at),
                    "value": writing(state.supplied[name]),
                    "carried": True,
                }
        return None

    def _sheet_of(self, state: State) -> Any:
        if self._sheet is None and state.sheet is not None:
            from guide.trade.sheet.sheet import Sheet

            self._sheet = Sheet.from_json(state.sheet)
        return self._sheet

    def _event(self, state: State, draft: Draft, now: str, offset: str) -> Event:
        head = (uuid.uuid4().hex, state.run, self.device, state.seq + 1, now)
        return Event(*head, *draft, by=self.by, offset=offset)

    def close(self) -> None:
        """Let go of the journal."""
        self.journal.close()
