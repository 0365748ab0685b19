"""Replays a counter-example of the proof through the run's own state machine before it is reported."""

from collections.abc import Callable
from typing import TypeVar

from guide.checker.reach import Stop
from guide.procedure.conditions import Condition, Is, UnknownFact, holds
from guide.procedure.facts import NONE, Value, writing
from guide.procedure.graph import Graph, Node
from guide.procedure.worked_facts import Env, NeedsWork, memo_key, read_worked, work_out
from guide.run import replies
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.state import FAULT, STANDING, State
from guide.run.step import Refused
from guide.trade import registry

EPOCH = "2000-01-01T00:00:00.000Z"
T = TypeVar("T")


def replay(graph: Graph, way: list[Stop], code: str, detail: str) -> bool:
    """Whether the real run goes this way and, at its last node, breaks the property of this code."""
    session = Session.begin(
        MemoryJournal(), graph, device="proof", units="inch", clock=lambda: EPOCH
    )
    last = way[-1]
    try:
        for stop in way[:-1]:
            node = graph.nodes[stop.node]
            if waits(session.state, node):
                take(session, node, stop.answer)
        return broken(session, last, code, detail)
    except (Refused, ValueError):
        return False  # the engine goes another way than the sets: nothing is claimed


def waits(state: State, node: Node) -> bool:
    """Whether the run is at this node, which is one that a person sees."""
    return node.seen and state.status == STANDING and state.at[0] == node.index


def take(session: Session, node: Node, answer: Value | None) -> None:
    """Do what a block waits for."""
    state = session.state
    if node.kind in ("ask", "time", "check"):
        session.send(replies.answer(state, writing(answer) if answer is not None else ""))
        if session.state.pending is not None:
            session.send(replies.confirm(session.state, yes=True))
    elif node.kind == "hold":
        session.send(replies.pass_hold(state))
    elif node.kind in ("do", "work"):
        if node.body.get("cuts"):
            session.send(replies.begin(state))
        session.send(replies.done(session.state))


def broken(session: Session, last: Stop, code: str, detail: str) -> bool:
    """Whether the property is broken where the way ends."""
    graph, state = session.state.graph, session.state
    node = graph.nodes[last.node]
    if code == "fact-not-known" and waits(state, node) and not _known(state, detail):
        return True
    if last.answer is not None and waits(state, node):
        take(session, node, last.answer)
        state = session.state
    if code in ("case-missing", "fact-not-known", "cut-without-hold"):
        return state.status == FAULT and state.at[0] == node.index
    came = any(index == node.index for index, _ in state.path)
    if code == "case-overlap":
        names = detail.split(" and ")
        guards = [edge.guard for edge in node.edges if edge.label in names]
        return came and all(guard is not None and _true(state, guard) for guard in guards)
    if code == "done-when-over":
        until = graph.untils[graph.index_of(detail) or 0]
        return came and _true(state, until)
    if code == "no-answer-shown":
        return came and _true(state, Is(detail, (NONE,)))
    if code == "input-out-of-domain":
        return came and _past_limits(state, detail)
    return came


def _known(state: State, name: str) -> bool:
    return worked_through(state, lambda env: name in env)


def _true(state: State, condition: Condition) -> bool:
    try:
        return worked_through(state, lambda env: holds(condition, env))
    except UnknownFact:
        return False


def worked_through(state: State, read: Callable[[Env], T]) -> T:
    """What is read of a run's facts, with every computation made that it needs; the run has made only
    those of its own way. Raises UnknownFact."""
    env = state.env.copied(dict(state.memo))
    while True:
        try:
            return read(env)
        except NeedsWork as need:
            fact = state.graph.facts[need.fact]
            body = work_out(fact, need.inputs, None)
            env.memo[memo_key(need.fact, need.inputs)] = read_worked(fact, body)


def _past_limits(state: State, detail: str) -> bool:
    name, _, input_name = detail.partition(".")
    fact = state.graph.facts[name]
    wanted = registry.find(fact.computation).input(input_name)
    if wanted is None:
        return False
    try:
        value = worked_through(state, lambda env: env[fact.using[input_name]])
    except UnknownFact:
        return False
    if isinstance(value, str):
        return False
    low, high = wanted.low, wanted.high
    return bool(
        (low is not None and value < low)  # type: ignore[operator]
        or (high is not None and value > high)  # type: ignore[operator]
    )
