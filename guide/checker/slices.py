"""What can be told of a graph whose proof has met its bound: one property at a time, over few variables.

Localization: every variable but a few is forgotten after each step. The cases that remain are more than can come, so
a property that none of them breaks is proved. A property that all of them break is an error. Anything between is
looked at again with the variables of the conditions around it, and then stays open. What is known and held on every
way (every_way.py) is settled first, without sets.
"""

import copy
from collections.abc import Iterator
from dataclasses import dataclass

from guide.checker.diagram import NOTHING, SetsTooLarge
from guide.checker.every_way import Bits, EveryWay
from guide.checker.flow import Flow, Property
from guide.checker.reach import ReachableCases
from guide.procedure.graph import Graph, Node

LOOKED_AT = ("cut-without-hold", "fact-not-known", "case-missing", "input-out-of-domain")
"""The properties that could strand or hurt somebody, the gravest first."""
MOST_VARIABLES = 14
"""Variables of one slice."""
MOST_WIDER = 3
"""How often a slice is made wider."""
MOST_VISITS = 150_000
"""Nodes that are passed through in all slices together; past it a property stays open."""


@dataclass(frozen=True, slots=True)
class Open:
    """A property that some case of a slice breaks."""

    node: Node
    prop: Property
    reach: ReachableCases
    """The cases that come to each node of the slice."""
    bad: int
    """Those that break it."""
    there: int
    """All that come to it."""

    @property
    def certain(self) -> bool:
        """Whether every case breaks it, so that no wider slice could excuse it."""
        return self.bad == self.there


def open_properties(graph: Graph, flow: Flow) -> Iterator[Open]:
    """Each property of `LOOKED_AT` that is not proved by a slice, in that order."""
    ways = EveryWay(graph)
    slices = Slices(flow, refusing=True)
    for code in LOOKED_AT:
        for node in graph.nodes:
            always = ways.always[node.index]
            if always is None:
                continue
            for prop in flow.passages[node.index].properties:
                if prop.code == code and not _settled(ways, always, prop):
                    found = slices.look_at(node, prop)
                    if found is not None:
                        yield found


def _settled(ways: EveryWay, always: Bits, prop: Property) -> bool:
    """Whether a property holds by what is known and held on every way."""
    if prop.code == "cut-without-hold":
        return ways.holds(always, prop.detail)
    return prop.code == "fact-not-known" and bool(prop.detail) and ways.knows(always, prop.detail)


class Slices:
    """The slices of one flow, each made once. With `refusing` a case goes no further than its first fault."""

    def __init__(self, flow: Flow, *, refusing: bool) -> None:
        self.flow = flow
        self.refusing = refusing
        self.visits = 0
        self._made: dict[int, ReachableCases] = {}

    def look_at(self, node: Node, prop: Property) -> Open | None:
        """The property with the cases that break it; None if it is proved, or if there is no room to look."""
        flow, sets = self.flow, self.flow.sets
        if prop.bad == NOTHING:
            return None
        levels = flow.model.support(prop.bad) & flow.everything
        found: Open | None = None
        for _ in range(1 + MOST_WIDER):
            try:
                reach = self._slice(levels)
                if reach is None:
                    break
                cases = reach.cases[node.index]
                there = flow.written(node.index, cases) if prop.after else cases
                bad = sets.both(there, prop.bad)
                if bad == NOTHING:
                    return None
                found = Open(node, prop, reach, bad, there)
                wider = self._wider(levels, node)
            except SetsTooLarge:
                break
            if found.certain or wider == levels or wider.bit_count() > MOST_VARIABLES:
                break
            levels = wider
        return found

    def ways_taken(self, node: Node) -> list[bool]:
        """Whether some case may take each way out of a decision; False is certain, for the cases of a slice are more
        than can come."""
        flow, sets = self.flow, self.flow.sets
        guards = flow.passages[node.index].guards
        taken = [True] * len(guards)
        levels = 0
        for guard in guards:
            levels |= flow.model.support(guard) & flow.everything
        for _ in range(1 + MOST_WIDER):
            if levels.bit_count() > MOST_VARIABLES:
                break
            try:
                reach = self._slice(levels)
                if reach is None:
                    break
                after = flow.written(node.index, reach.cases[node.index])
                taken = [sets.both(after, guard) != NOTHING for guard in guards]
                wider = self._wider(levels, node)
            except SetsTooLarge:
                break
            if wider == levels or not all(taken):
                break
            levels = wider
        return taken

    def comes(self, node: Node) -> bool:
        """Whether some case may come to a node, by all slices that were made; False is certain."""
        return all(reach.cases[node.index] != NOTHING for reach in self._made.values())

    def _slice(self, levels: int) -> ReachableCases | None:
        if levels not in self._made:
            self.visits += len(self.flow.graph.nodes)
            if self.visits > MOST_VISITS:
                return None
            flow = copy.copy(self.flow)
            flow.live = [live & levels for live in flow.live]
            reach = ReachableCases(flow, refusing=self.refusing)
            if reach.stopped_at is not None:
                raise SetsTooLarge
            self._made[levels] = reach
        return self._made[levels]

    def _wider(self, levels: int, node: Node) -> int:
        """The variables with those of the conditions around the node, and around what writes one of them."""
        flow = self.flow
        found = levels
        places = [node.index]
        places += [i for i, passage in enumerate(flow.passages) if passage.forget & levels]
        for other in flow.graph.nodes:
            for number, edge in enumerate(other.edges):
                low, high = edge.inside
                if any(low <= place < high for place in places):
                    found |= flow.model.support(flow.passages[other.index].guards[number])
        return found & flow.everything
