"""The check of a compiled graph that was stored in a run: nothing is run that this program could not have compiled.

A run's file may come from anybody. So the graph in it is compared with an exact shape first, and then its parts with
each other: every name must be declared, every way must lead somewhere, and only a counted loop leads back.
"""

from collections.abc import Iterable, Iterator
from typing import Any

from guide import measures
from guide.errors import FOUND, HingesideError
from guide.measures import Quantity
from guide.procedure.conditions import (
    Against,
    All,
    AnyOf,
    Between,
    Compare,
    Condition,
    Is,
    Not,
    facts_of,
    value_kind,
)
from guide.procedure.facts import Fact
from guide.procedure.graph import Edge, Graph, Node
from guide.procedure.hazards import USUAL
from guide.procedure.stored_shape import GRAPH, PARTS_OF_A_CONDITION
from guide.text import names_in

LOOPS_DEEP = 6
"""Loops around one block, once those that overlap in part are made to nest."""
FACTS_DEEP = 60
"""Computed facts that are computed from computed facts, and so on."""


class BadGraph(HingesideError, ValueError):
    """A graph that this program would not have compiled, or that is too large to be run; the message says why."""

    status = FOUND


def read_stored(data: Any) -> Graph:
    """The graph that was stored. Raises BadGraph for one that this program would not have compiled."""
    if not GRAPH(data):
        raise BadGraph(
            "The procedure in this job is not one that this program writes, or it is too large to be run."
        )
    try:
        graph = Graph.from_json(data)
    except (ValueError, ArithmeticError) as error:
        raise BadGraph("The procedure in this job holds a value that cannot be read.") from error
    for fault in _faults(graph):
        raise BadGraph(f"The procedure in this job cannot be run: {fault}.")
    return graph


# --- what the parts say of each other ---


def _faults(graph: Graph) -> Iterator[str]:
    """What is wrong, the first of each kind, as the end of a sentence."""
    if not graph.nodes:
        yield "it has no blocks"
        return
    yield from _faults_of_facts(graph)
    yield from _faults_of_loops(graph)
    for node in graph.nodes:
        yield from _faults_of_node(graph, node)
        yield from _faults_of_ways(graph, node)


def _faults_of_facts(graph: Graph) -> Iterator[str]:
    facts = graph.facts
    for fact in facts.values():
        named = [*fact.input_facts(), *names_in(fact.ask), *names_in(fact.say)]
        named += [one for one in fact.offer.using.values() if one[:1] != "="] if fact.offer else []
        if not facts.keys() >= {*named}:
            yield f"{fact.name} is computed from, or shows, a fact that is not declared"
        if not fact.worked and fact.kind not in ("choice", "yesno", "text"):
            yield from _faults_of_range(fact)
        if fact.operation and {*fact.using} != {str(n + 1) for n in range(len(fact.using))}:
            yield f"the terms of {fact.name} are not numbered"
        if not all(fact.rounds.values()):
            yield f"{fact.name} reads rounds of nothing"
    deep: dict[str, int] = {}
    for name in facts:
        if _depth(facts, name, deep) > FACTS_DEEP:
            yield f"{name} is computed from itself, or through more than {FACTS_DEEP} others"
            return


def _faults_of_range(fact: Fact) -> Iterator[str]:
    kind = int if fact.kind == "count" else Quantity
    edges = [edge for edge in (fact.low, fact.high) if edge is not None]
    if not all(isinstance(edge, kind) for edge in edges):
        yield f"the range of {fact.name} is not a range"


def _depth(facts: dict[str, Fact], name: str, deep: dict[str, int]) -> int:
    """The longest way down from a fact through those it is computed from; more than FACTS_DEEP for a circle."""
    todo = [(name, False)]
    while todo:
        here, left = todo.pop()
        below = [one for one in facts[here].input_facts() if one in facts]
        if left:
            deep[here] = 1 + max((deep.get(one, FACTS_DEEP + 1) for one in below), default=0)
        elif here not in deep:
            deep[here] = FACTS_DEEP + 1  # met again while still open, it is in a circle
            todo.append((here, True))
            todo += [(one, False) for one in below if one not in deep]
    return deep[name]


def _faults_of_loops(graph: Graph) -> Iterator[str]:
    last = len(graph.nodes) - 1
    if any(not loop.low <= loop.high <= last for loop in graph.loops):
        yield "one of its loops has no place"


_WAYS = {"do": 1, "ask": 1, "work": 1, "time": 1, "hold": 1, "turn": 1, "go": 1, "end": 0}
_WAYS |= {"check": 2, "when": 2, "repeat": 3}
_GUARDED = ("by_case", "when")


def _faults_of_node(graph: Graph, node: Node) -> Iterator[str]:
    body, facts = node.body, graph.facts
    keys = ("text", "say", "why", "watch", "looks_right", "photo")
    texts = [body[key] for key in keys if key in body]
    texts += [said for caution in body.get("caution", ()) for said in caution.values()]
    named = {*node.shows, *(name for said in texts for name in names_in(said))}
    if not facts.keys() >= named:
        yield f"“{node.id}” shows a fact that is not declared"
    fact = facts.get(body["fact"]) if "fact" in body else None
    if "fact" in body and fact is None:
        yield f"“{node.id}” is about a fact that is not declared"
    elif fact is not None and fact.worked != (node.kind == "work") and node.kind != "check":
        yield f"“{node.id}” asks what is computed, or shows what is asked"
    if fact is not None and node.kind == "time" and fact.kind != "time":
        yield f"“{node.id}” times what is not a time"
    if not {*graph.hazards, *USUAL} >= {*body.get("hazards", ())}:
        yield f"“{node.id}” names a hazard that is not known"
    if node.kind == "turn":
        yield from _faults_of_turn(graph, node)
    yield from _faults_of_condition(graph, node)


def _faults_of_turn(graph: Graph, node: Node) -> Iterator[str]:
    body, fact = node.body, graph.facts.get(node.body["turn"])
    if fact is None or not graph.facts.keys() >= {*body["forgets"], *body["suggests"]}:
        yield f"“{node.id}” has turns by a fact that is not declared"
    elif not any(
        loop.low == node.index and graph.takes_turns(n) and loop.at_most == len(fact.options) > 0
        for n, loop in enumerate(graph.loops)
    ):
        yield f"“{node.id}” has not a turn for each answer of its fact"


def _faults_of_condition(graph: Graph, node: Node) -> Iterator[str]:
    own = graph.limits if node.kind == "check" else graph.untils
    needed = node.kind in ("check", "repeat")
    if needed and node.index not in own:
        yield f"“{node.id}” has nothing to compare with"
    found = [edge.guard for edge in node.edges if edge.guard is not None]
    found += [kept[node.index] for kept in (graph.limits, graph.untils) if node.index in kept]
    if any(not _fits(graph, condition) for condition in found):
        yield f"“{node.id}” compares what cannot be compared, or in too many parts"


def _fits(graph: Graph, condition: Condition) -> bool:
    """Whether each part compares a declared fact with a value of its own kind."""
    parts = list(_parts(condition))
    facts = graph.facts
    return len(parts) <= PARTS_OF_A_CONDITION and all(
        facts.keys() >= {*facts_of(part)} and _same_kind(facts, part) for part in parts
    )


def _parts(condition: Condition) -> Iterator[Condition]:
    """Every comparison in a condition; never more than are counted."""
    todo = [condition]
    for _ in range(4 * PARTS_OF_A_CONDITION):
        if not todo:
            return
        one = todo.pop()
        if isinstance(one, All | AnyOf):
            todo += one.parts
        elif isinstance(one, Not):
            todo.append(one.part)
        else:
            yield one
    yield from (Is("", ()) for _ in range(PARTS_OF_A_CONDITION + 1))


def _same_kind(facts: dict[str, Fact], part: Condition) -> bool:
    if isinstance(part, Compare):
        return _of_kind(facts[part.fact], part.value)
    if isinstance(part, Between):
        return _of_kind(facts[part.fact], part.low, part.high)
    if isinstance(part, Against):
        one, other = facts[part.fact], facts[part.other]
        offset = () if part.offset is None else (part.offset,)
        return value_kind(one) == value_kind(other) and _of_kind(one, *offset)
    return True


def _of_kind(fact: Fact, *values: Quantity | int) -> bool:
    kind = value_kind(fact)
    if kind == "count":
        return all(isinstance(value, int) for value in values)
    return kind in measures.KINDS and all(
        isinstance(value, Quantity) and value.kind == kind for value in values
    )


def _faults_of_ways(graph: Graph, node: Node) -> Iterator[str]:
    ways = _WAYS.get(node.kind)
    if len(node.edges) != ways and (ways is not None or not node.edges):
        yield f"“{node.id}” has not the ways on that a {node.kind} block has"
        return
    if node.kind in _GUARDED and any(edge.guard is None for edge in node.edges):
        yield f"“{node.id}” has a way without a condition"
    if node.kind == "repeat" and [edge.loop >= 0 for edge in node.edges] != [False, True, False]:
        yield f"“{node.id}” does not go round"
    if any(not _leads(graph, node, edge) for edge in node.edges):
        yield f"a way from “{node.id}” leads nowhere"


def _leads(graph: Graph, node: Node, edge: Edge) -> bool:
    """Whether a way leads forward, or back to the beginning of a loop that it goes round."""
    count = len(graph.nodes)
    low, high = edge.inside
    if not (0 <= edge.target < count and low <= high <= count):
        return False
    if edge.loop < 0:
        return edge.target > node.index
    loop = graph.loops[edge.loop] if edge.loop < len(graph.loops) else None
    return loop is not None and loop.low == edge.target and loop.low <= node.index <= loop.high


def need_few_loops(around: Iterable[tuple[int, ...]]) -> None:
    """Raises BadGraph where more loops are around one block than can be told apart in a reasonable time."""
    if any(len(loops) > LOOPS_DEEP for loops in around):
        raise BadGraph(
            f"This procedure has a block with more than {LOOPS_DEEP} loops around it; use fewer ways back."
        )
