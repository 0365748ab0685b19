"""Loops at run time: the iteration that a visit belongs to, and reachability between visits.

A jump back may begin inside one loop and end inside another. The loops of a run are therefore first made to nest,
so that no visit is counted twice: of two that overlap, one is stretched around the other.
"""

from collections.abc import Iterable

from guide.procedure.graph import Edge, Graph, Node
from guide.procedure.nesting import around, nest
from guide.run.state import Occurrence

SAME, LATER, ANY = "=", "+", "*"
"""How the try number of a loop compares with the one it had where a search began."""

Marks = tuple[str, ...]
Place = tuple[int, Marks]
"""Node index, and a mark for each loop in `node.loops`."""


def nest_loops(graph: Graph) -> None:
    """Make the loops of a graph nest, and list each node's loops from the outermost in."""
    nest(graph.loops)
    for node in graph.nodes:
        node.loops = around(graph.loops, node.index)


def arrive(graph: Graph, node: Node, here: Occurrence, edge: Edge) -> Occurrence:
    """The visit at the far end of an edge: going round counts one more and begins inner loops anew."""
    target = graph.nodes[edge.target]
    counts = dict(zip(node.loops, here[1], strict=True))
    if edge.loop >= 0:
        within = node.loops.index(edge.loop)
        counts = {number: counts[number] for number in node.loops[:within]}
        counts[edge.loop] = here[1][within] + 1
    return target.index, tuple(counts.get(number, 1) for number in target.loops)


def _follow(graph: Graph, place: Place, edge: Edge) -> Place:
    """As `arrive`, for marks."""
    node = graph.nodes[place[0]]
    marks = dict(zip(node.loops, place[1], strict=True))
    if edge.loop >= 0:
        within = node.loops.index(edge.loop)
        before = marks[edge.loop]
        marks = {number: marks[number] for number in node.loops[:within]}
        marks[edge.loop] = LATER if before == SAME else before
    target = graph.nodes[edge.target]
    return target.index, tuple(marks.get(number, ANY) for number in target.loops)


def _fits(graph: Graph, place: Place, start: Occurrence, wanted: Occurrence) -> bool:
    """Whether a visit is one of those that a marked place means."""
    if place[0] != wanted[0]:
        return False
    counts = dict(zip(graph.nodes[start[0]].loops, start[1], strict=True))
    for number, mark, count in zip(graph.nodes[wanted[0]].loops, place[1], wanted[1], strict=True):
        if mark == SAME and count != counts[number]:
            return False
        if mark == LATER and count <= counts[number]:
            return False
    return True


def ways_to(graph: Graph, start: Occurrence, wanted: Occurrence) -> set[int]:
    """Every node on some way from one visit to another, whatever the answers; empty if none leads."""
    first: Place = (start[0], (SAME,) * len(start[1]))
    came_from: dict[Place, set[Place]] = {first: set()}
    todo = [first]
    while todo:
        place = todo.pop()
        for edge in graph.nodes[place[0]].edges:
            if edge.target < 0:
                continue
            after = _follow(graph, place, edge)
            if after not in came_from:
                came_from[after] = set()
                todo.append(after)
            came_from[after].add(place)
    ends = [place for place in came_from if _fits(graph, place, start, wanted)]
    return {place[0] for place in _all_before(came_from, ends)}


def _all_before(came_from: dict[Place, set[Place]], ends: Iterable[Place]) -> set[Place]:
    found = set(ends)
    todo = list(found)
    while todo:
        for place in came_from[todo.pop()] - found:
            found.add(place)
            todo.append(place)
    return found
