"""Rules of what is said: the words beside a limit or a condition name its number, and bound it the same way."""

from collections.abc import Iterator
from typing import ClassVar

from guide.procedure.checker.bounds import (
    LOWER,
    UPPER,
    Number,
    Said,
    asking_words,
    kind_of,
    names,
    numbers,
    said_in,
    sides,
    words_of,
)
from guide.procedure.checker.decisions import conditions_at
from guide.procedure.checker.rules.rule import Rule
from guide.procedure.conditions import Condition
from guide.procedure.findings import WARNING, Finding
from guide.procedure.graph import Graph, Node


class LimitUnsaid(Rule):
    """A check holds a reading against a number that its words do not name.

    The person reads 6 lbf off the gauge, and learns from nothing on the screen whether that is good. The record
    then says “not met”, and nobody knows of what. It also shows a slip: the number in the file and the one that
    the trainer means can only be compared where both are written.

    Do: name the limit, with its unit, in the check's `text`, `why` or `watch`, or in the fact's `ask` or `find_out`.

    Fails:

        facts:
          force: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it at the handle?}
        steps:
          - check:
              id: light   # here
              fact: force
              limit: "<= 5 lbf"
              why: A child or an old person must be able to open it.
              otherwise: {steps: [{end: {id: heavy, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          force: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it at the handle?}
        steps:
          - check:
              id: light
              fact: force
              limit: "<= 5 lbf"
              why: A child or an old person must be able to open it with 5 lbf.
              otherwise: {steps: [{end: {id: heavy, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "limit-unsaid"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” holds the reading against {number}, which its words do not name; say it in text or why."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each check with a number in its limit that neither its own words nor its fact's name."""
        for node, limit in _limits(graph):
            words = [*words_of(node), *asking_words(graph.facts[node.body["fact"]])]
            for name, number in numbers(limit):
                if not _named(graph, words, name, number):
                    yield _found(node, cls, cls.message.format(id=node.id, number=number))
                    break


class ThresholdUnsaid(Rule):
    """A `when` or an `until` decides by a number that no words of its file name.

    Why 140 degrees, and not 120? Whoever reads the procedure aloud, or changes it next year, has nothing to
    hold the number against, and a slip of the pen looks like any other number. The numbers of a `by_case` are left
    alone: each stands there twice, in two branches that must meet.

    Do: name the number, with its unit, in the `why` of the block that it decides about, or in the fact's `find_out`.

    Fails:

        facts:
          opening: {angle: {from: 60 deg, to: 180 deg, step: 1 deg}, ask: How far does the leaf open?}
        steps:
          - ask: {id: how-far, fact: opening}
          - do:
              id: hold-it-up
              when: {opening: "> 140 deg"}   # here
              text: Look whether the body clears the wall.
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          opening: {angle: {from: 60 deg, to: 180 deg, step: 1 deg}, ask: How far does the leaf open?}
        steps:
          - ask: {id: how-far, fact: opening}
          - do:
              id: hold-it-up
              when: {opening: "> 140 deg"}
              text: Look whether the body clears the wall.
              why: Past 140 degrees the body comes near the wall.
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "threshold-unsaid"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” decides by {number}, which no words of this file name; say it where it matters."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
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
                    yield _found(node, cls, cls.message.format(id=id_, number=number))
                    break


class WordsAgainstLimit(Rule):
    """The words beside a limit bound its number the other way.

    The step says that 5 lbf is the most, and the check lets nothing pass but more than that: one of the two is a
    slip, and the run goes by the limit. What is read as a bound is “at most”, “no more than”, “within”, “or
    less”, “is the most”, and “at least”, “no less than”, “or more”, beside a number with its unit.

    Do: turn the limit round, or mend the words.

    Fails:

        facts:
          force: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it at the handle?}
        steps:
          - check:
              id: light   # here
              fact: force
              limit: ">= 5 lbf"
              why: Indoors 5 lbf is the most (ADA 404.2.9).
              otherwise: {steps: [{end: {id: heavy, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          force: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it at the handle?}
        steps:
          - check:
              id: light
              fact: force
              limit: "<= 5 lbf"
              why: Indoors 5 lbf is the most (ADA 404.2.9).
              otherwise: {steps: [{end: {id: heavy, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "words-against-limit"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "The limit of “{id}” wants {side} {number}, and its words say {said}; turn one of the two round."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each check and each repeat whose own words bound a number of it the other way, and none its way."""
        for node, limit in _limits(graph):
            words = [*words_of(node), *asking_words(graph.facts[node.body["fact"]])]
            yield from _against(graph, node, limit, words, cls)
        for node in graph.nodes:
            if node.kind == "repeat" and node.index in graph.untils:
                low = graph.loops[node.edges[1].loop].low
                words = [text for one in graph.nodes[low : node.index] for text in words_of(one)]
                yield from _against(graph, node, graph.untils[node.index], words, cls)


class WordsAgainstWhen(Rule):
    """A block says for which readings it is, and its `when` takes the others.

    “Past 140 degrees the body meets the wall” stands in a block that is gone through up to 140 degrees. What is
    read is “more than”, “over”, “past”, “wider than” and the like, and “less than”, “under”, “below”, “narrower
    than”, beside a number with its unit.

    Do: turn the condition round, or mend the words.

    Fails:

        facts:
          opening: {angle: {from: 60 deg, to: 180 deg, step: 1 deg}, ask: How far does the leaf open?}
        steps:
          - ask: {id: how-far, fact: opening}
          - do:
              id: hold-it-up
              when: {opening: "<= 140 deg"}   # here
              text: Look whether the body clears the wall.
              why: Past 140 degrees the body comes near the wall.
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          opening: {angle: {from: 60 deg, to: 180 deg, step: 1 deg}, ask: How far does the leaf open?}
        steps:
          - ask: {id: how-far, fact: opening}
          - do:
              id: hold-it-up
              when: {opening: "> 140 deg"}
              text: Look whether the body clears the wall.
              why: Past 140 degrees the body comes near the wall.
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "words-against-when"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” is gone through at {side} {number}, and its words are about {said} that; turn one round."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each block whose own words tell of readings past a number, all on the other side of its `when`."""
        for node in graph.nodes:
            guard = node.edges[0].guard if node.kind == "when" else None
            if guard is None:
                continue
            words = words_of(graph.nodes[node.edges[0].target])
            for name, number, side in sides(guard):
                told = {
                    one.case
                    for one in _said(graph, words, name)
                    if one.value == number and one.case
                }
                if told and side not in told:
                    id_ = node.id.removesuffix("?")
                    said = "more than" if LOWER in told else "less than"
                    message = cls.message.format(id=id_, side=side, number=number, said=said)
                    yield _found(node, cls, message)
                    break


class LimitContrary(Rule):
    """A failed check is mended until it fails.

    A `repeat` under `otherwise` is to bring the reading where the check wants it. Its `until` holds a reading of the
    same kind against the same number, and asks for the other side of it.

    Do: turn `until` or the check's limit round.

    Fails:

        facts:
          force: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it?}
          force_now: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it now?}
        steps:
          - check:
              id: light
              fact: force
              limit: "<= 5 lbf"
              why: Indoors 5 lbf is the most (ADA 404.2.9).
              otherwise:
                steps:
                  - repeat:
                      id: ease   # here
                      steps:
                        - do: {id: less-spring, text: Make the spring weaker.}
                        - ask: {id: now, fact: force_now}
                      until: {force_now: "> 5 lbf"}
                      at_most: 3
                      otherwise: {steps: [{end: {id: heavy, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          force: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it?}
          force_now: {force: {from: 0 lbf, to: 60 lbf}, ask: What force opens it now?}
        steps:
          - check:
              id: light
              fact: force
              limit: "<= 5 lbf"
              why: Indoors 5 lbf is the most (ADA 404.2.9).
              otherwise:
                steps:
                  - repeat:
                      id: ease
                      steps:
                        - do: {id: less-spring, text: Make the spring weaker.}
                        - ask: {id: now, fact: force_now}
                      until: {force_now: "<= 5 lbf"}
                      at_most: 3
                      otherwise: {steps: [{end: {id: heavy, outcome: refused, text: Fetch the foreman.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "limit-contrary"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "“{id}” goes on until {side} {number}, and the check “{check}” before it wants the other side; "
        "turn one of the two round."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each repeat under a failed check whose `until` wants the other side of the same number."""
        for check, limit in _limits(graph):
            wanted = [(kind_of(graph.facts[f]), n, side) for f, n, side in sides(limit)]
            for node in graph.nodes[slice(*check.edges[1].inside)]:
                if node.kind != "repeat" or node.index not in graph.untils:
                    continue
                for name, number, side in sides(graph.untils[node.index]):
                    kind = kind_of(graph.facts[name])
                    if (kind, number, UPPER if side == LOWER else LOWER) in wanted:
                        message = cls.message.format(
                            id=node.id, side=side, number=number, check=check.id
                        )
                        yield _found(node, cls, message)
                        break


def _limits(graph: Graph) -> Iterator[tuple[Node, Condition]]:
    """Every check that has a readable limit."""
    return ((graph.nodes[index], limit) for index, limit in graph.limits.items())


def _numbers_at(graph: Graph, node: Node) -> list[tuple[str, Number]]:
    found = [pair for condition in conditions_at(graph, node) for pair in numbers(condition)]
    return list(dict.fromkeys(found))


def _named(graph: Graph, words: list[str], name: str, number: Number) -> bool:
    return any(names(text, number, kind_of(graph.facts[name])) for text in words)


def _said(graph: Graph, words: list[str], name: str) -> list[Said]:
    return [one for text in words for one in said_in(text, kind_of(graph.facts[name]))]


def _against(
    graph: Graph, node: Node, condition: Condition, words: list[str], rule: type[Rule]
) -> Iterator[Finding]:
    for name, number, side in sides(condition):
        told = {
            one.wanted for one in _said(graph, words, name) if one.value == number and one.wanted
        }
        if told and side not in told:
            message = rule.message.format(
                id=node.id, side=side, number=number, said=f"{next(iter(told))} that"
            )
            yield _found(node, rule, message)
            break


def _found(node: Node, rule: type[Rule], message: str) -> Finding:
    return Finding(node.file, node.line, node.column, rule.code, rule.level, message)


RULES = (LimitUnsaid, ThresholdUnsaid, WordsAgainstLimit, WordsAgainstWhen, LimitContrary)
