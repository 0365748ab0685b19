"""Questions in a row that are answered together: what is offered for each, and which are left blank.

A question joins if the procedure says what it expects, if the schedule or the job before supplies its answer, or if it
is a blank of the same card. The questions end where what was left blank decides how the job goes on, so each is one
that would have been asked next in any case.
"""

from collections.abc import Iterable
from typing import NamedTuple

from guide.procedure.conditions import All, AnyOf, Condition, UnknownFact, facts_of, holds
from guide.procedure.facts import Fact, Value
from guide.procedure.graph import Edge, Graph, Node
from guide.procedure.worked_facts import NeedsWork
from guide.run.prompt import JOB_BEFORE, SCHEDULE, Prompt, block_prompt, suggested
from guide.run.rounds import arrive
from guide.run.state import Occurrence, State, label
from guide.run.walk import in_passing
from guide.run.worked_ahead import ahead_of

MOST_BLANKS = {"full": 0, "cards": 4}
"""Blanks on one card, by detail; at any other, questions are asked one by one."""
MOST = 12
"""Questions on one card."""
_SUPPLIED = (SCHEDULE, JOB_BEFORE)
_PASSED = ("when", "by_case", "repeat", "go", "work")
"""Kinds of blocks at which the run does not wait, if what they need is known."""


class Asked(NamedTuple):
    """One question of a card."""

    at: Occurrence
    label: str
    fact: Fact
    value: Value | None
    """What is offered; None for a blank."""
    by: str
    """Who offers it; empty where the procedure expects it, and for a blank."""
    alone: Prompt
    """The question as it is asked by itself."""
    results: tuple[Prompt, ...] = ()
    """What is computed in passing between the question before and this one."""


def asked_together(state: State, start: Occurrence, detail: str) -> tuple[str, list[Asked]]:
    """The title of the card and its questions, the one at `start` first; none where it is asked by itself."""
    most = MOST_BLANKS.get(detail)
    if most is None or not _joins(state.graph, start):
        return "", []
    ahead = ahead_of(state)
    title, found, blanks = "", list[Asked](), set[str]()
    at: Occurrence | None = start
    results: tuple[Prompt, ...] = ()
    while at is not None and len(found) < MOST and _joins(state.graph, at):
        node = state.graph.nodes[at[0]]
        if found and (at[0] <= found[-1].at[0] or _differs_blind(state, node, start)):
            break
        asked = _asked(ahead, node, at, blanks, results)
        card = node.body.get("card", "")
        if asked is None or (not card and asked.by not in _SUPPLIED):
            break
        if asked.by not in _SUPPLIED and title and card != title:
            break
        if asked.value is None and len(blanks) == most:
            break
        title = title or card
        found.append(asked)
        if asked.value is None:
            blanks.add(asked.fact.name)
        else:
            ahead.env.take(at, asked.fact.name, asked.value)
        at, results = _next(ahead, at, blanks)
    return (title, found) if title and len(found) > 1 else ("", [])


def _joins(graph: Graph, at: Occurrence) -> bool:
    """Whether a block asks for something that a card can hold: no time, which a stopwatch takes."""
    node = graph.nodes[at[0]]
    if node.kind not in ("ask", "check"):
        return False
    fact = graph.facts[node.body["fact"]]
    return not fact.worked and fact.kind != "time"


def _differs_blind(state: State, node: Node, start: Occurrence) -> bool:
    """Whether what a question hides would be seen on the card, or be hidden on it without need."""
    hidden = state.graph.hidden_at(state.graph.nodes[start[0]])
    own = state.graph.hidden_at(node)
    return bool(own) != bool(hidden) or not own <= hidden


def _asked(
    ahead: State, node: Node, at: Occurrence, blanks: set[str], results: tuple[Prompt, ...]
) -> Asked | None:
    """A question of the card; None if it is answered already, or shows what is still blank."""
    if at in ahead.answers or _depends(ahead.graph, node.shows, blanks):
        return None
    fact = ahead.graph.facts[node.body["fact"]]
    try:
        value, by = suggested(ahead, fact, at) if not blanks or fact.offer is None else (None, "")
        if value is None and "expects" in node.body:
            value, by = fact.decode(node.body["expects"]), ""
        if value is None and fact.kind == "text":
            return None
        alone = block_prompt(ahead, node, at)
    except (UnknownFact, NeedsWork):
        return None
    return Asked(at, label(ahead.graph, at), fact, value, by, alone, results)


def _next(
    ahead: State, at: Occurrence, blanks: set[str]
) -> tuple[Occurrence | None, tuple[Prompt, ...]]:
    """The block that the run comes to after a question, if what is answered already decides it, and the results that
    it shows in passing on the way."""
    graph, results = ahead.graph, list[Prompt]()
    while True:
        node = graph.nodes[at[0]]
        try:
            if node.kind == "work":
                if _depends(graph, node.shows, blanks) or not in_passing(ahead, node):
                    return None, ()
                results.append(block_prompt(ahead, node, at))
            edge = _way_on(ahead, node, blanks)
        except (UnknownFact, NeedsWork):
            return None, ()
        if edge is None or edge.target < 0 or edge.loop >= 0:
            return None, ()
        at = arrive(graph, node, at, edge)
        if graph.nodes[at[0]].kind not in _PASSED:
            return at, tuple(results)


def _way_on(ahead: State, node: Node, blanks: set[str]) -> Edge | None:
    graph = ahead.graph
    if node.kind in ("ask", "go", "work"):
        return node.edges[0]
    tests = {"check": graph.limits, "repeat": graph.untils}.get(node.kind)
    if tests is not None:
        return node.edges[0] if _decided(ahead, tests[node.index], blanks) else None
    for edge in node.edges:
        decided = edge.guard is not None and _decided(ahead, edge.guard, blanks)
        if decided is None:
            return None
        if decided:
            return edge
    return None


def _decided(ahead: State, test: Condition, blanks: set[str]) -> bool | None:
    """Whether a condition holds; None if that depends on what is blank or not known yet."""
    if isinstance(test, All | AnyOf):
        settles = isinstance(test, AnyOf)
        parts = [_decided(ahead, part, blanks) for part in test.parts]
        if settles in parts:
            return settles
        return None if None in parts else not settles
    if _depends(ahead.graph, facts_of(test), blanks):
        return None
    try:
        return holds(test, ahead.env)
    except (UnknownFact, NeedsWork):
        return None


def _depends(graph: Graph, names: Iterable[str], blanks: set[str]) -> bool:
    return any(name in blanks or blanks & graph.inputs_of(name) for name in names)
