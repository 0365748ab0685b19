"""Branches: every case has one way on, and only one."""

import itertools
import math
from collections.abc import Iterator

from guide.procedure.checker.domains import samples, thresholds
from guide.procedure.conditions import Condition, UnknownFact, facts_of, holds
from guide.procedure.facts import Fact, Value
from guide.procedure.findings import ADVICE, ERROR, Finding
from guide.procedure.graph import Graph, Node

MOST_CASES = 50_000
"""Combinations looked at for one `choose`; past it the finding says so and claims nothing."""


def check_branches(graph: Graph) -> Iterator[Finding]:
    """Gaps and overlaps of each `choose`, under the conditions it stands behind."""
    cuts = thresholds(graph)
    for node in graph.nodes:
        if node.kind != "choose" or any(edge.guard is None for edge in node.edges):
            continue
        around = enclosing(graph, node)
        guards = [edge.guard for edge in node.edges if edge.guard is not None]
        names = sorted({name for guard in (*guards, *around) for name in facts_of(guard)})
        values = [samples(graph.facts[name], cuts.get(name, ())) for name in names]
        if math.prod(len(value) for value in values) > MOST_CASES:
            yield Finding(
                node.file,
                node.line,
                node.column,
                "not-proved",
                ADVICE,
                f"“{node.id}” weighs too many facts at once to be proved; split it in two.",
            )
            continue
        yield from _faults(graph, node, around, names, values)


def enclosing(graph: Graph, node: Node) -> list[Condition]:
    """The conditions of every branch and `when` that a node stands in."""
    return [
        edge.guard
        for other in graph.nodes[: node.index]
        for edge in other.edges
        if edge.guard is not None and edge.inside[0] <= node.index < edge.inside[1]
    ]


def _faults(
    graph: Graph,
    node: Node,
    around: list[Condition],
    names: list[str],
    values: list[list[Value]],
) -> Iterator[Finding]:
    gap = overlap = False
    for case in itertools.product(*values):
        env = dict(zip(names, case, strict=True))
        try:
            if not all(holds(condition, env) for condition in around):
                continue
            taken = [e.label for e in node.edges if e.guard is not None and holds(e.guard, env)]
        except UnknownFact:
            continue
        if not taken and not gap:
            gap = True
            yield _finding(
                graph,
                node,
                "branch-missing",
                f"No branch of “{node.id}” covers every case; add one, or widen one.",
                env,
                "no branch",
            )
        if len(taken) > 1 and not overlap:
            overlap = True
            yield _finding(
                graph,
                node,
                "branch-overlap",
                f"Two branches of “{node.id}” cover the same case; narrow one.",
                env,
                " and ".join(taken),
            )
        if gap and overlap:
            return


def _finding(
    graph: Graph, node: Node, code: str, message: str, env: dict[str, Value], result: str
) -> Finding:
    case = ", ".join(said_value(graph.facts[name], value) for name, value in env.items())
    example = f"{case}: {result}"
    return Finding(node.file, node.line, node.column, code, ERROR, message, example)


def said_value(fact: Fact, value: Value) -> str:
    """One fact of a counter-example."""
    return f"{fact.name.replace('_', ' ')} {value}"
