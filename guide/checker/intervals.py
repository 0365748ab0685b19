"""Between which numbers a fact lies, and what lies between for what is computed from it.

Numbers are exact and in base units. An end that is not known is None; an open end is not itself a value.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce

from guide.measures import Quantity, home_unit
from guide.measures.parsing import parse_signed
from guide.procedure.arithmetic import weights
from guide.procedure.conditions import value_kind
from guide.procedure.facts import MEASURED, Fact
from guide.trade import registry
from guide.trade.computation import Computation, Extent, Limit, Ranged, RangedInput
from guide.trade.extent import extent_of


@dataclass(frozen=True, slots=True)
class Interval:
    """Some numbers between two ends."""

    low: Fraction | None = None
    high: Fraction | None = None
    low_open: bool = False
    high_open: bool = False

    def meets(self, other: "Interval") -> bool:
        """Whether some number lies in both."""
        return not self._below(other) and not other._below(self)

    def _below(self, other: "Interval") -> bool:
        """Whether every number here is less than every number there."""
        if self.high is None or other.low is None:
            return False
        if self.high == other.low:
            return self.high_open or other.low_open
        return self.high < other.low

    def times(self, factor: Fraction) -> "Interval":
        """Every number multiplied by a factor that is not zero."""
        low = None if self.low is None else self.low * factor
        high = None if self.high is None else self.high * factor
        if factor < 0:
            return Interval(high, low, self.high_open, self.low_open)
        return Interval(low, high, self.low_open, self.high_open)

    def plus(self, other: "Interval") -> "Interval":
        """Every sum of a number here and a number there."""
        return Interval(
            None if self.low is None or other.low is None else self.low + other.low,
            None if self.high is None or other.high is None else self.high + other.high,
            self.low_open or other.low_open,
            self.high_open or other.high_open,
        )


def only(number: Fraction) -> Interval:
    """One number."""
    return Interval(number, number)


def whole_numbers(found: Interval) -> Interval:
    """From the least to the greatest whole number of an interval."""
    low, high = found.low, found.high
    if low is not None:
        low = Fraction(math.floor(low) + 1 if found.low_open else math.ceil(low))
    if high is not None:
        high = Fraction(math.ceil(high) - 1 if found.high_open else math.floor(high))
    return Interval(low, high)


def combined(fact: Fact, terms: Mapping[str, Interval]) -> Interval:
    """Between which numbers arithmetic comes to lie, each term lying somewhere."""
    factors, added = weights(fact)
    found = only(added)
    for name, factor in factors.items():
        # A fact less itself is nothing, whatever it is.
        if factor:
            found = found.plus(terms[name].times(factor))
    return found


Ends = Mapping[str, Interval]
"""Between which numbers each fact lies in any run."""


def ends_of(facts: Mapping[str, Fact]) -> Ends:
    """Between which numbers each fact lies: its own range, or what the ranges of its inputs come to."""
    found: dict[str, Interval] = {}
    for name in facts:
        _find_ends(facts, name, found)
    return found


def _find_ends(facts: Mapping[str, Fact], name: str, found: dict[str, Interval]) -> None:
    if name in found:
        return
    fact = facts[name]
    if not fact.worked:
        found[name] = Interval(_base(fact.low), _base(fact.high))
        return
    for one in fact.input_facts():
        _find_ends(facts, one, found)
    if fact.operation:
        found[name] = combined(fact, found)
        return
    computation = registry.find(fact.computation)
    ways = [
        interval(extent_of(computation, inputs, fact.part))
        for inputs in _whole_ranges(facts, fact, computation, found)
    ]
    found[name] = reduce(_hull, ways)


def _hull(one: Interval, other: Interval) -> Interval:
    lows = [end for end in (one.low, other.low) if end is not None]
    highs = [end for end in (one.high, other.high) if end is not None]
    return Interval(min(lows) if len(lows) == 2 else None, max(highs) if len(highs) == 2 else None)


MOST_LABELS = 200
"""Combinations of labels that a range is looked at for; beyond, nothing is known of it."""


def _whole_ranges(
    facts: Mapping[str, Fact], fact: Fact, computation: Computation, found: Ends
) -> Iterable[Ranged]:
    """The inputs of a computation over their whole ranges, once for each combination of labels."""
    ways: list[list[tuple[str, RangedInput]]] = []
    count = 1
    for wanted in computation.inputs:
        filler = fact.using.get(wanted.name)
        if filler is None:
            continue
        if filler.startswith("="):
            ways.append([(wanted.name, fixed(wanted.kind, filler[1:].strip()))])
            continue
        given = facts[filler]
        choices: list[tuple[str, RangedInput]]
        if value_kind(given) in ("choice", "yesno"):
            labels = given.gives_labels if given.worked else tuple(given.options)
            choices = [(wanted.name, label_given(wanted.kind, label)) for label in labels]
        else:
            limits = (wanted.low, wanted.high)
            choices = [(wanted.name, extent(value_kind(given), found[filler], limits))]
        if not wanted.required:
            choices.append(("", 0))
        ways.append(choices)
        count *= len(choices)
    return _product(ways) if count <= MOST_LABELS else [{}]


def _product(ways: list[list[tuple[str, RangedInput]]]) -> Iterator[Ranged]:
    if not ways:
        yield {}
        return
    for rest in _product(ways[1:]):
        for name, given in ways[0]:
            yield {name: given, **rest} if name else rest


def fixed(kind: str, text: str) -> RangedInput:
    """A fixed value, as a file writes it, as a computation gets it."""
    if kind in MEASURED:
        return parse_signed(text, kind)
    if kind == "count":
        return int(text)
    return float(text) if kind == "number" else label_given(kind, text)


def label_given(kind: str, label: str) -> RangedInput:
    """A label as a computation gets it."""
    return label == "yes" if kind == "yesno" else label


def extent(kind: str, ends: Interval, limits: tuple[Limit, Limit] = (None, None)) -> Extent:
    """An interval as the range of a computation's input, narrowed to the limits within which it answers."""
    low, high = (_base(end) for end in limits)
    lows = [end for end in (ends.low, low) if end is not None]
    highs = [end for end in (ends.high, high) if end is not None]
    if lows and highs and max(lows) > min(highs):
        return Extent(None, None)  # past the limits there is no answer
    return Extent(
        _number(kind, max(lows)) if lows else None, _number(kind, min(highs)) if highs else None
    )


def interval(found: Extent) -> Interval:
    """A computation's range as an interval."""
    return Interval(_base(found.low), _base(found.high))


def _number(kind: str, number: Fraction) -> Quantity | int:
    if kind not in MEASURED:
        return int(number)
    unit = home_unit(kind, "inch")
    return Quantity(number / Quantity(Fraction(1), unit).base, unit)


def _base(value: Limit) -> Fraction | None:
    if value is None:
        return None
    return value.base if isinstance(value, Quantity) else Fraction(value)
