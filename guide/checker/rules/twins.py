"""Rules of twins: steps with the same words, of which a job has one or the other."""

from collections.abc import Iterator

from guide.checker.implication import excludes
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.conditions import Condition
from guide.procedure.graph import Graph, Node

NEIGHBOURS = 3
"""How many steps on a twin is looked for."""
SAME = ("text", "why", "watch", "looks_right")
FEWEST_SAME = 2
"""The texts that twins have in common, each of several words."""
LONG = 5
"""Words of a text that two steps do not share by chance."""


def done_twice(graph: Graph) -> Iterator[Finding]:
    """Each step that can be done right after its twin, because the conditions of the two can hold together."""
    steps = [node for node in graph.nodes if node.kind == "do"]
    for number, one in enumerate(steps):
        for other in steps[number + 1 : number + 1 + NEIGHBOURS]:
            if not _alike(one, other) or (one.file, one.line) == (other.file, other.line):
                continue
            pairs = [(a, b) for a in _guards(graph, one) for b in _guards(graph, other)]
            if not any(excludes(a, b) for a, b in pairs):
                message = (
                    f"“{one.id}” and “{other.id}” are one step in two forms by their words, and both can be done; "
                    "give each the when that the other lacks."
                )
                yield at_block(other, "done-twice", message)
                break


def _alike(one: Node, other: Node) -> bool:
    said = [(one.body.get(key, ""), other.body.get(key, "")) for key in SAME]
    return sum(a == b and len(a.split()) >= LONG for a, b in said) >= FEWEST_SAME


def _guards(graph: Graph, node: Node) -> list[Condition]:
    """The conditions of the whens and cases around a node."""
    found = []
    for outer in graph.nodes[: node.index]:
        if outer.kind in ("when", "by_case"):
            found += [
                edge.guard
                for edge in outer.edges
                if edge.guard is not None and edge.inside[0] <= node.index < edge.inside[1]
            ]
    return found
