"""What is known and what is held on every way to a block, and on some way: one bit a fact, no sets of cases.

A forward dataflow analysis, its meet over the ways into a block: intersection for every way, union for some way
(Kildall 1973). It is quick at any size, and coarse: it does not see that two conditions go together.
"""

from dataclasses import dataclass

from guide.checker.bounds import conditions_at
from guide.procedure.conditions import All, AnyOf, Condition, IsKnown, Not
from guide.procedure.graph import Edge, Graph, Node

ASKING = ("ask", "time", "check")


@dataclass(frozen=True, slots=True)
class Bits:
    """One bit for each asked fact that is known, and for each fact that was read back since it changed."""

    known: int
    held: int


class EveryWay:
    """The bits on every way and on some way to each node of a graph."""

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.bit = {name: 1 << number for number, name in enumerate(graph.facts)}
        self._needed = {name: self._needs(name) for name in graph.facts}
        self._changes = dict(self.bit)
        for name, fact in graph.facts.items():
            for one in graph.inputs_of(name) if fact.worked else ():
                self._changes[one] |= self.bit[name]
        self.always = self._solve(meet=True)
        """The bits on every way to each node; None where no way leads."""
        self.sometimes = self._solve(meet=False)

    def _needs(self, name: str) -> int:
        """The asked facts without which a fact is not known."""
        fact = self.graph.facts[name]
        if not fact.worked:
            return self.bit[name]
        found = 0
        for wanted, filler in fact.using.items():
            if not filler.startswith("=") and wanted not in fact.optional:
                found |= self._needs(filler)
        for columns in fact.rounds.values():
            found |= self._needs(columns[0])
        return found

    def knows(self, bits: Bits, name: str) -> bool:
        """Whether a fact has a value by these bits."""
        return self._needed[name] & ~bits.known == 0

    def holds(self, bits: Bits, name: str) -> bool:
        """Whether a fact was read back since it changed, by these bits."""
        return bool(bits.held & self.bit[name])

    def _solve(self, *, meet: bool) -> list[Bits | None]:
        nodes = self.graph.nodes
        found: list[Bits | None] = [None] * len(nodes)
        found[0] = Bits(0, 0)
        changed = True
        while changed:
            changed = False
            for node in nodes:
                here = found[node.index]
                if here is None:
                    continue
                after = self._after(node, here)
                for number, edge in enumerate(node.edges):
                    come = self._along(node, number, edge, after)
                    before = found[edge.target]
                    joined = come if before is None else _joined(before, come, meet=meet)
                    if joined != before:
                        found[edge.target] = joined
                        changed = True
        return found

    def _after(self, node: Node, bits: Bits) -> Bits:
        """The bits after a node: what it shows was known, or the run would have stopped."""
        known, held = bits.known, bits.held
        for name in node.shows:
            known |= self._needed[name]
        name = node.body.get("fact", "")
        fact = self.graph.facts.get(name)
        if node.kind in ASKING and fact is not None and not fact.worked:
            known |= self.bit[name]
            held &= ~self._changes[name]
        elif node.kind == "turn":
            for lost in node.body["forgets"]:
                known &= ~self.bit[lost]
                held &= ~self._changes[lost]
            known |= self.bit[node.body["turn"]]
            held &= ~self._changes[node.body["turn"]]
        elif node.kind == "hold":
            for shown in node.shows:
                held |= self.bit[shown]
        return Bits(known, held)

    def _along(self, node: Node, number: int, edge: Edge, bits: Bits) -> Bits:
        known = bits.known
        conditions = conditions_at(self.graph, node)
        for condition in conditions[: 1 if node.kind != "by_case" else number + 1]:
            for name in surely_read(condition):
                known |= self._needed[name]
        if conditions and (node.kind != "by_case" or number < len(conditions)):
            true = number == 0 or node.kind == "by_case"
            known |= self._learnt(conditions[number if node.kind == "by_case" else 0], true)
        return Bits(known, bits.held)

    def _learnt(self, condition: Condition, true: bool) -> int:
        """The facts that are known because a condition holds, or because it does not."""
        if isinstance(condition, Not):
            return self._learnt(condition.part, not true)
        if isinstance(condition, IsKnown):
            return self._needed[condition.fact] if true else 0
        if isinstance(condition, All if true else AnyOf):
            found = 0
            for part in condition.parts:
                found |= self._learnt(part, true)
            return found
        if isinstance(condition, All | AnyOf):
            return 0
        return self._needed[condition.fact]


def surely_read(condition: Condition) -> list[str]:
    """The facts whose value a condition needs whatever the others are: conditions are read in order, and no
    further than needed."""
    if isinstance(condition, Not):
        return surely_read(condition.part)
    if isinstance(condition, All | AnyOf):
        return surely_read(condition.parts[0])
    if isinstance(condition, IsKnown):
        return []
    other = getattr(condition, "other", None)
    return [condition.fact, *([other] if isinstance(other, str) else [])]


def _joined(one: Bits, other: Bits, *, meet: bool) -> Bits:
    if meet:
        return Bits(one.known & other.known, one.held & other.held)
    return Bits(one.known | other.known, one.held | other.held)
