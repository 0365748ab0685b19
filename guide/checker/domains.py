"""Finite abstraction of a fact's values, by equivalence classes: labels, thresholds named anywhere, and ranges between.

Two values of one class (cell) take the same way everywhere, so one sample of each class covers them all.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from guide import measures
from guide.checker.intervals import Ends, Interval, combined, only, whole_numbers
from guide.measures import Quantity
from guide.procedure.arithmetic import weights
from guide.procedure.conditions import (
    Against,
    All,
    AnyOf,
    Between,
    Compare,
    Condition,
    Not,
    value_kind,
)
from guide.procedure.facts import MEASURED, NONE, UNSURE, Fact, Value
from guide.procedure.graph import Graph
from guide.trade import registry
from guide.trade.computation import Computation


@dataclass(frozen=True, slots=True)
class Cell:
    """An equivalence class: values of a fact that nothing in the procedure can tell apart."""

    sample: Value
    """One of them."""
    said: str
    """A label's own word, or the sample's; see `said_cells` for cells of a measure."""
    low: Fraction | None = None
    """For numbers: the threshold below, in base units; None if there is none."""
    high: Fraction | None = None
    point: bool = False
    """Whether the cell is one threshold by itself: `low` and `high` are then that value."""
    number: bool = False

    def has(self, value: Value) -> bool:
        """Whether a value lies in this cell."""
        if not self.number or isinstance(value, str):
            return self.sample == value
        number = base(value)
        if self.point:
            return number == self.low
        return (self.low is None or number > self.low) and (self.high is None or number < self.high)


def interval_of(cell: Cell, ends: Interval) -> Interval:
    """Between which numbers the values of a cell lie, for a fact that lies between these ends."""
    if cell.point:
        return Interval(cell.low, cell.low)
    found = Interval(
        ends.low if cell.low is None else cell.low,
        ends.high if cell.high is None else cell.high,
        cell.low is not None,
        cell.high is not None,
    )
    return whole_numbers(found) if isinstance(cell.sample, int) else found


def cuts_of(graph: Graph, ends: Ends) -> dict[str, set[Fraction]]:
    """Every constant that a condition compares each fact with, and every limit or threshold of a
    computation it feeds, in base units."""
    found: dict[str, set[Fraction]] = {}
    for condition in every_condition(graph):
        for name, value in _constants(condition):
            found.setdefault(name, set()).add(base(value))
    for fact in graph.facts.values():
        if fact.worked and not fact.operation:
            _computation_cuts(found, fact, registry.find(fact.computation))
    _share_cuts(graph, ends, found)
    _cut_terms(graph, ends, found)
    return found


def every_comparison(graph: Graph) -> list[Against]:
    """Every comparison of two facts, each once."""
    found: dict[Against, None] = {}
    todo = list(every_condition(graph))
    while todo:
        condition = todo.pop(0)
        if isinstance(condition, All | AnyOf):
            todo += condition.parts
        elif isinstance(condition, Not):
            todo.append(condition.part)
        elif isinstance(condition, Against):
            found[condition] = None
    return list(found)


def offset_of(condition: Against) -> Fraction:
    """What is added to the other fact, in base units."""
    return base(condition.offset) if condition.offset is not None else Fraction(0)


def _share_cuts(graph: Graph, ends: Ends, found: dict[str, set[Fraction]]) -> None:
    """Cut facts that are compared at the same places, and at the ends of their ranges: then most pairs of cells
    stand one way only."""
    before = {name: set(cuts) for name, cuts in found.items()}
    for one in every_comparison(graph):
        offset = offset_of(one)
        for name, other, sign in ((one.fact, one.other, 1), (one.other, one.fact, -1)):
            its_ends = (ends[other].low, ends[other].high)
            shared = before.get(other, set()) | {end for end in its_ends if end is not None}
            found.setdefault(name, set()).update(cut + sign * offset for cut in shared)


def _cut_terms(graph: Graph, ends: Ends, found: dict[str, set[Fraction]]) -> None:
    """Cut the terms of arithmetic where its own cuts come about, the other terms being at an end."""
    todo = [fact for fact in graph.facts.values() if fact.operation]
    while todo:
        fact = todo.pop()
        factors, _ = weights(fact)
        for name, factor in factors.items():
            if not factor:
                continue
            rest = combined(fact, {**ends, name: only(Fraction(0))})
            fresh = {
                (cut - end) / factor
                for cut in found.get(fact.name, ())
                for end in (rest.low, rest.high)
                if end is not None
            }
            if fresh - found.get(name, set()):
                found.setdefault(name, set()).update(fresh)
                if graph.facts[name].operation:
                    todo.append(graph.facts[name])


def _computation_cuts(
    found: dict[str, set[Fraction]], fact: Fact, computation: Computation
) -> None:
    for wanted in computation.inputs:
        filler = fact.using.get(wanted.name, "=")
        if filler.startswith("="):
            continue
        limits = [limit for limit in (wanted.low, wanted.high) if limit is not None]
        limits += [limit for name, limit in computation.thresholds if name == wanted.name]
        found.setdefault(filler, set()).update(base(limit) for limit in limits)


def every_condition(graph: Graph) -> Iterator[Condition]:
    """Every guard, limit and `until` of the graph."""
    for node in graph.nodes:
        for edge in node.edges:
            if edge.guard is not None:
                yield edge.guard
    yield from graph.limits.values()
    yield from graph.untils.values()


def _constants(condition: Condition) -> Iterator[tuple[str, Quantity | int]]:
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from _constants(part)
    elif isinstance(condition, Not):
        yield from _constants(condition.part)
    elif isinstance(condition, Compare):
        yield condition.fact, condition.value
    elif isinstance(condition, Between):
        yield condition.fact, condition.low
        yield condition.fact, condition.high


def base(value: Quantity | int) -> Fraction:
    """The value in its kind's base unit."""
    return value.base if isinstance(value, Quantity) else Fraction(value)


def cells_of(fact: Fact, cuts: Iterable[Fraction], ends: Interval) -> list[Cell]:
    """The cells of a fact that lies between some ends, `unsure` or `none` last."""
    tail = []
    if fact.worked:
        tail = [Cell(NONE, "no answer")]
    elif fact.unsure:
        tail = [Cell(UNSURE, "not known")]
    kind = value_kind(fact)
    if kind in ("choice", "yesno"):
        labels = fact.gives_labels if fact.worked else tuple(fact.options)
        return [*(Cell(label, label) for label in labels), *tail]
    if kind == "count" or kind in MEASURED:
        return [*_number_cells(fact, kind, sorted(set(cuts)), ends), *tail]
    return [Cell("some words", "any words"), *tail]


def _number_cells(fact: Fact, kind: str, cuts: list[Fraction], ends: Interval) -> list[Cell]:
    low, high = ends.low, ends.high
    inside = [c for c in cuts if (low is None or c >= low) and (high is None or c <= high)]
    cells: list[Cell] = []
    edges: list[Fraction | None] = [*inside]
    before: Fraction | None = None
    for place in range(len(edges) + 1):
        after = edges[place] if place < len(edges) else None
        between = _between(fact, kind, before, after, low, high)
        if between is not None:
            cells.append(Cell(between, str(between), before, after, number=True))
        if after is not None:
            point = _value(fact, kind, after)
            if point is not None:
                cells.append(Cell(point, str(point), after, after, point=True, number=True))
        before = after
    return cells


def _between(
    fact: Fact,
    kind: str,
    before: Fraction | None,
    after: Fraction | None,
    low: Fraction | None,
    high: Fraction | None,
) -> Value | None:
    """A value strictly between two thresholds and within the fact's range; None if there is none."""
    bottom, open_bottom = (before, True) if before is not None else (low, False)
    top, open_top = (after, True) if after is not None else (high, False)
    if bottom is None:
        bottom = Fraction(0) if top is None or top > 0 else top - 1000
        open_bottom = False
    if top is None:
        top, open_top = bottom + 1000, False
    if bottom > top or (bottom == top and (open_bottom or open_top)):
        return None
    for number in _candidates(fact, kind, bottom, top):
        above = number > bottom or (number == bottom and not open_bottom)
        below = number < top or (number == top and not open_top)
        if above and below:
            value = _value(fact, kind, number)
            if value is not None:
                return value
    return None


def _candidates(fact: Fact, kind: str, bottom: Fraction, top: Fraction) -> Iterator[Fraction]:
    """Numbers to try between two ends, the plainest first."""
    middle = (bottom + top) / 2
    if fact.usual is not None:
        low, high = (end.base for end in fact.usual)
        yield from (max(low, bottom), min(high, top))
    if kind == "count":
        yield from (Fraction(int(bottom)), Fraction(int(bottom) + 1), Fraction(int(top)))
        return
    grid = fact.step.base if fact.step is not None else Fraction(1)
    for fine in (grid * 16, grid * 4, grid) if fact.step is not None else (grid, grid / 10):
        yield (middle // fine) * fine
        yield (middle // fine + 1) * fine
    yield from ((bottom // grid) * grid, (bottom // grid + 1) * grid, (top // grid) * grid)
    yield from (bottom, top, middle)


def _value(fact: Fact, kind: str, number: Fraction) -> Value | None:
    """The number as a value that the fact accepts; None if none of its scales can write it."""
    if kind == "count":
        return int(number) if number.denominator == 1 else None
    for unit in _units(kind):
        value = Quantity(number / Quantity(Fraction(1), unit).base, unit)
        if fact.worked or fact.takes(value):
            return value
    return None


@lru_cache(maxsize=16)
def _units(kind: str) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(
            (
                measures.home_unit(kind, "inch"),
                measures.home_unit(kind, "metric"),
                *measures.units_of(kind),
            )
        )
    )


def said_cells(kind: str, cells: list[Cell]) -> str:
    """Some cells of one fact in words: `left or right`, `over 48 in`, `24 in to 36 in`."""
    numbers = [cell for cell in cells if cell.number]
    words = [cell.said for cell in cells if not cell.number]
    if numbers:
        words.insert(0, _said_numbers(kind, numbers[0], numbers[-1]))
    return " or ".join(words)


def _said_numbers(kind: str, first: Cell, last: Cell) -> str:
    low, high = first.low, last.high
    if low is None and high is None:
        return "any"
    if low is not None and low == high:
        return _written(kind, low)
    if low is None and high is not None:
        return f"{'up to' if last.point else 'under'} {_written(kind, high)}"
    if high is None and low is not None:
        return f"{'from' if first.point else 'over'} {_written(kind, low)}"
    assert low is not None
    assert high is not None
    start = f"{'from' if first.point else 'over'} {_written(kind, low)}"
    return f"{start} {'to' if last.point else 'and under'} {_written(kind, high)}"


def _written(kind: str, number: Fraction) -> str:
    """A threshold in whichever unit writes it shortest."""
    if kind == "count":
        return str(number)
    homes = (measures.home_unit(kind, "inch"), measures.home_unit(kind, "metric"))
    writings = [str(Quantity(number / Quantity(Fraction(1), unit).base, unit)) for unit in homes]
    return min(writings, key=len)
