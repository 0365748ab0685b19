"""The transition function of a run: `step(state, event)` gives the next state, or refuses the event with a sentence.

It is pure: nothing is written here. A Session calls `step` first and journals what it accepts.
"""

from collections.abc import Callable, Iterable
from copy import copy
from dataclasses import replace
from typing import Any

from guide.errors import FOUND, HingesideError
from guide.procedure.facts import UNSURE, Fact, Value, WrongAnswer
from guide.procedure.graph import Graph, Node
from guide.procedure.outcomes import ACHIEVED
from guide.procedure.stored_graph import need_few_loops, read_stored
from guide.procedure.worked_facts import memo_key, read_worked
from guide.run.bodies import right_body
from guide.run.cuts import stopped_by
from guide.run.events import Event
from guide.run.rounds import nest_loops
from guide.run.settings import UNITS
from guide.run.state import (
    CUT_OPEN,
    ENDED,
    FAULT,
    NEEDS_WORK,
    STANDING,
    STOPPED,
    Cut,
    GivenAnswer,
    KeptPhoto,
    Occurrence,
    Pending,
    State,
    label,
    occurrence_of,
)
from guide.run.turns import outcome_here
from guide.run.walk import (
    asked_on,
    basis_of,
    known_at,
    measure_again,
    put_back_after_cut,
    walk_afresh,
    walk_on,
)
from guide.text import LONGEST_NOTE

RESOLUTIONS = ("remade", "plugged", "abandoned")
"""The resolutions of a cut whose basis changed."""
CUT_REPORTS = ("all", "part", "none")
"""The answers to how much was drilled when the program ended inside a cut."""


AFTER_THE_END = ("noted", "corrected", "photo added", "resumed", "paused", "repaired", "taken up")
"""Kinds of events that an ended job accepts."""


class Refused(HingesideError):
    """An event that the run does not accept in its state; the message says why. Nothing was written."""

    status = FOUND


MISFITS = (
    *(Refused, LookupError, ValueError, StopIteration, TypeError, AttributeError),
    *(ArithmeticError, RecursionError, AssertionError),
)
"""What folding raises for events that are chained and do not make a run."""


def runnable(stored: Any) -> Graph:
    """The graph that a run's first event holds, ready to be run. Raises BadGraph for one that cannot be."""
    return _nested(read_stored(stored))


def runnable_as_checked(graph: Graph) -> Graph:
    """The same of a graph from the cache, without reading it again: the cache read and checked it."""
    nodes, loops = [copy(node) for node in graph.nodes], [copy(loop) for loop in graph.loops]
    return _nested(replace(graph, nodes=nodes, loops=loops))


def _nested(graph: Graph) -> Graph:
    nest_loops(graph)
    need_few_loops(node.loops for node in graph.nodes)
    return graph


def start(event: Event, graph: Graph | None = None) -> State:
    """The state after a run's first event; `graph` is what it holds where that was read already."""
    if event.kind != "started":
        raise Refused("The first event of a job must be its start.")
    _need_own_body(event)
    body = event.body
    _need_right_types(body)
    graph = graph or runnable(body["graph"])
    state = State(
        graph,
        event.run,
        body["units"],
        body.get("sheet"),
        event.utc,
        {
            name: graph.facts[name].decode(text)
            for name, text in body.get("supplied", {}).items()
            if name in graph.facts
        },
        body["about"],
        frozenset(body.get("carried", ())) & body.get("supplied", {}).keys(),
    )
    _stamp(state, event)
    walk_afresh(state)
    return state


def _need_right_types(body: dict[str, Any]) -> None:
    """Raises Refused for a start that this program did not write."""
    sheet, about = body.get("sheet"), body.get("about")
    named = sheet is None or (isinstance(sheet, dict) and isinstance(sheet.get("sheet"), str))
    texts = isinstance(about, dict) and all(isinstance(one, str) for one in about.values())
    if body.get("units") not in UNITS or not named or not texts:
        raise Refused("The start of this run is not one that this program writes.")


def _need_own_body(event: Event) -> None:
    """Raises Refused for a body that this program does not write: a journal may come from elsewhere."""
    if not right_body(event.kind, event.body):
        raise Refused(f"This is not what this program keeps of “{event.kind}”.")


def step(state: State, event: Event, *, afresh: bool = False) -> State:
    """The state after one more event; the state given is left as it was.

    Raises Refused if the run does not accept the event. With `afresh` the walk begins at the start,
    which must give the same state (tests check that).
    """
    return _stepped(state, event, afresh=afresh, copied=True)


def _stepped(state: State, event: Event, *, afresh: bool, copied: bool) -> State:
    if event.seq != state.seq + 1 or event.run != state.run:
        raise Refused("This event does not follow the last one.")
    if state.ended and event.kind not in AFTER_THE_END:
        raise Refused("This job has ended; start a new one.")
    new = _copied(state) if copied else state
    new.effort += 1 + len(new.path) // 200
    handler = _HANDLERS.get(event.kind)
    if handler is None:
        raise Refused(f"“{event.kind}” is not accepted while a job is open.")
    _need_own_body(event)
    again = handler(new, event.body, event)
    _stamp(new, event)
    if again or afresh:
        walk_afresh(new)
    else:
        walk_on(new)
    if new.ended:
        new.status, new.why, new.hidden = ENDED, "", frozenset()
    return new


def fold(events: Iterable[Event], *, afresh: bool = False, graph: Graph | None = None) -> State:
    """The state that a journal adds up to; `graph` is what its first event holds where that was read already."""
    stream = iter(events)
    state = start(next(stream), graph)
    for event in stream:
        state = _stepped(state, event, afresh=afresh, copied=False)  # nobody sees those between
    return state


def _stamp(state: State, event: Event) -> None:
    state.seq, state.last_utc = event.seq, event.utc


def _copied(state: State) -> State:
    new = copy(state)
    new.answers = dict(state.answers)
    new.dones = dict(state.dones)
    new.suggestions = dict(state.suggestions)
    new.decided = dict(state.decided)
    new.cuts = [copy(cut) for cut in state.cuts]
    new.memo = dict(state.memo)
    new.notes = list(state.notes)
    new.photos = list(state.photos)
    new.path = list(state.path)
    new.env = state.env.copied(new.memo)
    return new


def _place(state: State, body: dict[str, Any]) -> Occurrence:
    found = occurrence_of(state.graph, str(body.get("at", "")))
    if found is None:
        raise Refused(f"There is no block “{body.get('at')}” in this procedure.")
    return found


def _here(state: State, body: dict[str, Any], *kinds: str) -> Node:
    """The node the run is at, if the event means it and the block accepts such an event."""
    at = _place(state, body)
    if state.status == STOPPED:
        raise Refused(f"The job is stopped. {state.why} First say what became of that work.")
    if state.status == CUT_OPEN:
        raise Refused("First say what was drilled before the interruption.")
    if state.status == FAULT:
        raise Refused(state.why)
    if state.status != STANDING or at != state.at:
        raise Refused(f"The job is at “{label(state.graph, state.at)}”, not at “{body['at']}”.")
    _need_no_pending(state)
    if state.node.kind not in kinds:
        raise Refused(f"“{body['at']}” does not accept that; it is a {state.node.kind} block.")
    return state.node


def _need_no_pending(state: State) -> None:
    if state.pending is not None:
        raise Refused("A value is waiting for yes or no; answer that first.")


def _value(fact: Fact, body: dict[str, Any]) -> Value:
    """The event's value, checked against the fact once more: a journal may come from elsewhere."""
    text = str(body.get("value", ""))
    if fact.options and text not in fact.options and not (fact.unsure and text == UNSURE):
        raise Refused(f"“{text}” is not one of the answers ({', '.join(fact.options)}).")
    try:
        return fact.read(text)
    except WrongAnswer as error:
        raise Refused(str(error)) from error


def _fact_of(state: State, node: Node) -> Fact:
    fact = state.graph.facts.get(node.body.get("fact", ""))
    if fact is None or fact.worked:
        raise Refused(f"“{node.id}” does not ask a question.")
    return fact


def _answered(state: State, body: dict[str, Any], event: Event) -> bool:
    node = _here(state, body, "ask", "check", "time")
    _take(state, state.at, _value(_fact_of(state, node), body), event)
    return False


def _timed(state: State, body: dict[str, Any], event: Event) -> bool:
    node = _here(state, body, "time", "check")
    _take(state, state.at, _value(_fact_of(state, node), body), event)
    return False


def _heard(state: State, body: dict[str, Any], event: Event) -> bool:
    at = _place(state, body)
    if at != state.at and not (at in state.answers and at in state.path):
        raise Refused(f"“{body['at']}” has not been asked.")
    state.pending = None  # what is heard anew takes the place of what was waiting
    if at == state.at:
        _here(state, body, "ask", "check", "time")
    fact = _fact_of(state, state.graph.nodes[at[0]])
    state.pending = Pending(at, _value(fact, body), str(body.get("doubt", "")))
    return False


def _confirmed(state: State, body: dict[str, Any], event: Event) -> bool:
    pending = state.pending
    if pending is None or pending.at != _place(state, body):
        raise Refused("Nothing is waiting for a yes.")
    state.pending = None
    if not body.get("yes"):
        return False
    again = pending.at != state.at or pending.at in state.answers
    _take(state, pending.at, pending.value, event, heard=True)
    return again


def _revised(state: State, body: dict[str, Any], event: Event) -> bool:
    at = _place(state, body)
    if at not in state.answers or at not in state.path:
        raise Refused(f"“{body['at']}” has no answer to change yet.")
    fact = _fact_of(state, state.graph.nodes[at[0]])
    state.pending = None
    _take(state, at, _value(fact, body), event)
    return True


def _take(state: State, at: Occurrence, value: Value, event: Event, *, heard: bool = False) -> None:
    """Put an answer in force, with what its question showed when it was given."""
    env = state.env if at == state.at else known_at(state, at)
    basis = asked_on(state.graph, state.graph.nodes[at[0]], env)
    state.answers[at] = GivenAnswer(value, event.seq, heard, basis)


def _done(state: State, body: dict[str, Any], event: Event) -> bool:
    node = _here(state, body, "do", "work")
    if node.body.get("cuts"):
        cut = _cut_at(state, state.at)
        if cut is None:
            raise Refused(f"“{body['at']}” cuts: say first that you begin.")
        cut.done = True
    basis = basis_of(state, node)
    if state.dones.get(state.at, basis) != basis:
        measure_again(state)
    state.dones[state.at] = basis
    return False


def _cut_at(state: State, at: Occurrence) -> Cut | None:
    """The cut that is under way at an occurrence."""
    return next((c for c in state.cuts if c.at == at and not c.resolution and not c.done), None)


def _cut_begun(state: State, body: dict[str, Any], event: Event) -> bool:
    node = _here(state, body, "do")
    if not node.body.get("cuts"):
        raise Refused(f"“{body['at']}” cuts nothing; say done when it is done.")
    if _cut_at(state, state.at) is not None:
        raise Refused("This cut has already been begun.")
    state.cuts.append(Cut(state.at, basis_of(state, node), event.seq))
    put_back_after_cut(state)
    return False


def _cut_resolved(state: State, body: dict[str, Any], event: Event) -> bool:
    how = str(body.get("how", ""))
    if state.status == CUT_OPEN:
        return _cut_reported(state, how)
    cut = stopped_by(state)
    if cut is None:
        raise Refused("No cut is waiting for that.")
    if how not in RESOLUTIONS:
        raise Refused(f"Say what became of it: {', '.join(RESOLUTIONS)}.")
    if not str(body.get("note", "")).strip():
        raise Refused("Add a note on what was done; the record needs it.")
    if body.get("at") != label(state.graph, cut.at):
        raise Refused(f"The cut that stopped the run is “{label(state.graph, cut.at)}”.")
    cut.resolution = how
    state.dones.pop(cut.at, None)
    state.notes.append((event.utc, str(body["at"]), f"{how}: {body['note']}"))
    return True


def _cut_reported(state: State, how: str) -> bool:
    """How much was drilled before the interruption, as the person found it."""
    cut = state.unreported_cut()
    if cut is None or how not in CUT_REPORTS:
        raise Refused(f"Say what was drilled: {', '.join(CUT_REPORTS)}.")
    cut.unreported = False
    if how == "none":
        state.cuts.remove(cut)
    elif how == "all":
        cut.done = True
        state.dones[cut.at] = cut.basis
    return True


def _hold_passed(state: State, body: dict[str, Any], event: Event) -> bool:
    node = _here(state, body, "hold")
    basis = basis_of(state, node)
    if body.get("values") != basis:
        raise Refused("The values read back are not those of this job; read them back again.")
    state.dones[state.at] = basis
    return False


def _worked(state: State, body: dict[str, Any], event: Event) -> bool:
    fact = state.graph.facts.get(str(body.get("fact")))
    if fact is None or not fact.worked or state.status != NEEDS_WORK:
        raise Refused("No computation is waited for.")
    try:
        state.memo[memo_key(fact.name, body["inputs"])] = read_worked(fact, body)
    except ValueError as error:
        name = fact.name.replace("_", " ")
        raise Refused(
            f"This procedure has a fault: what was computed for “{name}” is not what it expects; tell its author."
        ) from error
    return False


def _noted(state: State, body: dict[str, Any], event: Event) -> bool:
    words = str(body.get("text", "")).strip()
    if not words:
        raise Refused("The note is empty; write a few words.")
    if len(words) > LONGEST_NOTE:
        raise Refused(f"A note has at most {LONGEST_NOTE:,} characters.")
    state.notes.append((event.utc, str(body.get("at", "")), words))
    return False


def _corrected(state: State, body: dict[str, Any], event: Event) -> bool:
    """A correction is words beside an ended job: what was answered, and what follows from it, stays as it was."""
    if not state.ended:
        raise Refused("This job has not ended: go back to the answer and change it there.")
    at = _place(state, body)
    if at not in state.answers or at not in state.path:
        raise Refused(f"“{body['at']}” has no answer that could be corrected.")
    if not body["text"].strip():
        raise Refused("Say in a few words what is right.")
    return False


def _photo_added(state: State, body: dict[str, Any], event: Event) -> bool:
    _place(state, body)
    if not body["shows"].strip():
        raise Refused("Say in a few words what the photo shows.")
    state.photos.append(
        KeptPhoto(
            *(event.utc, body["at"], body["sha256"], body["original"], body["name"]),
            *(body["bytes"], body["shows"]),
            after_end=bool(state.ended),
        )
    )
    return False


def _paused(state: State, body: dict[str, Any], event: Event) -> bool:
    state.paused = True
    return False


def _resumed(state: State, body: dict[str, Any], event: Event) -> bool:
    state.paused = False
    state.pending = None
    _need_reports(state)
    return False


def _need_reports(state: State) -> None:
    """A cut that was under way when the run was left must be reported before anything else."""
    for cut in state.cuts:
        cut.unreported = not cut.done and not cut.resolution


def _taken_up(state: State, body: dict[str, Any], event: Event) -> bool:
    if not state.ended:
        raise Refused("This job has not ended; it goes on.")
    if state.ended in ACHIEVED:
        raise Refused("This job came to its purpose; start a new one.")
    words = body["why"].strip()
    if not words:
        raise Refused("Say in a few words what has changed, or what the foreman said.")
    state.notes.append((event.utc, label(state.graph, state.at), f"Taken up again: {words}"))
    state.ended = state.ended_why = ""
    state.paused, state.pending = False, None
    _need_reports(state)
    return False


def _repaired(state: State, body: dict[str, Any], event: Event) -> bool:
    return False  # what was removed is gone from the run; the record says so


def _ended(state: State, body: dict[str, Any], event: Event) -> bool:
    outcome = body.get("outcome")
    if outcome == "made-safe":
        state.ended_why = str(body.get("why", ""))
    elif state.status != STANDING or state.node.kind != "end":
        raise Refused("The job does not end at this step; make it safe if you must stop.")
    elif outcome != outcome_here(state):
        raise Refused(f"This end is “{outcome_here(state)}”.")
    else:
        _need_no_pending(state)
    state.ended = str(outcome)
    return False


_HANDLERS: dict[str, Callable[[State, dict[str, Any], Event], bool]] = {
    "answered": _answered,
    "timed": _timed,
    "heard": _heard,
    "confirmed": _confirmed,
    "revised": _revised,
    "done": _done,
    "cut begun": _cut_begun,
    "cut resolved": _cut_resolved,
    "hold passed": _hold_passed,
    "worked": _worked,
    "noted": _noted,
    "photo added": _photo_added,
    "corrected": _corrected,
    "paused": _paused,
    "resumed": _resumed,
    "repaired": _repaired,
    "ended": _ended,
    "taken up": _taken_up,
}
"""Each changes the state given and says whether the walk must begin afresh."""
