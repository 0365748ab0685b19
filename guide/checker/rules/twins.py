"""Rules of twins: steps with the same words, and questions for the same fact, of which a job has one or the other."""

from collections.abc import Iterator
from itertools import product

from guide.checker.implication import excludes
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.conditions import Condition, facts_of
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
            if _go_together(graph, one, other):
                message = (
                    f"“{one.id}” and “{other.id}” are one step in two forms by their words, and both can be done; "
                    "give each the when that the other lacks."
                )
                yield at_block(other, "done-twice", message)
                break


def _go_together(graph: Graph, one: Node, other: Node) -> bool:
    """Whether one of two steps has a condition of its own that does not shut the other out, which has none or one on
    the same facts."""
    around, other_around = _guards(graph, one), _guards(graph, other)
    mine = [guard for place, guard in around.items() if place not in other_around]
    its = [guard for place, guard in other_around.items() if place not in around]
    shared = {f for a in mine for f in facts_of(a)} & {f for b in its for f in facts_of(b)}
    apart = any(excludes(a, b) for a in mine for b in its)
    return bool(mine or its) and (bool(shared) or not (mine and its)) and not apart


def _alike(one: Node, other: Node) -> bool:
    same = [key for key in SAME if one.body.get(key, "") == other.body.get(key)]
    return sum(len(one.body[key].split()) >= LONG for key in same) >= FEWEST_SAME


def _guards(graph: Graph, node: Node) -> dict[tuple[int, int], Condition]:
    """The conditions of the whens and cases around a node, by their decision and the number of the way."""
    return {
        (outer.index, number): edge.guard
        for outer in graph.nodes[: node.index]
        if outer.kind in ("when", "by_case")
        for number, edge in enumerate(outer.edges)
        if edge.guard is not None and edge.inside[0] <= node.index < edge.inside[1]
    }


ASKING = ("ask", "time", "check")


def asked_twice(graph: Graph) -> Iterator[Finding]:
    """Each question that follows one for the same fact at once, where the conditions of the two can hold together."""
    for one in graph.nodes:
        other = _next_question(graph, one) if one.kind in ASKING else None
        if other is None or other.body["fact"] != one.body["fact"]:
            continue
        pairs = product(_guards(graph, one).values(), _guards(graph, other).values())
        if not any(excludes(a, b) for a, b in pairs):
            message = (
                f"“{other.id}” asks for “{other.body['fact']}” again, right after “{one.id}”; "
                "give each the when that the other lacks, or take one out."
            )
            yield at_block(other, "asked-twice", message)


def _next_question(graph: Graph, node: Node) -> Node | None:
    """The question that comes right after another one, whatever is done where that fails; None if there is none."""
    index = max([node.index, *(edge.inside[1] - 1 for edge in node.edges if edge.loop < 0)]) + 1
    while index < len(graph.nodes) and graph.nodes[index].kind == "when":
        index += 1
    found = graph.nodes[index] if index < len(graph.nodes) else node
    if any(one.kind == "go" for edge in node.edges for one in graph.nodes[slice(*edge.inside)]):
        return None  # it is asked once more until it is met
    same = found.file == node.file and found.id.rpartition("/")[0] == node.id.rpartition("/")[0]
    return found if found.kind in ASKING and found is not node and same else None
