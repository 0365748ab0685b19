"""What a block decides by, and which facts that takes."""

from collections.abc import Iterator

from guide.procedure.conditions import All, AnyOf, Condition, Known, Not, facts_of
from guide.procedure.graph import Graph, Node


def conditions_at(graph: Graph, node: Node) -> list[Condition]:
    """The conditions a node decides by, in order; none for a node with one way on."""
    if node.kind == "repeat":
        return [graph.untils[node.index]]
    if node.kind == "check":
        return [graph.limits[node.index]]
    if node.kind in ("when", "by_case"):
        edges = node.edges if node.kind == "by_case" else node.edges[:1]
        return [edge.guard for edge in edges if edge.guard is not None]
    return []


def facts_needed(condition: Condition) -> Iterator[str]:
    """The facts a condition may ask the value of, in order; whether a fact is known needs none."""
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from facts_needed(part)
    elif isinstance(condition, Not):
        yield from facts_needed(condition.part)
    elif not isinstance(condition, Known):
        yield from facts_of(condition)
