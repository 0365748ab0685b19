"""Rules of hazards: what is dangerous is warned of as gravely as it deserves."""

from collections.abc import Iterator
from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ADVICE, WARNING, Finding
from guide.procedure.graph import Graph, Node

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


class CautionWeak(Rule):
    """A step's own cautions are milder than its hazards.

    A step that writes no caution shows the usual one of its hazards. One that does stands by its own words:
    where those only say `notice` or `caution`, nobody is warned that a drill above the head can cost an eye.

    Do: use the signal word that the message names, or take the caution out and leave the usual one.

    Fails:

        steps:
          - do:
              id: lead-holes   # here
              text: Drill the lead holes.
              caution: {notice: Keep the chips off the carpet.}
              hazards: [drilling]
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do:
              id: lead-holes
              text: Drill the lead holes.
              caution: [{notice: Keep the chips off the carpet.}, {warning: Wear eye protection.}]
              hazards: [drilling]
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "caution-weak"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” has the hazard {hazard}, and its own caution says no more than {word}; write {least} or graver."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each step whose gravest caution is milder than one of its hazards takes."""
        for node in graph.nodes:
            words = [word for caution in node.body.get("caution", ()) for word in caution]
            if not words:
                continue
            gravest = max(words, key=GRAVITY.index)
            for hazard in node.body.get("hazards", ()):
                least = LEAST[hazard]
                if GRAVITY.index(gravest) < GRAVITY.index(least):
                    message = cls.message.format(
                        id=node.id, hazard=hazard, word=gravest, least=least
                    )
                    yield _said(node, cls, message)
                    break


class HazardMissing(Rule):
    """A step cuts, and names no hazard.

    What cannot be undone is done with a drill, a saw or a tap, mostly on a ladder. Without a hazard the step
    shows no usual caution.

    Do: name the hazards under `hazards`.

    Fails:

        steps:
          - do:
              id: drill   # here
              cuts: true
              text: Drill the leaf.
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do:
              id: drill
              cuts: true
              text: Drill the leaf.
              hazards: [drilling, ladder]
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "hazard-missing"
    level: ClassVar[str] = ADVICE
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = "“{id}” cuts and names no hazard; add hazards."

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each cut without hazards."""
        for node in graph.nodes:
            if node.body.get("cuts") and not node.body.get("hazards"):
                yield _said(node, cls, cls.message.format(id=node.id))


def _said(node: Node, rule: type[Rule], message: str) -> Finding:
    return Finding(node.file, node.line, node.column, rule.code, rule.level, message)


RULES = (CautionWeak, HazardMissing)
