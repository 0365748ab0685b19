"""Computed numbers that no table holds: where such a number can lie for each combination of its inputs' cells.

The number is a free variable of the sets. For a combination of cells it lands in some of its own cells only; a value
of the variable beyond them counts as the nearest of them. So what the inputs decide is decided, and nothing else is.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from guide.checker.cases import Cases
from guide.checker.diagram import EVERYTHING, NOTHING
from guide.checker.domains import Cell, base, interval_of
from guide.checker.intervals import (
    Interval,
    combined,
    extent,
    fixed,
    interval,
    label_given,
)
from guide.procedure.conditions import value_kind
from guide.procedure.facts import MEASURED, NONE, UNSURE, Fact
from guide.trade import registry
from guide.trade.computation import Computation, Input, RangedInput
from guide.trade.extent import extent_of, has_extent

MOST_COMBINATIONS = 1_500
"""Combinations of cells that are looked at one by one; beyond, a number may be anything in its whole range."""

Allowed = tuple[int, int, bool]
"""The first and the last cell of numbers, and whether there may be no answer; (1, 0, True) for none at all."""
NO_ANSWER: Allowed = (1, 0, True)


@dataclass(frozen=True, slots=True)
class Landing:
    """Some cases, and the cells a computed number can lie in there."""

    cases: int
    allowed: Allowed

    def place(self, value: int, none: int) -> int:
        """The cell that a value of the free variable counts as; `none` is the place of no answer."""
        first, last, may_fail = self.allowed
        if first > last or (value == none and may_fail):
            return none
        return first if value == none else min(max(value, first), last)


def landings(model: Cases, name: str) -> list[Landing]:
    """Where a free number lands; empty where nothing is known of it, and for what has no number."""
    fact = model.graph.facts[name]
    numbers = value_kind(fact) in MEASURED or value_kind(fact) == "count"
    if not numbers or model.by_rounds(name):
        return []
    find = _of_formula if fact.operation else _of_computation
    groups: dict[Allowed, int] = {}
    for cases, allowed in find(model, fact):
        groups[allowed] = model.sets.either(groups.get(allowed, NOTHING), cases)
    return [Landing(cases, allowed) for allowed, cases in groups.items()]


def anywhere(model: Cases, name: str) -> bool:
    """Whether a free number can be anything in some case: nothing is known of its range."""
    fact = model.graph.facts[name]
    numbers = value_kind(fact) in MEASURED or value_kind(fact) == "count"
    return numbers and model.ends[name] == Interval()


def _cells_meeting(model: Cases, fact: Fact, found: Interval) -> tuple[int, int]:
    """The first and last cell of numbers that some number of the interval lies in."""
    ends = model.ends[fact.name]
    places = [
        place
        for place, cell in enumerate(model.cells[fact.name])
        if cell.number and interval_of(cell, ends).meets(found)
    ]
    return (places[0], places[-1]) if places else (0, len(model.cells[fact.name]) - 2)


# --- arithmetic ---


def _of_formula(model: Cases, fact: Fact) -> Iterator[tuple[int, Allowed]]:
    names = list(dict.fromkeys(fact.input_facts()))
    ways = [_ways_of(model, name) for name in names]
    if math.prod(len(way) for way in ways) > MOST_COMBINATIONS:
        ways = [_whole(model, name) for name in names]
    for cases, chosen in _combinations(model, ways):
        if None in chosen:
            yield cases, NO_ANSWER
            continue
        terms = {n: one for n, one in zip(names, chosen, strict=True) if one is not None}
        yield cases, (*_cells_meeting(model, fact, combined(fact, terms)), False)


Way = tuple[int, Interval | None]
"""Some cases of one input, and where it lies there; None where it is not known or has no answer."""


def _ways_of(model: Cases, name: str) -> list[Way]:
    ends = model.ends[name]
    return [
        (model.cell_set(name, cell.has), interval_of(cell, ends) if cell.number else None)
        for cell in model.cells[name]
    ]


def _whole(model: Cases, name: str) -> list[Way]:
    """One way for every number together, and one for none."""
    numbers = model.cell_set(name, lambda value: not isinstance(value, str))
    words = model.cell_set(name, lambda value: isinstance(value, str))
    return [(numbers, model.ends[name]), (words, None)]


def _combinations(
    model: Cases, ways: list[list[Way]]
) -> Iterator[tuple[int, list[Interval | None]]]:
    if not ways:
        yield EVERYTHING, []
        return
    for rest, chosen in _combinations(model, ways[1:]):
        for cases, one in ways[0]:
            both = model.sets.both(cases, rest)
            if both != NOTHING:
                yield both, [one, *chosen]


# --- computations ---

InputWay: TypeAlias = "tuple[int, str, RangedInput | None]"
"""Some cases of one input, its name, and what it is there: empty if left out, None if there can be no answer."""


def _of_computation(model: Cases, fact: Fact) -> Iterator[tuple[int, Allowed]]:
    computation = registry.find(fact.computation)
    if not has_extent(computation):
        return
    ways = [_given(model, fact, wanted, one_by_one=True) for wanted in computation.inputs]
    if math.prod(len(way) for way in ways) > MOST_COMBINATIONS:
        ways = [_given(model, fact, wanted, one_by_one=False) for wanted in computation.inputs]
    if math.prod(len(way) for way in ways) > MOST_COMBINATIONS:
        return
    for cases, chosen in _all_given(model, ways):
        if any(one is None for _, one in chosen):
            yield cases, NO_ANSWER
            continue
        yield cases, _allowed(model, fact, computation, chosen)


def _allowed(
    model: Cases,
    fact: Fact,
    computation: Computation,
    chosen: "list[tuple[str, RangedInput | None]]",
) -> Allowed:
    inputs = {name: one for name, one in chosen if name and one is not None}
    found = interval(extent_of(computation, inputs, fact.part))
    return (*_cells_meeting(model, fact, found), not computation.always_answers)


def _all_given(
    model: Cases, ways: list[list[InputWay]]
) -> "Iterator[tuple[int, list[tuple[str, RangedInput | None]]]]":
    if not ways:
        yield EVERYTHING, []
        return
    for rest, chosen in _all_given(model, ways[1:]):
        for cases, name, one in ways[0]:
            both = model.sets.both(cases, rest)
            if both != NOTHING:
                yield both, [(name, one), *chosen]


def _given(model: Cases, fact: Fact, wanted: Input, *, one_by_one: bool) -> list[InputWay]:
    """What one input can be, and in which cases."""
    filler = fact.using.get(wanted.name)
    if filler is None:
        return [(EVERYTHING, "", 0)]
    if filler.startswith("="):
        return [(EVERYTHING, wanted.name, fixed(wanted.kind, filler[1:].strip()))]
    found: list[InputWay] = []
    if not wanted.required:
        found.append((model.sets.less(EVERYTHING, model.known(filler)), "", 0))
    ends = model.ends[filler]
    for cell in model.cells[filler]:
        cases = model.cell_set(filler, cell.has)
        if cell.sample in (UNSURE, NONE) and not cell.number:
            found.append((cases, "", 0) if not wanted.required else (cases, wanted.name, None))
        elif not cell.number:
            found.append((cases, wanted.name, label_given(wanted.kind, str(cell.sample))))
        elif _past_limits(cell, wanted):
            found.append((cases, wanted.name, None))
        else:
            kind = value_kind(model.graph.facts[filler])
            one = interval_of(cell, ends) if one_by_one else ends
            limits = (wanted.low, wanted.high)
            found.append((cases, wanted.name, extent(kind, one, limits)))
    return found if one_by_one else _merged(model, found)


def _merged(model: Cases, found: list[InputWay]) -> list[InputWay]:
    """The ways that come to the same, as one."""
    groups: dict[tuple[str, RangedInput | None], int] = {}
    for cases, name, one in found:
        groups[name, one] = model.sets.either(groups.get((name, one), NOTHING), cases)
    return [(cases, name, one) for (name, one), cases in groups.items()]


def _past_limits(cell: Cell, wanted: Input) -> bool:
    """Whether a cell, which no limit parts, lies beyond one: then there is no answer."""
    if isinstance(cell.sample, str):
        return False
    number = base(cell.sample)
    low, high = (None if end is None else base(end) for end in (wanted.low, wanted.high))
    return (low is not None and number < low) or (high is not None and number > high)
