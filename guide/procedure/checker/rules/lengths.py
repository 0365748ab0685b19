"""Rules of length: a step is taken in at a glance, and said in one breath."""

from collections.abc import Iterator

from guide.procedure.checker.manual import at_block
from guide.procedure.findings import Finding
from guide.procedure.graph import Graph

MOST_WORDS = 20
"""Words of a step. Common practice in writing instructions: one action, one short sentence."""
MOST_SPOKEN = 12
"""Words that are followed by ear at once; a longer step wants a short form to say."""


def step_long(graph: Graph) -> Iterator[Finding]:
    """Each step whose text has more words than `MOST_WORDS`."""
    for node in graph.nodes:
        count = len(node.body.get("text", "").split())
        if node.kind in ("do", "time", "check", "work") and count > MOST_WORDS:
            message = (
                f"“{node.id}” says {count} words, and a step has {MOST_WORDS} at most; "
                "make two steps of it."
            )
            yield at_block(node, "step-long", message)


def say_missing(graph: Graph) -> Iterator[Finding]:
    """Each `do` of more words than `MOST_SPOKEN` without a `say`."""
    for node in graph.nodes:
        count = len(node.body.get("text", "").split())
        if node.kind == "do" and count > MOST_SPOKEN and "say" not in node.body:
            message = f"“{node.id}” has {count} words and no short form to say; add say."
            yield at_block(node, "say-missing", message)
