"""Rules of what a cut rests on: a list that is worth nothing, and a list that leaves something out."""

from collections.abc import Iterator
from typing import ClassVar

from guide.procedure.checker.decisions import conditions_at, facts_needed
from guide.procedure.checker.manual import Rule
from guide.procedure.findings import WARNING, Finding
from guide.procedure.graph import Graph, Node

FEWEST_CUTS = 3
"""Of two cuts, neither shows what is usual."""


class ReadsWithoutCut(Rule):
    """A step lists what a cut rests on, and does not say that it cuts.

    `reads` matters to a cut alone. Where `cuts: true` is missing, nobody says when cutting begins, no hold has
    to read anything back, and a changed answer does not stop the run.

    Do: add `cuts: true`, or take `reads` out.

    Fails:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - do: {id: drill, text: Drill the leaf., reads: [width]}   # here
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: how-wide, fact: width}
          - hold: {id: before, reads_back: [width]}
          - do: {id: drill, text: Drill the leaf., cuts: true, reads: [width], hazards: [drilling]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "reads-without-cut"
    level: ClassVar[str] = WARNING
    message: ClassVar[str] = (
        "“{id}” lists what a cut rests on and does not cut; add cuts: true, or take reads out."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each step with `reads` and without `cuts`."""
        for node in graph.nodes:
            if node.body.get("reads") and not node.body.get("cuts"):
                yield _said(node, cls, cls.message.format(id=node.id))


class CutBasisShort(Rule):
    """A branch decides which cut is made, and the cut does not rest on what decided it.

    A pilot hole is drilled because the leaf is timber. If the leaf turns out to be steel, the hole is wrong;
    the run can only say so where the cut names the leaf among what it rests on.

    Do: add the fact to the cut's `reads`, and read it back in the hold.

    Fails:

        facts:
          leaf: {choice: {wood: Timber, steel: Steel}, ask: What is the leaf?}
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: made-of, fact: leaf}
          - ask: {id: how-wide, fact: width}
          - hold: {id: before, reads_back: [leaf, width]}
          - do:
              id: pilot-hole   # here
              when: {leaf: wood}
              text: Drill a pilot hole.
              cuts: true
              reads: [width]
              hazards: [drilling]
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          leaf: {choice: {wood: Timber, steel: Steel}, ask: What is the leaf?}
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: made-of, fact: leaf}
          - ask: {id: how-wide, fact: width}
          - hold: {id: before, reads_back: [leaf, width]}
          - do:
              id: pilot-hole
              when: {leaf: wood}
              text: Drill a pilot hole.
              cuts: true
              reads: [leaf, width]
              hazards: [drilling]
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "cut-basis-short"
    level: ClassVar[str] = WARNING
    message: ClassVar[str] = (
        "“{id}” cuts because of “{detail}”, and does not rest on it; add it to reads."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each cut inside a branch that was decided after the last hold, by a fact it does not name."""
        for node in graph.nodes:
            if node.body.get("cuts"):
                rests = {*node.shows, *(i for name in node.shows for i in graph.inputs_of(name))}
                for name in _deciding(graph, node):
                    if name not in rests and not _all_from(graph, name, rests):
                        yield _said(node, cls, cls.message.format(id=node.id, detail=name))


class CutBasisOdd(Rule):
    """One cut leaves out a fact that every other cut rests on.

    What all the other holes depend on, such as the side of the hinges, this one mostly depends on too. Left
    out, a changed answer stops the run at the other holes and not at this one.

    Do: add the fact to the cut's `reads`. Where the cut is the same whatever the answer, accept the
    finding, with the reason.

    Fails:

        facts:
          hand: {choice: {left: Left, right: Right}, ask: Which edge has the hinges?}
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: which-hand, fact: hand}
          - ask: {id: how-wide, fact: width}
          - hold: {id: before, reads_back: [hand, width]}
          - do: {id: punch, text: Punch the marks., cuts: true, reads: [hand, width], hazards: [drilling]}
          - do: {id: pilots, text: Drill the pilots., cuts: true, reads: [hand, width], hazards: [drilling]}
          - do:
              id: open-up   # here
              text: Open the holes up.
              cuts: true
              reads: [width]
              hazards: [drilling]
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          hand: {choice: {left: Left, right: Right}, ask: Which edge has the hinges?}
          width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}
        steps:
          - ask: {id: which-hand, fact: hand}
          - ask: {id: how-wide, fact: width}
          - hold: {id: before, reads_back: [hand, width]}
          - do: {id: punch, text: Punch the marks., cuts: true, reads: [hand, width], hazards: [drilling]}
          - do: {id: pilots, text: Drill the pilots., cuts: true, reads: [hand, width], hazards: [drilling]}
          - do:
              id: open-up
              text: Open the holes up.
              cuts: true
              reads: [hand, width]
              hazards: [drilling]
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "cut-basis-odd"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "Every cut but “{id}” rests on “{detail}”; add it to reads, or accept this with the reason."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each cut that alone, of three or more, does not rest on a fact."""
        cuts: dict[tuple[str, int, int], Node] = {
            (node.file, node.line, node.column): node
            for node in graph.nodes
            if node.body.get("cuts")
        }
        if len(cuts) < FEWEST_CUTS:
            return
        for name in graph.facts:
            without = [node for node in cuts.values() if name not in node.shows]
            if len(without) == 1:
                (node,) = without
                yield _said(node, cls, cls.message.format(id=node.id, detail=name))


def _deciding(graph: Graph, cut: Node) -> Iterator[str]:
    """The facts by which the branches around a cut are taken, as far back as the last hold."""
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
    """Whether a computed fact comes from nothing but what a cut rests on."""
    inputs = graph.facts[name].input_facts()
    return bool(inputs) and all(one in rests or _all_from(graph, one, rests) for one in inputs)


def _said(node: Node, rule: type[Rule], message: str) -> Finding:
    return Finding(node.file, node.line, node.column, rule.code, rule.level, message)


RULES = (ReadsWithoutCut, CutBasisShort, CutBasisOdd)
