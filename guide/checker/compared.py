"""Two facts compared: one variable for how far the first is above the second.

Its cells are the offsets that the two are compared with, and what lies between them; without an offset: less, equal
and more. A comparison then counts as one yes or no, the same wherever it stands, and what the cells of the two facts
decide between themselves is decided.
"""

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from guide.checker.domains import Cell, every_comparison, interval_of, offset_of
from guide.checker.intervals import Interval
from guide.procedure.conditions import Against
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


def pairs_of_cells(
    cells: list[Cell], ends: Interval, others: list[Cell], other_ends: Interval, pair: Pair
) -> Iterator[tuple[Cell, Cell, tuple[int, int]]]:
    """Every two cells of numbers, with the cells in which their difference can lie."""
    for cell in cells:
        for other in others:
            if cell.number and other.number:
                lands = pair.lands(interval_of(cell, ends), interval_of(other, other_ends))
                yield cell, other, lands
