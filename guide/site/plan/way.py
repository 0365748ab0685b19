"""The ways through a procedure that a door's known facts leave open.

Loops are gone through once: what is done again is not planned. A block is certain if every way to a finished job goes
through it.
"""

from collections.abc import Container, Iterator
from dataclasses import dataclass

from guide.procedure.graph import Node
from guide.procedure.outcomes import ACHIEVED
from guide.site.plan.known import Fork, Known, Planning


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


def way_of(planning: Planning, known: Known) -> Way:
    """The ways through the procedure."""
    key = tuple(known.value(name) for name in planning.deciding)
    if key not in planning.ways:
        planning.ways[key] = _way(planning, known)
    return planning.ways[key]


def _way(planning: Planning, known: Known) -> Way:
    graph = planning.graph
    edges = _reached(planning, known)
    minutes = _minutes(planning, edges)
    if 0 not in minutes:
        ends = [index for index in edges if index in planning.ends]
        return Way((), frozenset(), 0, 0, graph.nodes[max(ends)])
    nodes = tuple(graph.nodes[index] for index in edges if index in minutes)
    return Way(nodes, _certain(edges, minutes), *minutes[0], None)


def _reached(planning: Planning, known: Known) -> dict[int, list[int]]:
    """Every node that may be come to, in order, each with those that it may lead on to."""
    found: dict[int, list[int]] = {}
    reached = {0}
    for index, forks in enumerate(planning.forks):
        if index in reached:
            onward = forks if isinstance(forks, list) else list(_open(forks, known))
            found[index] = onward
            reached.update(onward)
    return found


def _open(fork: Fork, known: Known) -> Iterator[int]:
    """The nodes that a fork may lead on to. The first case that holds is the way on."""
    for target, guard in fork:
        held = known.holds(guard)
        if held is not False:
            yield target
        if held:
            return


def _minutes(planning: Planning, edges: dict[int, list[int]]) -> dict[int, tuple[int, int]]:
    """The least and the most minutes from each node to a finished job, or if there is none to one with something left
    to do; without the nodes from which no way leads there."""
    ends = {index: planning.ends[index] for index in edges if index in planning.ends}
    goals = [index for index, outcome in ends.items() if outcome == "finished"]
    goals = goals or [index for index, outcome in ends.items() if outcome in ACHIEVED]
    found = dict.fromkeys(goals, (0, 0))
    for index in reversed(edges):
        onward = [found[target] for target in edges[index] if target in found]
        if len(onward) == 1:
            least, most = onward[0]
        elif onward:
            least, most = min(one for one, _ in onward), max(one for _, one in onward)
        else:
            continue
        own = planning.minutes[index]
        found[index] = least + own, most + own
    return found


_END = 1_000_000
"""Past every node: after an end nothing is certain."""


def _certain(edges: dict[int, list[int]], useful: Container[int]) -> frozenset[int]:
    """The nodes that no way jumps over, nor ends before."""
    found = set()
    furthest = 0
    for index, onward in edges.items():
        if index not in useful:
            continue
        if furthest <= index:
            found.add(index)
        ahead = [target for target in onward if target in useful]
        furthest = max(furthest, *ahead) if ahead else _END
    return frozenset(found)
