"""Reachability: the cases that reach each node, those from which an end can be reached, and counter-example paths.

Forward reachability and backward liveness are least fixpoints over the graph, each computed with a worklist; the
sets of cases are multi-valued decision diagrams (diagram.py). The time at which cases first reached a node is kept,
so that a counter-example can be traced back to the start and replayed.
"""

import heapq
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from guide.checker.diagram import EVERYTHING, NOTHING, SetsTooLarge
from guide.checker.flow import Flow, Property
from guide.checker.model import CaseModel
from guide.procedure.facts import Value
from guide.procedure.graph import Graph

TIDY_EVERY = 400_000
"""Nodes made between two clearings of remembered results."""


class ReachableCases:
    """Forward reachability: the cases that come to each node, and when each lot of them first came.

    The least fixpoint, computed with a worklist in the order of the file: a node is visited again only with the
    cases that are new there.
    """

    def __init__(self, flow: Flow, *, refusing: bool = False) -> None:
        self.flow = flow
        self.refusing = refusing
        """Whether cases end where the run itself would refuse to go on, rather than only being reported."""
        count = len(flow.graph.nodes)
        self.cases = [NOTHING] * count
        self.lots: list[list[tuple[int, int]]] = [[] for _ in range(count)]
        """For each node: (moment, cases that had newly come by then), moments rising."""
        self.plain = flow.model.plain()
        """The values preferred in a counter-example."""
        self.stopped_at: int | None = None
        """The first node not proved, if the bound was met."""
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
    """Backward liveness: for each node, the cases from which some answers lead to an end.

    The least fixpoint, computed with a worklist from the last node to the first. `faults` gives the cases at a node
    that another finding already reports: they count as ended, so that one mistake is reported once. Raises SetsTooLarge
    past the bound.
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


def strongly_connected(ways: dict[int, list[int]]) -> Iterator[list[int]]:
    """Each part of a graph whose nodes all lead to one another: its strongly connected components (Tarjan 1972).

    Without recursion, since a graph may be longer than Python's stack is deep.
    """
    number: dict[int, int] = {}
    lowest: dict[int, int] = {}
    stack: list[int] = []
    on_stack: set[int] = set()
    for root in ways:
        if root in number:
            continue
        work = [(root, 0)]
        while work:
            node, place = work.pop()
            if place == 0:
                number[node] = lowest[node] = len(number)
                stack.append(node)
                on_stack.add(node)
            for position in range(place, len(ways[node])):
                target = ways[node][position]
                if target not in number:
                    work += [(node, position + 1), (target, 0)]
                    break
                if target in on_stack:
                    lowest[node] = min(lowest[node], number[target])
            else:
                if lowest[node] == number[node]:
                    part = []
                    while True:
                        member = stack.pop()
                        on_stack.discard(member)
                        part.append(member)
                        if member == node:
                            break
                    yield part
                if work:
                    parent = work[-1][0]
                    lowest[parent] = min(lowest[parent], lowest[node])


@dataclass(frozen=True, slots=True)
class Stop:
    """One node on the way from the start to a counter-example, with the answer given there."""

    node: int
    answer: Value | None
    """None if the node asks nothing."""


Replay = Callable[[Graph, list[Stop], str, str], bool]
"""Carries the real engine along a way and says whether the property of this code, with this detail, is
broken at its last node."""


def smallest(reach: ReachableCases, bad: int, cases: int) -> dict[int, list[int]]:
    """A counter-example made general: the fewest and widest literals with which every case that comes here
    breaks the property.

    The values allowed for each level of the diagram; a level that is left out may have any. `bad` is the part of
    `cases` that breaks it. Greedy: the latest facts are dropped first, then the values left are widened to their
    neighbours.
    """
    sets = reach.flow.sets

    def breaks(wanted: dict[int, list[int]]) -> bool:
        here = cases
        for level, values in wanted.items():
            here = sets.both(here, sets.values(level, values))
        return here != NOTHING and sets.less(here, bad) == NOTHING

    case = {level: [value] for level, value in sets.one(bad).items()}
    for level in sorted(case, reverse=True):
        fewer = {k: v for k, v in case.items() if k != level}
        if breaks(fewer):
            case = fewer
    for level, values in case.items():
        for value in range(values[0] - 1, -1, -1):
            if not breaks({**case, level: [value, *values]}):
                break
            values.insert(0, value)
        for value in range(values[-1] + 1, sets.sizes[level]):
            if not breaks({**case, level: [*values, value]}):
                break
            values.append(value)
    return case


def _cube(reach: ReachableCases, case: dict[int, int]) -> int:
    found = EVERYTHING
    for level, value in case.items():
        found = reach.flow.sets.both(found, reach.flow.sets.values(level, (value,)))
    return found


def way_to(reach: ReachableCases, index: int, wanted: int, *, after: bool) -> list[Stop]:
    """A way from the start to a node, coming there in one of the wanted cases.

    With `after`, the wanted cases are those after the node's own answer.
    """
    flow, sets = reach.flow, reach.flow.sets
    stops: list[Stop] = []
    last: Value | None = None
    moment, lot = _first_lot(reach, index, wanted, after=after)
    case = wanted
    if after:
        case, last = _before_answer(reach, index, lot, wanted)
    stops.append(Stop(index, last))
    here = sets.both(lot, case)
    while moment > 1:
        here = _cube(reach, sets.one(here, reach.plain))
        index, number, moment, lot = _came_from(reach, index, here, moment)
        written = sets.both(flow.written(index, lot), flow.passages[index].guards[number])
        for loop, how in flow.counts[index][number]:
            level = flow.model.tries_level[loop]
            if how == "first":
                here = sets.forget(here, 1 << level)
            else:
                moves = {count + 1: count for count in range(sets.sizes[level] - 1)}
                here = sets.moved(here, level, moves)
        here, answer = _before_answer(reach, index, lot, sets.both(written, here))
        stops.append(Stop(index, answer))
    stops.reverse()
    return stops


def _first_lot(reach: ReachableCases, index: int, wanted: int, *, after: bool) -> tuple[int, int]:
    for moment, lot in reach.lots[index]:
        there = reach.flow.written(index, lot) if after else lot
        if reach.flow.sets.both(there, wanted) != NOTHING:
            return moment, lot
    raise LookupError("no case comes there")


def _came_from(
    reach: ReachableCases, index: int, here: int, moment: int
) -> tuple[int, int, int, int]:
    """An edge and an earlier lot from which these cases came."""
    flow = reach.flow
    for source, number in flow.into[index]:
        for earlier, came in reach.lots[source]:
            if earlier >= moment:
                break
            lot = reach.going_on(source, came)
            come = flow.along(source, number, flow.written(source, lot))
            if flow.sets.both(come, here) != NOTHING:
                return source, number, earlier, lot
    raise LookupError("these cases came from nowhere")


def _before_answer(
    reach: ReachableCases, index: int, lot: int, after: int
) -> tuple[int, Value | None]:
    """The preimage of these cases under a node's answer, and that answer."""
    flow, sets = reach.flow, reach.flow.sets
    node = flow.graph.nodes[index]
    name = flow.asks(node)
    case = sets.one(sets.both(flow.written(index, lot), after), reach.plain)
    answer: Value | None = None
    if name:
        level = flow.model.fact_level[name]
        place = case.get(level, 1)
        answer = flow.model.cells[name][place - 1].sample
    forgotten = flow.passages[index].forget
    kept = {level: value for level, value in case.items() if not forgotten >> level & 1}
    return sets.both(lot, _cube(reach, kept)), answer


class Samples:
    """The same procedure with one value for each cell: fewer cases than there are, and every one of them real.

    The proof over-approximates a computed fact that cannot be tabled: it may have any value its computation may
    give. So its first counter-example may be one that no door has. Among samples every value is computed, which
    under-approximates: a way found here is real. Raises SetsTooLarge.
    """

    def __init__(self, graph: Graph, bound: int) -> None:
        self.model = CaseModel(graph, bound, sampled=True)
        self.reach = ReachableCases(Flow(self.model), refusing=True)

    def way_to_breach(self, index: int, prop: Property) -> list[Stop] | None:
        """A way to a node that breaks the property; None if no sample does."""
        flow = self.reach.flow
        for same in flow.passages[index].properties:
            if (same.code, same.detail) == (prop.code, prop.detail):
                cases = self.reach.cases[index]
                there = flow.written(index, cases) if same.after else cases
                bad = flow.sets.both(there, same.bad)
                if bad != NOTHING:
                    return way_to(self.reach, index, bad, after=same.after)
        return None

    def way_to_cases(self, index: int, model: CaseModel, cases: int) -> list[Stop] | None:
        """A way to a node in one of these cases of the proof's own model; None if no sample is one."""
        wanted = self.model.sets.both(self.reach.cases[index], self._taken_over(model, cases))
        return None if wanted == NOTHING else way_to(self.reach, index, wanted, after=False)

    def _taken_over(self, model: CaseModel, cases: int) -> int:
        """A set of the proof's own model as a set of samples: a free value becomes the computed one."""
        sets = self.model.sets

        @cache
        def over(a: int) -> int:
            if a in (NOTHING, EVERYTHING):
                return a
            found = NOTHING
            for value, kid in enumerate(model.sets.kids[a]):
                here = self.model.value_set(model.variables[model.sets.levels[a]], value)
                found = sets.either(found, sets.both(here, over(kid)))
            return found

        return over(cases)


def traps(ways: dict[int, list[int]], ends: Iterable[int] = ()) -> list[int]:
    """The first node of each strongly connected component that is never left again, without those of the `ends`."""
    parts = list(strongly_connected(ways))
    part_of = {index: number for number, part in enumerate(parts) for index in part}
    return [
        min(part)
        for number, part in enumerate(parts)
        if not {*part} & {*ends}
        and all(part_of[target] == number for index in part for target in ways[index])
    ]
