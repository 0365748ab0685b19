"""Rules of length: a step is taken in at a glance, and said in one breath."""

from collections.abc import Iterator
from typing import ClassVar

from guide.procedure.checker.manual import Rule
from guide.procedure.findings import ADVICE, Finding
from guide.procedure.graph import Graph

MOST_WORDS = 20
"""Words of a step. Common practice in writing instructions: one action, one short sentence."""
MOST_SPOKEN = 12
"""Words that are followed by ear at once; a longer step wants a short form to say."""


class StepLong(Rule):
    """A step's text is longer than can be taken in at a glance.

    Whoever works with both hands reads one line and goes on. A long step is two steps, or a step and its why.

    Do: make two steps of it, or move reasons to `why` and mistakes to `watch`.

    Fails:

        steps:
          - do:
              id: hang-body   # here
              text: >-
                Lift the body to its holes, start all of its screws by hand so that none binds, and then tighten
                them in turn from corner to corner.
              say: Hang the body.
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do:
              id: hang-body
              text: Lift the body to its holes and start all of its screws by hand.
              say: Hang the body.
          - do: {id: tighten, text: Tighten the screws in turn from corner to corner.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "step-long"
    level: ClassVar[str] = ADVICE
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” says {count} words, and a step has {most} at most; make two steps of it."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each step whose text has more words than `MOST_WORDS`."""
        for node in graph.nodes:
            count = len(node.body.get("text", "").split())
            if node.kind in ("do", "time", "check", "work") and count > MOST_WORDS:
                message = cls.message.format(id=node.id, count=count, most=MOST_WORDS)
                yield Finding(node.file, node.line, node.column, cls.code, cls.level, message)


class SayMissing(Rule):
    """A longer step has no short form to say.

    Spoken, the whole text is read out; before its end the beginning is forgotten.

    Do: add the short words under `say`.

    Fails:

        steps:
          - do:
              id: hang-body   # here
              text: Lift the body to its holes and start all of its screws by hand.
          - end: {id: done, outcome: finished}

    Passes:

        steps:
          - do:
              id: hang-body
              text: Lift the body to its holes and start all of its screws by hand.
              say: Body up. Start all screws.
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "say-missing"
    level: ClassVar[str] = ADVICE
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = "“{id}” has {count} words and no short form to say; add say."

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each `do` of more words than `MOST_SPOKEN` without a `say`."""
        for node in graph.nodes:
            count = len(node.body.get("text", "").split())
            if node.kind == "do" and count > MOST_SPOKEN and "say" not in node.body:
                message = cls.message.format(id=node.id, count=count)
                yield Finding(node.file, node.line, node.column, cls.code, cls.level, message)


RULES = (StepLong, SayMissing)
