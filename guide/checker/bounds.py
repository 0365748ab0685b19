"""Bounds (inequalities) in a procedure: in its conditions, and in its texts, such as “at most 5 lbf”."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from guide import measures
from guide.measures import MeasureError, Quantity, without_braces
from guide.procedure.compiler import TEXT_KEYS
from guide.procedure.conditions import (
    All,
    AnyOf,
    Between,
    Compare,
    Condition,
    IsKnown,
    Not,
    facts_of,
)
from guide.procedure.facts import Fact
from guide.procedure.graph import Graph, Node
from guide.text import LIMIT

UPPER, LOWER = "at most", "at least"
Number = Quantity | int

_NUMBER = r"\d+(?:\.\d+)?(?: \d+/\d+)?(?:/\d+)?"
_MEASURE = re.compile(rf"(?<![\w./])({_NUMBER})(?: ?-?([A-Za-z°]+))?")
_WIDE = "wider|higher|heavier|longer|thicker|later|slower|harder|farther|further|steeper"
_NARROW = "narrower|lower|lighter|shorter|thinner|sooner|faster|easier|nearer"

_ASIDE = r" (?:\([^)]*\) )?"
"""The words allowed between a number and its bound: “5 lbf (22.2 N) is the most”."""


def _words(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


_WANTED_BEFORE = {
    UPPER: _words(rf"\b(at (the )?most|(no|not|never) (more|{_WIDE}) than|within|up to) $"),
    LOWER: _words(rf"\b(at (the )?least|(no|not|never) (less|fewer|{_NARROW}) than) $"),
}
_WANTED_AFTER = {
    UPPER: _words(rf"{_ASIDE}(at (the )?most|or (less|under|fewer)|is the (\w+ )?most)\b"),
    LOWER: _words(rf"{_ASIDE}(at (the )?least|or (more|over)|is the (\w+ )?least)\b"),
}
_DENIED = r"(?<!\bno )(?<!\bnot )(?<!\bnever )"
_CASE_BEFORE = {
    LOWER: _words(rf"{_DENIED}\b((more|{_WIDE}) than|over|above|past|beyond) $"),
    UPPER: _words(rf"{_DENIED}\b((less|fewer|{_NARROW}) than|under|below) $"),
}


@dataclass(frozen=True, slots=True)
class Mention:
    """A measure in a text."""

    value: Number
    wanted: str
    """`UPPER` or `LOWER` if the text states it as a bound; else empty."""
    case: str
    """`UPPER` or `LOWER` if the text is about a case past it; else empty."""


@cache
def said_in(text: str, kind: str) -> tuple[Mention, ...]:
    """Every measure of that kind in a text; for `count` every whole number."""
    found = []
    for match in _MEASURE.finditer(text):
        value, end = _value(match, kind)
        if value is not None:
            before, after = text[: match.start()], text[end:]
            wanted = _before(_WANTED_BEFORE, before) or _after(after)
            found.append(Mention(value, wanted, _before(_CASE_BEFORE, before)))
    return tuple(found)


def _value(match: re.Match[str], kind: str) -> tuple[Number | None, int]:
    if kind == "count":
        return (int(match[1]) if match[1].isdigit() else None), match.end(1)
    if not match[2]:
        return None, match.end()
    try:
        return measures.parse(f"{match[1]} {match[2]}", kind), match.end()
    except MeasureError:
        return None, match.end()


def _before(patterns: dict[str, re.Pattern[str]], before: str) -> str:
    return next((side for side, pattern in patterns.items() if pattern.search(before)), "")


def _after(after: str) -> str:
    return next((side for side, pattern in _WANTED_AFTER.items() if pattern.match(after)), "")


def names(text: str, value: Number, kind: str) -> bool:
    """Whether a text names a number: with a unit, or bare, as in “from 5 to 7 s”."""
    if any(one.value == value for one in said_in(text, kind)):
        return True
    bare = str(value).rpartition(" ")[0] if isinstance(value, Quantity) else str(value)
    return any(match[1] == bare and not match[2] for match in _MEASURE.finditer(text)) or bool(
        re.search(rf"(?<![\w./]){re.escape(bare)} (?:to|and|or) ", text)
    )


def sides(condition: Condition, positive: bool = True) -> Iterator[tuple[str, Number, str]]:
    """Each number that a condition compares a fact with: the fact, the number, and whether the fact is to be
    `UPPER` (at most that) or `LOWER`; `not` turns the inequality round."""
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from sides(part, positive)
    elif isinstance(condition, Not):
        yield from sides(condition.part, not positive)
    elif isinstance(condition, Between) and positive:
        yield condition.fact, condition.low, LOWER
        yield condition.fact, condition.high, UPPER
    elif isinstance(condition, Compare) and condition.operator != "=":
        under = condition.operator in ("<", "<=")
        yield condition.fact, condition.value, UPPER if under == positive else LOWER


def numbers(condition: Condition) -> Iterator[tuple[str, Number]]:
    """Each number in a condition, with its fact."""
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from numbers(part)
    elif isinstance(condition, Not):
        yield from numbers(condition.part)
    elif isinstance(condition, Between):
        yield from ((condition.fact, condition.low), (condition.fact, condition.high))
    elif isinstance(condition, Compare):
        yield condition.fact, condition.value


def conditions_at(graph: Graph, node: Node) -> list[Condition]:
    """The conditions a node decides by, in order; none for a node with one way on."""
    if node.kind == "repeat":
        return [graph.untils[node.index]]
    if node.kind == "check":
        return [graph.limits[node.index]]
    if node.kind in ("when", "by_case"):
        edges = node.edges if node.kind == "by_case" else node.edges[:1]
        return [edge.guard for edge in edges if edge.guard is not None]
    return []


def facts_needed(condition: Condition) -> Iterator[str]:
    """The facts a condition may ask the value of, in order; whether a fact is known needs none."""
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from facts_needed(part)
    elif isinstance(condition, Not):
        yield from facts_needed(condition.part)
    elif not isinstance(condition, IsKnown):
        yield from facts_of(condition)


def words_of(node: Node) -> list[str]:
    """The texts that a person is shown or told at a block."""
    body = node.body
    found = [body[key] for key in TEXT_KEYS if key in body]
    found += [text for caution in body.get("caution", ()) for text in caution.values()]
    return [without_braces(text) for text in found]


def words_at_limit(graph: Graph, node: Node, limit: Condition) -> list[str]:
    """The texts at a check with its limit, as they stand where `{limit}` is shown, and the question of its fact."""
    number = ""
    if isinstance(limit, Compare):
        number = str(limit.value)
    elif isinstance(limit, Between):
        number = f"{limit.low} to {limit.high}"
    own = [text.replace(f"{{{LIMIT}}}", number) for text in words_of(node)]
    return own + asking_words(graph.facts[node.body["fact"]])


def asking_words(fact: Fact) -> list[str]:
    """The texts that a person is shown when a fact is asked for."""
    return [without_braces(text) for text in (fact.ask, fact.say, fact.find_out) if text]
