"""Rules of figures: a number in a text agrees with the numbers beside it."""

from collections.abc import Iterator

from guide.checker.bounds import said_in
from guide.checker.contrast import in_figures
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.facts import MEASURED
from guide.procedure.graph import Graph, Node

BESIDE = ("why", "watch", "looks_right")


def number_alone(graph: Graph) -> Iterator[Finding]:
    """Each text with measures of a kind, none of which its other words or its question name, though they do name some."""
    for node in graph.nodes:
        found = _alone(graph, node)
        if found is not None:
            mine, theirs = found
            message = f"“{node.id}” has {mine} in its text and {theirs} in its other words; correct one of the two."
            yield at_block(node, "number-alone", message)


def _alone(graph: Graph, node: Node) -> tuple[str, str] | None:
    text = in_figures(node.body.get("text", ""))
    beside = [node.body[key] for key in BESIDE if key in node.body]
    fact = graph.facts.get(node.body.get("fact", ""))
    if fact is not None:
        beside += [fact.ask, fact.say, fact.find_out]
    for kind in sorted(MEASURED) if text and beside else ():
        mine = [one.value for one in said_in(text, kind)]
        theirs = [one.value for words in beside for one in said_in(in_figures(words), kind)]
        if mine and theirs and not set(mine) & set(theirs):
            return str(mine[0]), str(theirs[0])
    return None
