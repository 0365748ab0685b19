"""Rules of hazards: what is dangerous is warned of as gravely as it deserves."""

from collections.abc import Iterator

from guide.procedure.checker.manual import at_block
from guide.procedure.findings import Finding
from guide.procedure.graph import Graph

GRAVITY = ("notice", "caution", "warning", "danger")
"""Signal words, the mildest first (after ANSI Z535.6, from memory): a notice is not about people; a caution
is about what can hurt, a warning about what can kill or maim, a danger about what will."""

LEAST = {
    "drilling": "warning",
    "ladder": "warning",
    "spring": "warning",
    "dust": "warning",
    "electrical": "warning",
    "fire-door": "caution",
}
"""The mildest signal word each hazard takes. Common practice."""


def caution_weak(graph: Graph) -> Iterator[Finding]:
    """Each step whose gravest caution is milder than one of its hazards takes."""
    for node in graph.nodes:
        words = [word for caution in node.body.get("caution", ()) for word in caution]
        if not words:
            continue
        gravest = max(words, key=GRAVITY.index)
        for hazard in node.body.get("hazards", ()):
            least = LEAST[hazard]
            if GRAVITY.index(gravest) < GRAVITY.index(least):
                message = (
                    f"“{node.id}” has the hazard {hazard}, and its own caution says no more than {gravest}; "
                    f"write {least} or graver."
                )
                yield at_block(node, "caution-weak", message)
                break


def hazard_missing(graph: Graph) -> Iterator[Finding]:
    """Each cut without hazards."""
    for node in graph.nodes:
        if node.body.get("cuts") and not node.body.get("hazards"):
            message = f"“{node.id}” cuts and names no hazard; add hazards."
            yield at_block(node, "hazard-missing", message)
