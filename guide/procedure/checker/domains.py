"""The values that matter of a fact: each label, each threshold named in the file, and one between.

Two values of one cell take the same way everywhere, so looking at one of each looks at all.
"""

from collections.abc import Iterable
from fractions import Fraction

from guide import measures
from guide.measures import Quantity
from guide.procedure.conditions import All as AllOf
from guide.procedure.conditions import AnyOf, Between, Compare, Condition, Not
from guide.procedure.facts import NONE, UNSURE, Fact, Value
from guide.procedure.graph import Graph
from guide.trade import registry


def thresholds(graph: Graph) -> dict[str, set[Fraction]]:
    """Every constant that a condition of the graph compares each fact with, in base units."""
    found: dict[str, set[Fraction]] = {}

    def take(condition: Condition) -> None:
        if isinstance(condition, AllOf | AnyOf):
            for part in condition.parts:
                take(part)
        elif isinstance(condition, Not):
            take(condition.part)
        elif isinstance(condition, Compare):
            found.setdefault(condition.fact, set()).add(base(condition.value))
        elif isinstance(condition, Between):
            ends = found.setdefault(condition.fact, set())
            ends.update((base(condition.low), base(condition.high)))

    for condition in every_condition(graph):
        take(condition)
    return found


def every_condition(graph: Graph) -> Iterable[Condition]:
    """Every guard, limit and `until` of the graph."""
    for node in graph.nodes:
        for edge in node.edges:
            if edge.guard is not None:
                yield edge.guard
    yield from graph.limits.values()
    yield from graph.untils.values()


def base(value: Quantity | int) -> Fraction:
    """The value in its kind's base unit."""
    return value.base if isinstance(value, Quantity) else Fraction(value)


def samples(fact: Fact, cuts: Iterable[Fraction]) -> list[Value]:
    """One value of each cell that the cuts make of the fact's range."""
    if fact.kind in ("choice", "yesno"):
        return [*fact.options, UNSURE] if fact.unsure else list(fact.options)
    tail: list[Value] = [NONE] if fact.worked else ([UNSURE] if fact.unsure else [])
    kind = fact.gives if fact.worked else fact.kind
    if kind in ("choice", "yesno"):
        return [*fact.gives_labels, *tail]
    if kind == "text":
        return ["words", *tail]
    low, high = _ends(fact)
    points = sorted(
        {cut for cut in cuts if (low is None or cut >= low) and (high is None or cut <= high)}
    )
    numbers: list[Fraction] = []
    edge = low if low is not None else (points[0] - 1 if points else Fraction(0))
    top = high if high is not None else (points[-1] + 1 if points else Fraction(1))
    previous = max(edge, Fraction(0))
    numbers.append(previous)
    for point in [*points, top]:
        middle = (previous + point) / 2
        if point > previous:
            numbers.append(Fraction(int(middle)) if kind == "count" else middle)
            numbers.append(point)
        previous = max(previous, point)
    unique = sorted(set(numbers))
    if kind == "count":
        return [*(int(number) for number in unique), *tail]
    unit = {"length": "in", "angle": "deg", "force": "N", "time": "s", "mass": "kg"}.get(
        kind, measures.units_of(kind)[0]
    )
    scale = Quantity(Fraction(1), unit).base
    return [*(Quantity(number / scale, unit) for number in unique), *tail]


def _ends(fact: Fact) -> tuple[Fraction | None, Fraction | None]:
    if fact.worked:
        output = registry.find(fact.computation).output
        low, high = output.low, output.high
        return (base(low) if low is not None else None, base(high) if high is not None else None)
    low_f, high_f = fact.low, fact.high
    return (
        base(low_f) if low_f is not None else None,
        base(high_f) if high_f is not None else None,
    )
