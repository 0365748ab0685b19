"""From a case that breaks a property to the answers that lead there, so that it can be replayed."""

from collections.abc import Callable
from dataclasses import dataclass

from guide.procedure.checker.diagram import EVERYTHING, NOTHING
from guide.procedure.checker.reach import Reach
from guide.procedure.facts import Value
from guide.procedure.graph import Graph


@dataclass(frozen=True, slots=True)
class Stop:
    """One node on the way, with the answer given there."""

    node: int
    answer: Value | None
    """None where the node asks nothing."""


Replay = Callable[[Graph, list[Stop], str, str], bool]
"""Carries the real engine along a way and says whether the property of this code, with this detail, is
broken at its last node."""


def smallest(reach: Reach, bad: int, cases: int) -> dict[int, list[int]]:
    """The fewest and widest literals such that every case that comes here with them breaks the property.

    `bad` is the part of `cases` that breaks it. Greedy: the latest facts are dropped first, then the values
    left are widened to their neighbours.
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


def _cube(reach: Reach, case: dict[int, int]) -> int:
    found = EVERYTHING
    for level, value in case.items():
        found = reach.flow.sets.both(found, reach.flow.sets.values(level, (value,)))
    return found


def way_to(reach: Reach, index: int, wanted: int, *, after: bool) -> list[Stop]:
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


def _first_lot(reach: Reach, index: int, wanted: int, *, after: bool) -> tuple[int, int]:
    for moment, lot in reach.lots[index]:
        there = reach.flow.written(index, lot) if after else lot
        if reach.flow.sets.both(there, wanted) != NOTHING:
            return moment, lot
    raise LookupError("no case comes there")


def _came_from(reach: Reach, index: int, here: int, moment: int) -> tuple[int, int, int, int]:
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


def _before_answer(reach: Reach, index: int, lot: int, after: int) -> tuple[int, Value | None]:
    """The cases before a node's answer that it can turn into these, and the answer it takes."""
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
