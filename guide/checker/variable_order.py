"""Orders of the decision diagrams' variables: an order that parts two facts which a condition joins makes the sets
grow with every fact between them.

The second order is by the FORCE heuristic, within each group of facts that conditions connect: Aloul, Markov and
Sakallah, “FORCE: a fast and easy-to-implement variable-ordering heuristic”, GLSVLSI 2003.
"""

from collections.abc import Iterable, Iterator

from guide.checker.bounds import conditions_at
from guide.procedure.conditions import All, AnyOf, Condition, Not, facts_of
from guide.procedure.graph import Graph

ROUNDS = 60
"""Rounds of moving every fact to the middle of what it is joined with."""


def orders(graph: Graph) -> Iterator[list[str]]:
    """Orders of the asked facts worth trying, best guess first; the first is the order of asking."""
    asked = first_asked(graph)
    yield asked
    together = grouped(asked, joined_facts(graph))
    if together != asked:
        yield together


def first_asked(graph: Graph) -> list[str]:
    """The asked facts in the order they are first asked; those that no block asks for last."""
    found: dict[str, None] = {}
    for node in graph.nodes:
        name = node.body.get("fact", "")
        fact = graph.facts.get(name)
        if node.kind in ("ask", "time", "check") and fact is not None and not fact.worked:
            found[name] = None
        elif node.kind == "turn":
            found[node.body["turn"]] = None
    found.update((name, None) for name, fact in graph.facts.items() if not fact.worked)
    return list(found)


def joined_facts(graph: Graph) -> list[frozenset[str]]:
    """The sets of two or more asked facts that one part of a condition joins."""
    found: dict[frozenset[str], None] = {}
    for node in graph.nodes:
        for condition in conditions_at(graph, node):
            for part in _parts(condition):
                names = _asked_in(graph, facts_of(part))
                if len(names) > 1:
                    found[names] = None
    return list(found)


def _parts(condition: Condition) -> Iterator[Condition]:
    """The smallest parts that are decided together: alternatives are not, one by one."""
    if isinstance(condition, Not):
        yield from _parts(condition.part)
    elif isinstance(condition, AnyOf):
        for part in condition.parts:
            yield from _parts(part)
    elif isinstance(condition, All) and len(condition.parts) == 1:
        yield from _parts(condition.parts[0])
    else:
        yield condition


def _asked_in(graph: Graph, names: Iterable[str]) -> frozenset[str]:
    found: set[str] = set()
    for name in names:
        found.update(one for one in (name, *graph.inputs_of(name)) if not graph.facts[one].worked)
    return frozenset(found)


def grouped(order: list[str], joined: list[frozenset[str]]) -> list[str]:
    """The facts with each group of connected ones together, and within a group the joined ones close."""
    group = {name: name for name in order}

    def root(name: str) -> str:
        while group[name] != name:
            group[name] = group[group[name]]
            name = group[name]
        return name

    for names in joined:
        first, *others = sorted(names, key=order.index)
        for other in others:
            group[root(other)] = root(first)
    members: dict[str, list[str]] = {}
    for name in order:
        members.setdefault(root(name), []).append(name)
    return [name for group_of in members.values() for name in _closest(group_of, joined)]


def _closest(names: list[str], joined: list[frozenset[str]]) -> list[str]:
    """The order of the least total span that FORCE comes to."""
    edges = [edge for edge in joined if edge <= set(names)]
    best, least = names, _span(names, edges)
    for _ in range(ROUNDS if edges else 0):
        place = {name: number for number, name in enumerate(names)}
        middles: dict[str, list[float]] = {name: [] for name in names}
        for edge in edges:
            middle = sum(place[name] for name in edge) / len(edge)
            for name in edge:
                middles[name].append(middle)
        wanted = {n: sum(m) / len(m) if m else float(place[n]) for n, m in middles.items()}
        names = sorted(names, key=lambda name: (wanted[name], place[name]))
        span = _span(names, edges)
        if span < least:
            best, least = names, span
        elif list(place) == names:
            break
    return best


def _span(names: list[str], edges: list[frozenset[str]]) -> int:
    place = {name: number for number, name in enumerate(names)}
    return sum(max(place[n] for n in edge) - min(place[n] for n in edge) for edge in edges)
