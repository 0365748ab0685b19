"""Which cases can come to each node, and from which an end can still be reached."""

import heapq
from collections.abc import Callable

from guide.procedure.checker.diagram import EVERYTHING, NOTHING, SetsTooLarge
from guide.procedure.checker.flow import Flow

TIDY_EVERY = 400_000
"""Nodes made between two clearings of remembered results."""


class Reach:
    """Forward: the cases that come to each node, with when each lot of them first came."""

    def __init__(self, flow: Flow, *, refusing: bool = False) -> None:
        self.flow = flow
        self.refusing = refusing
        """Whether cases end where the run itself would refuse to go on, rather than being told of only."""
        count = len(flow.graph.nodes)
        self.cases = [NOTHING] * count
        self.lots: list[list[tuple[int, int]]] = [[] for _ in range(count)]
        """For each node: (moment, cases that had newly come by then), moments rising."""
        self.plain = flow.model.plain()
        """What is preferred for an example."""
        self.stopped_at: int | None = None
        """The first node not proved, where the bound was met."""
        self._run()

    def _run(self) -> None:
        flow, sets = self.flow, self.flow.sets
        nodes = flow.graph.nodes
        start = flow.at_start()
        self.cases[0] = start
        waiting = [NOTHING] * len(nodes)
        waiting[0] = start
        queue = [0]
        moment = 0
        tidied = 0
        index = 0
        try:
            while queue:
                index = heapq.heappop(queue)
                lot = waiting[index]
                if lot == NOTHING:
                    continue
                waiting[index] = NOTHING
                moment += 1
                self.lots[index].append((moment, lot))
                after = flow.written(index, self.going_on(index, lot))
                for number, edge in enumerate(nodes[index].edges):
                    come = flow.along(index, number, after)
                    fresh = sets.less(come, self.cases[edge.target])
                    if fresh == NOTHING:
                        continue
                    self.cases[edge.target] = sets.either(self.cases[edge.target], fresh)
                    if waiting[edge.target] == NOTHING:
                        heapq.heappush(queue, edge.target)
                    waiting[edge.target] = sets.either(waiting[edge.target], fresh)
                if len(sets.levels) - tidied > TIDY_EVERY:
                    sets.tidy()
                    tidied = len(sets.levels)
        except SetsTooLarge:
            self.stopped_at = index

    def going_on(self, index: int, lot: int) -> int:
        """Of the cases that come to a node, those that the run does not refuse there."""
        return self.flow.sets.less(lot, self.flow.refused(index)) if self.refusing else lot


def ending(flow: Flow, faults: Callable[[int], int]) -> list[int]:
    """For each node, the cases from which some answers lead to an end.

    `faults` gives the cases at a node that another finding already tells of: they count as ended, so
    that one mistake is told once. Raises SetsTooLarge past the bound.
    """
    sets, graph = flow.sets, flow.graph
    found = [NOTHING] * len(graph.nodes)
    queue: list[int] = []
    for node in graph.nodes:
        found[node.index] = EVERYTHING if node.kind == "end" else faults(node.index)
        if found[node.index] != NOTHING:
            heapq.heappush(queue, -node.index)
    waiting = {-place for place in queue}
    while queue:
        target = -heapq.heappop(queue)
        if target not in waiting:
            continue
        waiting.discard(target)
        for index, number in flow.into[target]:
            cases = _back(flow, index, number, found[target])
            joined = sets.either(found[index], cases)
            if joined != found[index]:
                found[index] = joined
                if index not in waiting:
                    waiting.add(index)
                    heapq.heappush(queue, -index)
    return found


def _back(flow: Flow, index: int, number: int, cases: int) -> int:
    """The cases at a node from which an edge leads into these cases at its target."""
    sets = flow.sets
    for loop, how in flow.counts[index][number]:
        level = flow.model.tries_level[loop]
        if how == "first":
            cases = sets.fix(cases, {level: 1})
        else:
            moves = {count + 1: count for count in range(sets.sizes[level] - 1)}
            cases = sets.moved(cases, level, moves)
    return flow.before(index, sets.both(cases, flow.passages[index].guards[number]))
