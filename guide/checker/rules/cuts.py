"""Rules of work that cannot be undone: what cuts, and what a cut depends on."""

import re
from collections.abc import Iterator

from guide.checker.bounds import conditions_at, facts_needed
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.graph import Graph, Node

FEWEST_CUTS = 3
"""Of two cuts, neither shows what is usual."""


_CUTTING = re.compile(
    r"(?:^|[.:;] )(?P<verb>(?:re-?)?(?:drill|punch|saw|rout|mill|chisel)"
    r"|tap (?:the|each|every|all|both|\w+ holes?)\b(?! lightly)|cut)(?= |$)(?P<what>[^.;]*)",
    re.IGNORECASE,
)
"""A sentence that begins with work that cannot be undone. “Tap along the head” only knocks."""
_NOT_THE_DOOR = re.compile(
    r"\b(nothing|no|none|paper|template|tape|card|string|cord|power|current|supply|off)\b",
    re.IGNORECASE,
)
"""What is refused, or is cut without harm to the door."""
_CUTTING_TOOLS = re.compile(
    r"\b(drills?|bits?|taps?|saws?|hole saw|punch|routers?|chisels?|mill|cutters?)\b", re.IGNORECASE
)


def _cutting(node: Node) -> str:
    """Why a step seems to cut; empty if it does not."""
    for found in _CUTTING.finditer(node.body["text"]):
        if not _NOT_THE_DOOR.search(found["what"]):
            return f"says “{found['verb'].split()[0].lower()}”"
    tools = node.body.get("tools", ())
    if "drilling" in node.body.get("hazards", ()) and (
        not tools or any(_CUTTING_TOOLS.search(tool) for tool in tools)
    ):
        return "has the hazard drilling"
    return ""


def reads_without_cut(graph: Graph) -> Iterator[Finding]:
    """Each step with `reads` and without `cuts`."""
    for node in graph.nodes:
        if node.body.get("reads") and not node.body.get("cuts"):
            message = (
                f"“{node.id}” lists what a cut depends on and does not cut; "
                "add cuts: true, or take reads out."
            )
            yield at_block(node, "reads-without-cut", message)


def cut_basis_none(graph: Graph) -> Iterator[Finding]:
    """Each cut that depends on no fact, so that no hold protects it."""
    for node in graph.nodes:
        if node.body.get("cuts") and not node.shows:
            message = (
                f"“{node.id}” cuts and depends on no fact, so that no hold is needed before it; "
                "list under reads what decides where and how it is cut."
            )
            yield at_block(node, "cut-basis-none", message)


def cuts_missing(graph: Graph) -> Iterator[Finding]:
    """Each `do` that cuts by its words or by its hazard, and does not say `cuts`."""
    for node in graph.nodes:
        told = node.body.get("cuts") or node.body.get("reads")  # the second is a finding itself
        if node.kind == "do" and not told:
            reason = _cutting(node)
            if reason:
                message = (
                    f"“{node.id}” {reason}, and does not say that it cuts; "
                    "add cuts: true and reads, or write the step otherwise."
                )
                yield at_block(node, "cuts-missing", message)


def cut_basis_short(graph: Graph) -> Iterator[Finding]:
    """Each cut inside a branch that was decided after the last hold, by a fact it does not name."""
    for node in graph.nodes:
        if node.body.get("cuts"):
            rests = {*node.shows, *(i for name in node.shows for i in graph.inputs_of(name))}
            for name in _deciding(graph, node):
                if name not in rests and not _all_from(graph, name, rests):
                    message = (
                        f"“{node.id}” cuts because of “{name}”, and does not list it; "
                        "add it to reads."
                    )
                    yield at_block(node, "cut-basis-short", message)


def cut_basis_odd(graph: Graph) -> Iterator[Finding]:
    """Each cut that alone, of three or more, does not depend on a fact."""
    cuts: dict[tuple[str, int, int], Node] = {
        (node.file, node.line, node.column): node for node in graph.nodes if node.body.get("cuts")
    }
    if len(cuts) < FEWEST_CUTS:
        return
    for name in graph.facts:
        without = [node for node in cuts.values() if name not in node.shows]
        if len(without) == 1:
            (node,) = without
            message = (
                f"Every cut but “{node.id}” depends on “{name}”; "
                "add it to reads, or accept this with the reason."
            )
            yield at_block(node, "cut-basis-odd", message)


def _deciding(graph: Graph, cut: Node) -> Iterator[str]:
    """The facts that decide the branches around a cut, as far back as the last hold."""
    last_hold = max(
        (node.index for node in graph.nodes[: cut.index] if node.kind == "hold"), default=-1
    )
    found: dict[str, None] = {}
    for node in graph.nodes[last_hold + 1 : cut.index]:
        if any(edge.inside[0] <= cut.index < edge.inside[1] for edge in node.edges):
            for condition in conditions_at(graph, node):
                found.update(dict.fromkeys(facts_needed(condition)))
    yield from found


def _all_from(graph: Graph, name: str, rests: set[str]) -> bool:
    """Whether a computed fact comes only from what a cut depends on."""
    inputs = graph.facts[name].input_facts()
    return bool(inputs) and all(one in rests or _all_from(graph, one, rests) for one in inputs)
