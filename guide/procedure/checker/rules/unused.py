"""Rules of what is for nothing: facts that nobody asks, parts that want what they do not use, idle questions."""

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import ClassVar

from guide.procedure import schema
from guide.procedure.checker.decisions import conditions_at
from guide.procedure.checker.rules.rule import Rule
from guide.procedure.compiler import END_OF_PART, GIVEN
from guide.procedure.conditions import facts_of
from guide.procedure.findings import WARNING, Finding
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded, includes_in
from guide.procedure.marks import Map, Node, Seq
from guide.procedure.source import Source
from guide.text import names_in

DRAWN = ("mount", "knuckles", "hinge", "opening", "width", "thickness")
"""The facts that a drawing is made of, which no block names."""
MOST_NEIGHBOURS = 200
"""Files of the folder that are looked into for a shared fact; in a larger folder nothing is said."""
LARGEST_NEIGHBOUR = 2 * 1024 * 1024
"""Bytes; what is larger is no procedure."""


class FactUnused(Rule):
    """A fact is declared that nothing asks or uses.

    Mostly the check or the question that it was written for has been lost, and with it the way out for a door
    that fails it. A fact shared by several files counts as used where any file of the folder names it.

    Do: put the question back, or take the fact out.

    Fails:

        facts:
          gaps: {yesno: {}, ask: Are the fire door's gaps within its limits?}   # here
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {fire: yes}, text: Read the label.}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          gaps: {yesno: {}, ask: Are the fire door's gaps within its limits?}
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {fire: yes}, text: Read the label.}
          - check:
              id: fire-gaps
              when: {fire: yes}
              fact: gaps
              limit: yes
              otherwise: {steps: [{end: {id: gaps-first, outcome: refused, text: Have the gaps put right.}}]}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "fact-unused"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "Nothing asks or uses “{id}”; put the question back that it is for, or take the fact out."
    )

    @classmethod
    def in_facts(cls, loaded: Loaded) -> Iterator[Finding]:
        """Each declared fact that no gathered file names and, where it is shared, no file beside them."""
        if not loaded.whole:
            return
        used = {name for source in loaded.sources.values() for name in _named_in(source)}
        used.update(name for source in loaded.sources.values() for name in _given(source))
        for source in loaded.sources.values():
            names = [
                name
                for name, (declaring, _) in loaded.declared.items()
                if declaring is source and name not in used
            ]
            shared = isinstance(source.shape, schema.FactsFileShape)
            elsewhere = _named_beside(loaded, source, names) if shared and names else set()
            for name in names:
                if name not in elsewhere:
                    mark = source.mark(loaded.declared[name][1], key=True)
                    message = cls.message.format(id=name)
                    yield Finding(source.shown, *mark, cls.code, cls.level, message)


class GivenUnused(Rule):
    """A part counts on a fact that it does not use.

    `given` is what a part needs to be known before it begins: run or checked by itself, it asks for it first.
    What nothing in it shows, reads, decides by or computes with is asked for nothing, or the block that used
    it, or the `when`, has been lost.

    Do: take the fact out of `given`, or put back what used it.

    Fails:

        given: [fire]   # here
        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - do: {id: tonight, text: Plan to leave it closing by itself tonight.}

    Passes:

        given: [fire]
        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - do: {id: tonight, when: {fire: yes}, text: Plan to leave it closing by itself tonight.}
    """

    code: ClassVar[str] = "given-unused"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "Nothing in this part uses “{id}”; take it out of given, or put back what used it."
    )

    @classmethod
    def in_facts(cls, loaded: Loaded) -> Iterator[Finding]:
        """Each given fact that neither its part nor what that includes uses, itself or by computing."""
        if not loaded.whole:
            return
        for source in loaded.sources.values():
            given = _given(source)
            used = _used_within(loaded, source) if given else set()
            for number, name in enumerate(given):
                if name not in used:
                    mark = source.mark(("given", number))
                    message = cls.message.format(id=name)
                    yield Finding(source.shown, *mark, cls.code, cls.level, message)


class AnswerUnused(Rule):
    """A question is asked whose answer changes nothing.

    No branch, check, text or computation uses it: whoever stands on the ladder answers, and every door goes the
    same way. Mostly a `when` has been lost. Readings, such as a time or a force, are for the record and may stand
    alone.

    Do: put back the `when` or the branch that the answer was for, or take the question out. What is asked for the
    record alone, accept with that reason.

    Fails:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}   # here
          - do: {id: label, text: Read the label.}
          - end: {id: done, outcome: finished}

    Passes:

        facts:
          fire: {yesno: {}, ask: Is it a fire door?}
        steps:
          - ask: {id: fire-door, fact: fire}
          - do: {id: label, when: {fire: yes}, text: Read the label.}
          - end: {id: done, outcome: finished}
    """

    code: ClassVar[str] = "answer-unused"
    level: ClassVar[str] = WARNING
    acceptable: ClassVar[bool] = True
    message: ClassVar[str] = (
        "Nothing is done otherwise for the answer to “{id}”; put back what it was for, or take it out."
    )

    @classmethod
    def in_graph(cls, graph: Graph) -> Iterator[Finding]:
        """Each question of a whole procedure, with labels for answers, that nothing goes by."""
        if any(node.id.startswith(f"{GIVEN}/") or node.id == END_OF_PART for node in graph.nodes):
            return  # what a part asks may be for another part
        used: set[str] = set()
        for node in graph.nodes:
            asked = node.body.get("fact", "") if node.kind in ("ask", "time") else ""
            used.update(name for name in node.shows if name != asked)
            used.update(names_in(" ".join(_texts(node.body))))
            used.update(name for one in conditions_at(graph, node) for name in facts_of(one))
            used.update(DRAWN if "draws" in node.body else ())
        for fact in graph.facts.values():
            used.update(fact.input_facts())
            used.update(fact.offer.using.values() if fact.offer is not None else ())
        for node in graph.nodes:
            name = node.body.get("fact", "")
            labelled = name in graph.facts and graph.facts[name].kind in ("choice", "yesno")
            if node.kind == "ask" and labelled and name not in used:
                message = cls.message.format(id=node.id)
                yield Finding(node.file, node.line, node.column, cls.code, cls.level, message)


def _texts(body: dict[str, object]) -> list[str]:
    return [value for value in body.values() if isinstance(value, str)]


def _given(source: Source) -> list[str]:
    """The facts that a part counts on; none for other files."""
    return source.shape.given if isinstance(source.shape, schema.ProcedureShape) else []


def _named_in(source: Source) -> set[str]:
    """Every word of a file that may name a fact: values, keys of conditions, names in braces. What a fact is
    declared as, and what a part is given, name nothing."""
    found: set[str] = set()
    if isinstance(source.tree, Map):
        for key, node in source.tree.entries.items():
            if key == "facts" and isinstance(node, Map):
                for fact in node.entries.values():
                    _gather(fact, found)
            elif key != "given":
                _gather(node, found)
        if "draws" in found:
            found.update(DRAWN)
    return found


def _gather(node: Node, found: set[str]) -> None:
    if isinstance(node, Map):
        found.update(node.entries)
        for value in node.entries.values():
            _gather(value, found)
    elif isinstance(node, Seq):
        for item in node.items:
            _gather(item, found)
    else:
        found.add(node.value)
        if "{" in node.value:
            found.update(names_in(node.value))


def _used_within(loaded: Loaded, source: Source) -> set[str]:
    """The facts that a part and what it includes use, those too that its computed facts come from."""
    used: set[str] = set()
    todo, seen = [source], {source.path}
    while todo:
        one = todo.pop()
        used |= _named_in(one)
        if isinstance(one.shape, schema.ProcedureShape):
            for name, _ in includes_in(one.shape.steps, ("steps",)):
                inner = loaded.included(one, name)
                if inner is not None and inner.path not in seen:
                    seen.add(inner.path)
                    todo.append(inner)
    names = [name for name in used if name in loaded.facts]
    while names:
        fact = loaded.facts[names.pop()]
        wanted = [*fact.input_facts(), *(fact.offer.using.values() if fact.offer else ())]
        names += [name for name in wanted if name in loaded.facts and name not in used]
        used.update(wanted)
    return used


def _named_beside(loaded: Loaded, shared: Source, names: list[str]) -> set[str]:
    """Those of the names that another file of the folder uses which gathers the shared file; all of them where
    that cannot be told."""
    gathered = {path.name for path in loaded.sources}
    left, users = set(names), 0
    try:
        beside = sorted(p for p in shared.path.parent.glob("*.yaml") if p.name not in gathered)
        for path in beside if len(beside) <= MOST_NEIGHBOURS else ():
            if not left:
                break
            stat = path.stat()
            if path.is_file() and stat.st_size <= LARGEST_NEIGHBOUR:
                words = _words(path, stat.st_mtime_ns, stat.st_size)
                if shared.path.name in words:
                    users += 1
                    left -= words
    except OSError:
        return set(names)
    told = len(beside) <= MOST_NEIGHBOURS and (users > 0 or not loaded.facts_only)
    return set(names) - left if told else set(names)


@lru_cache(maxsize=2 * MOST_NEIGHBOURS)
def _words(path: Path, changed: int, size: int) -> frozenset[str]:
    """Every word and file name of a text, as it was when it was last changed: one check of a whole folder
    looks into the same files again and again."""
    return frozenset(re.findall(r"[\w.-]*\w", path.read_text("utf-8", "replace")))


RULES = (FactUnused, GivenUnused, AnswerUnused)
