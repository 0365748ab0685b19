"""Rules of statements: the words beside a limit or a condition name its number, and bound it the same way."""

from collections.abc import Iterator

from guide.checker.bounds import (
    LOWER,
    UPPER,
    Mention,
    Number,
    asking_words,
    conditions_at,
    names,
    numbers,
    said_in,
    sides,
    words_at_limit,
    words_of,
)
from guide.checker.manual import at_block
from guide.files.findings import Finding
from guide.procedure.conditions import Condition, value_kind
from guide.procedure.graph import Graph, Node


def limit_unsaid(graph: Graph) -> Iterator[Finding]:
    """Each check with a number in its limit that neither its own words nor its fact's name."""
    for node, limit in _limits(graph):
        words = words_at_limit(graph, node, limit)
        for name, number in numbers(limit):
            if not _named(graph, words, name, number):
                message = (
                    f"“{node.id}” compares the reading with {number}, which its words do not name; "
                    "say it in text or why."
                )
                yield at_block(node, "limit-unsaid", message)
                break


def threshold_unsaid(graph: Graph) -> Iterator[Finding]:
    """Each decision by a number that no words of its own file name."""
    words: dict[str, dict[str, None]] = {}
    for node in graph.nodes:
        here = words.setdefault(node.file, {})
        here.update(dict.fromkeys(words_of(node)))
        fact = graph.facts.get(node.body.get("fact", ""))
        if fact is not None:
            here.update(dict.fromkeys(asking_words(fact)))
    told: dict[tuple[str, str, Number], bool] = {}
    for node in graph.nodes:
        if node.kind not in ("when", "repeat"):
            continue
        for name, number in _numbers_at(graph, node):
            key = (node.file, name, number)
            if key not in told:
                texts = [*words[node.file], *asking_words(graph.facts[name])]
                told[key] = _named(graph, texts, name, number)
            if not told[key]:
                id_ = node.id.removesuffix("?")
                message = (
                    f"“{id_}” decides by {number}, which no words of this file name; "
                    "say it where it matters."
                )
                yield at_block(node, "threshold-unsaid", message)
                break


def words_against_limit(graph: Graph) -> Iterator[Finding]:
    """Each check and each repeat whose own words bound a number of it the other way, and none its way."""
    for node, limit in _limits(graph):
        words = words_at_limit(graph, node, limit)
        yield from _against(graph, node, limit, words)
    for node in graph.nodes:
        if node.kind == "repeat" and node.index in graph.untils:
            low = graph.loops[node.edges[1].loop].low
            words = [text for one in graph.nodes[low : node.index] for text in words_of(one)]
            yield from _against(graph, node, graph.untils[node.index], words)


def words_against_when(graph: Graph) -> Iterator[Finding]:
    """Each block whose own words tell of readings past a number, all on the other side of its `when`."""
    for node in graph.nodes:
        guard = node.edges[0].guard if node.kind == "when" else None
        if guard is None:
            continue
        words = words_of(graph.nodes[node.edges[0].target])
        for name, number, side in sides(guard):
            told = {
                one.case for one in _said(graph, words, name) if one.value == number and one.case
            }
            if told and side not in told:
                id_ = node.id.removesuffix("?")
                said = "more than" if LOWER in told else "less than"
                message = (
                    f"“{id_}” is carried out at {side} {number}, and its words are about {said} that; "
                    "reverse one of the two."
                )
                yield at_block(node, "words-against-when", message)
                break


def limit_contrary(graph: Graph) -> Iterator[Finding]:
    """Each repeat under a failed check whose `until` wants the other side of the same number."""
    for check, limit in _limits(graph):
        wanted = [(value_kind(graph.facts[f]), n, side) for f, n, side in sides(limit)]
        for node in graph.nodes[slice(*check.edges[1].inside)]:
            if node.kind != "repeat" or node.index not in graph.untils:
                continue
            for name, number, side in sides(graph.untils[node.index]):
                kind = value_kind(graph.facts[name])
                if (kind, number, UPPER if side == LOWER else LOWER) in wanted:
                    message = (
                        f"“{node.id}” goes on until {side} {number}, and the check “{check.id}” "
                        "before it needs the other side; reverse one of the two."
                    )
                    yield at_block(node, "limit-contrary", message)
                    break


def _limits(graph: Graph) -> Iterator[tuple[Node, Condition]]:
    """Every check that has a readable limit."""
    return ((graph.nodes[index], limit) for index, limit in graph.limits.items())


def _numbers_at(graph: Graph, node: Node) -> list[tuple[str, Number]]:
    found = [pair for condition in conditions_at(graph, node) for pair in numbers(condition)]
    return list(dict.fromkeys(found))


def _named(graph: Graph, words: list[str], name: str, number: Number) -> bool:
    return any(names(text, number, value_kind(graph.facts[name])) for text in words)


def _said(graph: Graph, words: list[str], name: str) -> list[Mention]:
    return [one for text in words for one in said_in(text, value_kind(graph.facts[name]))]


def _against(graph: Graph, node: Node, condition: Condition, words: list[str]) -> Iterator[Finding]:
    for name, number, side in sides(condition):
        told = {
            one.wanted for one in _said(graph, words, name) if one.value == number and one.wanted
        }
        if told and side not in told:
            said = f"{next(iter(told))} that"
            message = (
                f"The limit of “{node.id}” needs {side} {number}, and its words say {said}; "
                "reverse one of the two."
            )
            yield at_block(node, "words-against-limit", message)
            break
