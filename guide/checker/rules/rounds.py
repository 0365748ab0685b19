"""Rules of a repeat: what is done in a round is done to bring about what the repeat goes on until."""

from collections.abc import Iterator

from guide.checker.bounds import LOWER, UPPER, sides
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.conditions import Condition
from guide.procedure.graph import Graph, Node

ACTS = ("do", "work")


def cure_unneeded(graph: Graph) -> Iterator[Finding]:
    """Each step of a repeat that is done on that side of a number which the repeat goes on until."""
    for node in graph.nodes:
        if node.kind != "repeat" or node.index not in graph.untils:
            continue
        wanted = set(sides(graph.untils[node.index]))
        for step, guard in _guarded(graph, node):
            met = next((one for one in sides(guard) if one in wanted), None)
            if met is not None:
                name, number, side = met
                message = (
                    f"“{step.id}” is done where {name} is {side} {number}, and “{node.id}” goes on until it is that; "
                    "reverse one of the two."
                )
                yield at_block(step, "cure-unneeded", message)
                break


def cure_apart(graph: Graph) -> Iterator[Finding]:
    """Each repeat that goes on until a number which no step of it acts by, while one acts by another number of that
    fact on the other side."""
    for node in graph.nodes:
        if node.kind != "repeat" or node.index not in graph.untils:
            continue
        wanted = set(sides(graph.untils[node.index]))
        acts = [
            (step, name, number, UPPER if side == LOWER else LOWER)
            for step, guard in _guarded(graph, node)
            for name, number, side in sides(guard)
        ]
        by = {(name, number, side) for _, name, number, side in acts}
        for step, name, number, side in acts:
            missed = [n for f, n, its in wanted - by if (f, its) == (name, side)]
            if missed and (name, number, side) not in wanted:
                message = (
                    f"“{step.id}” acts by {number}, and “{node.id}” goes on until {name} is {side} {missed[0]}; "
                    "write one number in both."
                )
                yield at_block(step, "cure-apart", message)
                break


def _guarded(graph: Graph, repeat: Node) -> Iterator[tuple[Node, Condition]]:
    """The steps of a repeat that have a `when`, each with it."""
    low = graph.loops[repeat.edges[1].loop].low
    for gate in graph.nodes[low : repeat.index]:
        guard = gate.edges[0].guard if gate.kind == "when" else None
        if guard is not None and graph.nodes[gate.edges[0].target].kind in ACTS:
            yield graph.nodes[gate.edges[0].target], guard
