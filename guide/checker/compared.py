"""Two facts compared: one variable for how far the first is above the second.

Its cells are the offsets that the two are compared with, and what lies between them; without an offset: less, equal
and more. A comparison then counts as one yes or no, the same wherever it stands, and what the cells of the two facts
decide between themselves is decided.
"""

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import Protocol

from guide.checker.cases import Cases
from guide.checker.diagram import EVERYTHING, NOTHING
from guide.checker.domains import Cell, base, every_comparison, interval_of, offset_of
from guide.checker.intervals import Interval
from guide.procedure.conditions import Against, holds
from guide.procedure.graph import Graph

_TURNED = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "=": "="}
_SAID = ("under", "equal to", "over")


@dataclass(frozen=True, slots=True)
class Pair:
    """Two facts that are compared somewhere."""

    fact: str
    other: str
    offsets: tuple[Fraction, ...]
    """What the first may be above the second by, in base units, rising."""

    @property
    def size(self) -> int:
        """How many cells the difference has: each offset, and what lies between."""
        return 2 * len(self.offsets) + 1

    def interval(self, place: int) -> Interval:
        """The differences of one cell."""
        if place % 2:
            offset = self.offsets[place // 2]
            return Interval(offset, offset)
        low = self.offsets[place // 2 - 1] if place else None
        high = self.offsets[place // 2] if place // 2 < len(self.offsets) else None
        return Interval(low, high, True, True)

    def lands(self, one: Interval, other: Interval) -> tuple[int, int]:
        """The first and last cell in which the difference of two numbers in these intervals can lie."""
        between = one.plus(other.times(Fraction(-1)))
        places = [place for place in range(self.size) if self.interval(place).meets(between)]
        return places[0], places[-1]

    def place_of(self, difference: Fraction) -> int:
        """The cell in which one difference lies."""
        after = bisect_left(self.offsets, difference)
        exact = after < len(self.offsets) and self.offsets[after] == difference
        return 2 * after + (1 if exact else 0)

    def wanted(self, condition: Against) -> set[int]:
        """The cells in which a comparison of the two holds."""
        operator, offset = condition.operator, offset_of(condition)
        if condition.fact != self.fact:
            operator, offset = _TURNED[operator], -offset
        exact = 2 * self.offsets.index(offset) + 1
        return {place for place in range(self.size) if _stands(place, operator, exact)}

    def said(self, values: list[int]) -> str:
        """Some cells in words: `gap over drop`."""
        name, other = self.fact.replace("_", " "), self.other.replace("_", " ")
        if self.offsets != (Fraction(0),):
            return f"{name} beside {other}"
        return f"{name} {' or '.join(_SAID[value] for value in values)} {other}"


def _stands(place: int, operator: str, exact: int) -> bool:
    if operator == "=":
        return place == exact
    if operator in ("<", "<="):
        return place < exact or (place == exact and operator == "<=")
    return place > exact or (place == exact and operator == ">=")


def pairs_of(graph: Graph) -> dict[frozenset[str], Pair]:
    """Every two facts that are compared, by their names."""
    offsets: dict[frozenset[str], set[Fraction]] = {}
    first: dict[frozenset[str], tuple[str, str]] = {}
    for one in every_comparison(graph):
        key = frozenset((one.fact, one.other))
        names = first.setdefault(key, (one.fact, one.other))
        offset = offset_of(one)
        offsets.setdefault(key, set()).add(offset if one.fact == names[0] else -offset)
    return {key: Pair(*first[key], tuple(sorted(found))) for key, found in offsets.items()}


# --- as sets of cases ---


class ComparedCases(Cases, Protocol):
    """The model of all cases, with a variable for each pair of facts that is compared."""

    sampled: bool

    @property
    def pairs(self) -> Mapping[frozenset[str], Pair]:
        """What is compared, by its two facts."""

    @property
    def order_level(self) -> Mapping[frozenset[str], int]:
        """The level of the variable of each pair."""


def stands(model: ComparedCases, condition: Against) -> tuple[int, int]:
    """The cases in which a comparison holds, and those in which it does not: as the cells of the two facts decide,
    and otherwise by the one variable that they share."""
    sets = model.sets
    known = sets.both(model.known(condition.fact), model.known(condition.other))
    yes = _by_samples(model, condition) if model.sampled else _by_difference(model, condition)
    return yes, sets.less(known, yes)


def _by_difference(model: ComparedCases, condition: Against) -> int:
    key = frozenset((condition.fact, condition.other))
    pair, level = model.pairs[key], model.order_level[key]
    wanted = pair.wanted(condition)
    yes = NOTHING
    for (first, last), cases in _lands(model, pair).items():
        values = [v for v in range(pair.size) if min(max(v, first), last) in wanted]
        yes = model.sets.either(yes, model.sets.both(cases, model.sets.values(level, values)))
    return yes


def _lands(model: ComparedCases, pair: Pair) -> dict[tuple[int, int], int]:
    """The cases in which the difference of two facts can lie in these cells, the first and the last."""
    found: dict[tuple[int, int], int] = {}
    ends, other_ends = model.ends[pair.fact], model.ends[pair.other]
    for cell, other in product(model.cells[pair.fact], model.cells[pair.other]):
        if cell.number and other.number:
            lands = pair.lands(interval_of(cell, ends), interval_of(other, other_ends))
            both = _both(model, pair.fact, cell, pair.other, other)
            found[lands] = model.sets.either(found.get(lands, NOTHING), both)
    return found


def _both(model: ComparedCases, name: str, cell: Cell, other_name: str, other: Cell) -> int:
    """The cases in which two facts lie in these cells."""
    here, there = model.cell_set(name, cell.has), model.cell_set(other_name, other.has)
    return model.sets.both(here, there)


def _by_samples(model: ComparedCases, condition: Against) -> int:
    found = NOTHING
    name, other_name = condition.fact, condition.other
    for cell, other in product(model.cells[name], model.cells[other_name]):
        if holds(condition, {name: cell.sample, other_name: other.sample}):
            both = _both(model, name, cell, other_name, other)
            found = model.sets.either(found, both)
    return found


def stand_so(model: ComparedCases, pair: Pair, place: int) -> int:
    """Among samples: the cases in which the difference of two facts lies in this cell, or in which there is none."""
    known = model.sets.both(model.known(pair.fact), model.known(pair.other))
    found = model.sets.less(EVERYTHING, known)
    for cell, other in product(model.cells[pair.fact], model.cells[pair.other]):
        one, two = cell.sample, other.sample
        words = isinstance(one, str) or isinstance(two, str)
        if words or pair.place_of(base(one) - base(two)) == place:  # type: ignore[arg-type]
            both = _both(model, pair.fact, cell, pair.other, other)
            found = model.sets.either(found, both)
    return found
