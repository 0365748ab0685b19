"""The ways through a procedure that a door's known facts leave open.

Loops are gone through once: what is done again is not planned. A block is certain if every way to a finished job goes
through it.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from guide.procedure.graph import Edge, Graph, Node
from guide.procedure.outcomes import ACHIEVED
from guide.site.plan.known import Known


@dataclass(frozen=True, slots=True)
class Way:
    """The ways that are open."""

    nodes: tuple[Node, ...]
    """Every block on some way to a finished job, in order; empty if no way leads there."""
    certain: frozenset[int]
    """Those that every way goes through, by index."""
    least: int
    """Minutes of the shortest way: what the procedure gives for its steps."""
    most: int
    """Minutes of the longest way, nothing done twice."""
    stopped: Node | None
    """Where the job ends before it begins, if no way leads to a finished one: the furthest that it can get."""


def way_of(graph: Graph, known: Known) -> Way:
    """The ways through a procedure."""
    edges = [list(_open(node, graph, known)) for node in graph.nodes]
    reached = _reached(edges)
    done = _leading(graph, edges, reached)
    if 0 not in done:
        ends = [i for i in reached if graph.nodes[i].kind == "end"]
        return Way((), frozenset(), 0, 0, graph.nodes[max(ends)])
    useful = tuple(graph.nodes[i] for i in sorted(done))
    least, most = (_minutes(graph, edges, done, pick) for pick in (min, max))
    return Way(useful, _certain(edges, done), least, most, None)


def _open(node: Node, graph: Graph, known: Known) -> Iterator[int]:
    """The nodes that a node may lead on to."""
    for number, edge in enumerate(node.edges):
        if edge.target > node.index and _may(node, number, edge, graph, known):
            yield edge.target


def _may(node: Node, number: int, edge: Edge, graph: Graph, known: Known) -> bool:
    if node.kind == "check":
        held = known.holds(graph.limits[node.index])
        return held is None or held == (number == 0)
    if edge.guard is None:
        return True
    if known.holds(edge.guard) is False:
        return False
    # The first case that holds is the way on; those after it are never looked at.
    return not any(one.guard is not None and known.holds(one.guard) for one in node.edges[:number])


def _reached(edges: list[list[int]]) -> set[int]:
    found = {0}
    for index, targets in enumerate(edges):
        if index in found:
            found.update(targets)
    return found


def _leading(graph: Graph, edges: list[list[int]], reached: set[int]) -> set[int]:
    """Of the nodes that are reached, those from which a way leads to a finished job; if none does, to one with
    something left to do."""
    ends = {i: graph.nodes[i].body["outcome"] for i in reached if graph.nodes[i].kind == "end"}
    goals = {i for i, outcome in ends.items() if outcome == "finished"}
    found = goals or {i for i, outcome in ends.items() if outcome in ACHIEVED}
    for index in sorted(reached, reverse=True):
        if any(target in found for target in edges[index]):
            found.add(index)
    return found


def _certain(edges: list[list[int]], useful: set[int]) -> frozenset[int]:
    """The nodes that no way jumps over, nor ends before."""
    found = set()
    furthest = 0
    for index in sorted(useful):
        if furthest <= index:
            found.add(index)
        furthest = max([furthest, *(one for one in edges[index] if one in useful)])
    return frozenset(found)


def _minutes(
    graph: Graph, edges: list[list[int]], useful: set[int], pick: Callable[[list[int]], int]
) -> int:
    """The minutes of the way that is picked at every fork: the shortest or the longest."""
    from_here: dict[int, int] = {}
    for index in sorted(useful, reverse=True):
        own = graph.nodes[index].body.get("minutes")
        onward = [from_here[one] for one in edges[index] if one in useful]
        from_here[index] = (int(own) if own else 0) + (pick(onward) if onward else 0)
    return from_here[0]
