"""Loop analysis: the effect of a `repeat` in each of its cases, and where a failure leads.

Each function follows exact sets of cases (flow.py) through one part of the graph, forward only. Parts with a
loop or a jump inside them are left alone: there a step may act in another round than the one that is looked at.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from guide.checker.diagram import NOTHING
from guide.checker.flow import Flow
from guide.checker.reach import ReachableCases
from guide.procedure.conditions import facts_of
from guide.procedure.graph import Graph, Loop, Node

ACTS = ("do", "hold", "end", "go")
"""Blocks after which something is otherwise than before, whatever they say."""
ANSWERS = ("ask", "time", "check")


@dataclass(slots=True)
class Round:
    """One `repeat` without loops or jumps inside."""

    node: Node
    """The node that decides `until`; the last of the loop."""
    low: int
    first: int
    """The first node inside that asks a fact on which `until` depends."""
    last: int
    """The last of those."""


def rounds(graph: Graph) -> Iterator[Round]:
    """Every `repeat` that can be followed and asks inside for something that it is to end by."""
    for node in graph.nodes:
        if node.kind != "repeat" or node.index not in graph.untils:
            continue
        loop = graph.loops[node.edges[1].loop]
        inside = graph.nodes[loop.low : loop.high]
        if any(one.kind == "go" for one in inside) or _others(graph, loop):
            continue
        read = set(_asked(graph, facts_of(graph.untils[node.index])))
        asking = [n.index for n in inside if n.kind in ANSWERS and n.body["fact"] in read]
        if asking:
            yield Round(node, loop.low, asking[0], asking[-1])


def _others(graph: Graph, loop: Loop) -> bool:
    """Whether another loop begins or ends inside this one."""
    numbers = {
        number for node in graph.nodes[loop.low : loop.high + 1] for number in set(node.loops)
    }
    return any(
        other is not loop
        and (loop.low < other.low <= loop.high or loop.low <= other.high < loop.high)
        for other in (graph.loops[number] for number in numbers)
    )


def _asked(graph: Graph, names: Iterator[str]) -> Iterator[str]:
    for name in names:
        yield from (one for one in (name, *graph.inputs_of(name)) if not graph.facts[one].worked)


def spread(
    flow: Flow, start: dict[int, int], low: int, high: int, stops: Callable[[Node], bool]
) -> dict[int, int]:
    """The cases that come to each node of `low` to `high` (not included) and to what comes after.

    Only ways forward are followed, none on from a node that `stops` names, and none on from outside.
    """
    come = dict(start)
    for index in range(low, high):
        node = flow.graph.nodes[index]
        cases = come.get(index, NOTHING)
        if cases == NOTHING or stops(node):
            continue
        _pass(flow, node, flow.written(index, cases), come)
    return come


def _pass(flow: Flow, node: Node, after: int, come: dict[int, int]) -> None:
    for number, edge in enumerate(node.edges):
        if edge.target > node.index:
            taken = flow.along(node.index, number, after)
            come[edge.target] = flow.sets.either(come.get(edge.target, NOTHING), taken)


def done_when_over(flow: Flow, reach: ReachableCases) -> Iterator[tuple[Node, Node, int]]:
    """Steps after a repeat's last reading that are done although the repeat is over: the step, the repeat,
    and those cases as they come to the step."""
    for one in rounds(flow.graph):
        over = flow.passages[one.node.index].guards[0]
        for node in flow.graph.nodes[one.last + 1 : one.node.index]:
            cases = flow.sets.both(reach.cases[node.index], over)
            if by_hand(node) and cases != NOTHING and not _ends_after(flow.graph, node, one):
                yield node, one.node, cases


def _ends_after(graph: Graph, node: Node, one: Round) -> bool:
    """Whether the run may end between a step and the repeat's end: then `until` may never be asked."""
    return any(n.kind == "end" for n in graph.nodes[node.index : one.node.index])


def only_first(flow: Flow, reach: ReachableCases) -> Iterator[tuple[Node, Node]]:
    """Steps before a repeat's last reading that no case comes to on a later round: the step, the repeat."""
    nodes = flow.graph.nodes
    for one in rounds(flow.graph):
        again = _again(flow, one, reach.cases[one.node.index])
        if again == NOTHING:
            continue
        come = spread(flow, {one.low: again}, one.low, one.node.index, lambda node: False)
        for node in nodes[one.low : one.last]:
            first = reach.cases[node.index] != NOTHING
            if by_hand(node) and first and come.get(node.index, NOTHING) == NOTHING:
                yield node, one.node


def _again(flow: Flow, one: Round, cases: int) -> int:
    """Of the cases that come to the end of a round, those that go round once more."""
    return flow.along(one.node.index, 1, flow.written(one.node.index, cases))


def idle(flow: Flow, reach: ReachableCases) -> Iterator[Node]:
    """Repeats that have steps, and in some case come from their first reading round to it with none done."""
    nodes = flow.graph.nodes
    for one in rounds(flow.graph):
        if not any(by_hand(node) for node in nodes[one.low : one.node.index]):
            continue
        start = {one.first: reach.cases[one.first]}
        come = spread(flow, start, one.first, one.node.index, _acts)
        again = _again(flow, one, come.get(one.node.index, NOTHING))
        back = spread(flow, {one.low: again}, one.low, one.first, _acts)
        if _certain(flow, back.get(one.first, NOTHING)):
            yield one.node


def passed_over(flow: Flow, reach: ReachableCases) -> Iterator[Node]:
    """Checks and repeats whose `otherwise` is in some case gone through without anything done or asked."""
    for node in flow.graph.nodes:
        number = {"check": 1, "repeat": 2}.get(node.kind)
        if number is None or reach.cases[node.index] == NOTHING or _takes_turns(flow.graph, node):
            continue
        edge = node.edges[number]
        low, high = edge.inside
        failed = flow.along(node.index, number, flow.written(node.index, reach.cases[node.index]))
        come = spread(flow, {edge.target: failed}, low, high, _acts_or_asks)
        for target, cases in come.items():
            if target >= high and _certain(flow, cases):
                yield node
                break


def _takes_turns(graph: Graph, node: Node) -> bool:
    """Whether it is the end of an `each`, after whose last turn nothing has failed."""
    return node.kind == "repeat" and graph.takes_turns(node.edges[1].loop)


def by_hand(node: Node) -> bool:
    """Whether something is done at a block: every `do`, and a computed advice that takes tools or has hazards."""
    return node.kind == "do" or (
        node.kind == "work" and ("tools" in node.body or "hazards" in node.body)
    )


def _acts(node: Node) -> bool:
    return node.kind in ACTS or by_hand(node)


def _acts_or_asks(node: Node) -> bool:
    return _acts(node) or node.kind in ANSWERS or node.kind == "repeat"


def _certain(flow: Flow, cases: int) -> bool:
    """Whether cases come, and none of them by a computed value that is only taken to be possible."""
    return cases != NOTHING and not flow.model.support(cases) & flow.model.free_levels
