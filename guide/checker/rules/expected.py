"""Rules of questions that expect an answer."""

from collections.abc import Iterator

from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.conditions import holds
from guide.procedure.graph import Graph, Node


def expects_wrong(graph: Graph) -> Iterator[Finding]:
    """Each question that expects what it does not offer, what fails its own check, or what can stand on no card."""
    for node in graph.nodes:
        if "expects" in node.body and (wrong := _wrong(graph, node)):
            yield at_block(node, "expects-wrong", f"“{node.id}” expects {wrong}")


def _wrong(graph: Graph, node: Node) -> str:
    """What is wrong with an expected answer, as the end of a sentence; empty if nothing is."""
    expected, fact = node.body["expects"], graph.facts[node.body["fact"]]
    if expected not in fact.options:
        offered = ", ".join(fact.options) or f"“{fact.name}” has none to pick from"
        return f"“{expected}”, which it does not offer: {offered}."
    limit = graph.limits.get(node.index)
    if limit is not None and not holds(limit, {fact.name: expected}):
        return f"“{expected}”, which fails its own limit; expect an answer that passes."
    if node.body.get("blind"):
        return "an answer and is answered blind; take one of the two out."
    if not node.body.get("card"):
        return "an answer and is on no card; give it the card of the questions beside it."
    return ""
