"""Rules of figures: a number in a text agrees with the numbers beside it, and with those of its file."""

import re
from collections import Counter
from collections.abc import Iterator

from guide.checker.bounds import asking_words, conditions_at, numbers, said_in
from guide.checker.contrast import in_figures
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.measures import MeasureError, Quantity, parse
from guide.procedure.facts import MEASURED
from guide.procedure.graph import Graph, Node
from guide.text import quantities_in

BESIDE = ("why", "watch", "looks_right")

RECURS = 3
"""How often a limit is named in a file until another one of its kind, named once, looks like a slip."""
_BOUND = re.compile(r"at (?:most|least) (.+)", re.IGNORECASE)


def number_alone(graph: Graph) -> Iterator[Finding]:
    """Each text with measures of a kind, where its other words or its question name some, and none of those."""
    for node in graph.nodes:
        found = _alone(graph, node)
        if found is not None:
            mine, theirs = found
            message = f"“{node.id}” has {mine} in its text and {theirs} in its other words; correct one of the two."
            yield at_block(node, "number-alone", message)


def _alone(graph: Graph, node: Node) -> tuple[str, str] | None:
    text = in_figures(node.body.get("text", ""))
    beside = [node.body[key] for key in BESIDE if key in node.body]
    fact = graph.facts.get(node.body.get("fact", ""))
    if fact is not None:
        beside += [fact.ask, fact.say, fact.find_out]
    for kind in sorted(MEASURED) if text and beside else ():
        mine = [one.value for one in said_in(text, kind)]
        theirs = [one.value for words in beside for one in said_in(in_figures(words), kind)]
        if mine and theirs and not set(mine) & set(theirs):
            return str(mine[0]), str(theirs[0])
    return None


def limit_alone(graph: Graph) -> Iterator[Finding]:
    """Each limit in a text that nothing else of its file names, where another of its kind is named again and again."""
    places = {(node.file, node.line, node.column): node for node in graph.nodes}
    named: dict[str, Counter[Quantity]] = {}
    for node in places.values():
        named.setdefault(node.file, Counter()).update(_named_at(graph, node))
    for node in places.values():
        here = named[node.file]
        for limit in _limits(node.body.get("text", "")):
            others = [n for n, often in here.items() if n.kind == limit.kind and often >= RECURS]
            if here[limit] == 1 and others:
                message = (
                    f"“{node.id}” has the limit {limit}, which nothing else in this file names; "
                    f"correct it, perhaps to {others[0]}, or say where it comes from."
                )
                yield at_block(node, "limit-alone", message)
                break


def _named_at(graph: Graph, node: Node) -> Iterator[Quantity]:
    """Every measure that the words of a block, its question and its conditions name."""
    fact = graph.facts.get(node.body.get("fact", ""))
    texts = [value for value in node.body.values() if isinstance(value, str)]
    texts += asking_words(fact) if fact is not None else []
    for kind in sorted(MEASURED):
        for text in texts:
            for one in said_in(in_figures(text), kind):
                if isinstance(one.value, Quantity):
                    yield one.value
    for condition in conditions_at(graph, node):
        for _, number in numbers(condition):
            if isinstance(number, Quantity):
                yield number


def _limits(text: str) -> Iterator[Quantity]:
    """The limits in braces, as in “{at most 5 lbf}”."""
    for inner in quantities_in(text):
        bound = _BOUND.fullmatch(inner)
        limit = bound[1] if bound is not None else ""
        for kind in sorted(MEASURED) if limit else ():
            try:
                yield parse(limit, kind)
                break
            except MeasureError:
                continue
