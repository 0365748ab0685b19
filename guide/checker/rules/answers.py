"""Words of an answer that a condition shuts out: what a step is about, and is never done for."""

import re
from collections.abc import Iterator, Mapping
from pathlib import PurePath

from guide.checker.contrast import has_phrase, words
from guide.procedure.conditions import All, Condition, Is, Not
from guide.procedure.facts import Option
from guide.procedure.graph import Graph, Node

_WISHES = re.compile(
    r"\b(ask|get|fetch|take|order|choose|change|wants?|needs?|buy)\b", re.IGNORECASE
)
"""Words of what is not there yet: “ask for the heavy arm” is for a door that has another."""
_COMMON = frozenset(
    {
        "a",
        "all",
        "an",
        "and",
        "any",
        "as",
        "at",
        "be",
        "before",
        "by",
        "each",
        "every",
        "for",
        "from",
        "has",
        "have",
        "here",
        "in",
        "is",
        "it",
        "its",
        "more",
        "no",
        "none",
        "not",
        "of",
        "on",
        "one",
        "only",
        "or",
        "so",
        "than",
        "that",
        "the",
        "them",
        "then",
        "there",
        "this",
        "those",
        "to",
        "until",
        "up",
        "what",
        "when",
        "with",
        "you",
        "your",
    }
)
_SHORTEST = 3


def shut_out(
    graph: Graph, node: Node, target: Node, condition: Condition
) -> tuple[str, str] | None:
    """The fact and the words in a block that speak of an answer which its condition shuts out; None if none do."""
    for name, out in _excluded(graph, condition):
        if "yes" in out and "no" not in out:
            told = _about(node, target, name)
        else:
            told = _distinct_words(graph, target, name, out)
        if told:
            return name, told
    return None


def _excluded(graph: Graph, condition: Condition) -> Iterator[tuple[str, frozenset[str]]]:
    """Each fact of which a condition shuts out answers, with those; of a plain list only yes and no."""
    if isinstance(condition, All):
        for part in condition.parts:
            yield from _excluded(graph, part)
    elif isinstance(condition, Not) and isinstance(condition.part, Is):
        yield condition.part.fact, frozenset(condition.part.labels)
    elif isinstance(condition, Is) and condition.labels == ("no",):
        yield condition.fact, frozenset({"yes"})


def _about(node: Node, target: Node, name: str) -> str:
    """What of a block is named after a yes-or-no fact, as if the answer were yes: a hazard, or the part it includes."""
    subject = name.replace("_", " ")
    named = list(target.body.get("hazards", ()))
    if target.file != node.file:
        named.append(PurePath(target.file).stem)
    return next((one for one in named if has_phrase(one.replace("-", " "), subject)), "")


def _distinct_words(graph: Graph, target: Node, name: str, out: frozenset[str]) -> str:
    """A word that only an excluded answer has, in the text of a block that has no word of the other answers."""
    text = " ".join(target.body.get(key, "") for key in ("text", "say"))
    if _WISHES.search(text):
        return ""
    said = set(words(text))
    own = _words_of(_options(graph, name))
    found = {label: sorted(said & its) for label, its in own.items() if said & its}
    if not found or not set(found) <= out:
        return ""
    return next(iter(found.values()))[0]


def _options(graph: Graph, name: str) -> Mapping[str, Option]:
    """The answers of a fact; of one that is computed those of the question that it takes its labels from."""
    fact = graph.facts[name]
    if fact.options:
        return fact.options
    for one in fact.input_facts():
        options = graph.facts[one].options
        if options and set(options) <= set(fact.gives_labels):
            return options
    return {}


def _words_of(options: Mapping[str, Option]) -> dict[str, set[str]]:
    """The words that each answer alone has."""
    said = {
        label: {
            word
            for text in (label.replace("-", " "), option.text, option.say)
            for word in words(text)
            if len(word) >= _SHORTEST and not word.isdigit() and word not in _COMMON
        }
        for label, option in options.items()
    }
    return {
        label: own - set().union(*(its for other, its in said.items() if other != label))
        for label, own in said.items()
    }
