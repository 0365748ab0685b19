"""Rules of a repeat: what is done in a round is done to bring about what the repeat goes on until."""

from collections.abc import Iterator

from guide.checker.bounds import sides
from guide.checker.implication import excludes, implies
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.conditions import All, Condition
from guide.procedure.graph import Graph, Node

ACTS = ("do", "work")


def cure_unneeded(graph: Graph) -> Iterator[Finding]:
    """Each step of a repeat that is done only where the repeat is done too, and no step where it is not; or that is
    done on that side of a number which the repeat goes on until."""
    for node in graph.nodes:
        if node.kind != "repeat" or node.index not in graph.untils:
            continue
        until = graph.untils[node.index]
        cures = list(_guarded(graph, node))
        helps = any(excludes(guard, until) for _, guard in cures)
        for step, guard in cures:
            same = sorted(set(sides(guard)) & set(sides(until)), key=str)
            met = not helps and any(implies(part, until) for part in _parts(guard))
            if met or same:
                message = (
                    f"“{step.id}” is done where what “{node.id}” goes on until is met already, and not where it is "
                    "missed; reverse one of the two."
                )
                yield at_block(step, "cure-unneeded", message)
                break


def _guarded(graph: Graph, repeat: Node) -> Iterator[tuple[Node, Condition]]:
    """The steps of a repeat that have a `when`, each with it."""
    low = graph.loops[repeat.edges[1].loop].low
    for gate in graph.nodes[low : repeat.index]:
        guard = gate.edges[0].guard if gate.kind == "when" else None
        if guard is not None and graph.nodes[gate.edges[0].target].kind in ACTS:
            yield graph.nodes[gate.edges[0].target], guard


def _parts(condition: Condition) -> Iterator[Condition]:
    """The condition, and each part of it that must hold."""
    yield condition
    if isinstance(condition, All):
        yield from condition.parts
