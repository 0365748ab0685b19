"""Rules of unused parts: facts that nobody asks, facts that a part is given for nothing, idle questions."""

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from guide.checker.bounds import conditions_at
from guide.checker.manual import at_block, at_part
from guide.files.findings import Finding
from guide.files.marks import Map, Node, Seq, Text
from guide.files.source import Source
from guide.procedure import schema
from guide.procedure.compiler import COUNTS_ON, END_OF_PART
from guide.procedure.conditions import facts_of
from guide.procedure.facts import NONE, UNSURE
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded, includes_in
from guide.text import names_in

DRAWN = ("mount", "knuckles", "hinge", "opening", "width", "thickness")
"""The facts that a drawing is made of, which no block names."""
MOST_NEIGHBOURS = 200
"""Files of the folder that are looked into for a shared fact; in a larger folder nothing is said."""
LARGEST_NEIGHBOUR = 2 * 1024 * 1024
"""Bytes; a larger file is not a procedure."""


_COMPARED = re.compile(r"^(?:[<>]=?|=) *([a-z][a-z0-9_]*)")
"""A fact that another is compared with."""


def fact_unused(loaded: Loaded) -> Iterator[Finding]:
    """Each declared fact that no gathered file names and, where it is shared, no file beside them."""
    if not loaded.whole:
        return
    used = {name for source in loaded.sources.values() for name in _named_in(source)}
    used.update(name for source in loaded.sources.values() for name in _counted_on(source))
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
                message = (
                    f"Nothing asks or uses “{name}”; "
                    "put the question back that it is for, or take the fact out."
                )
                yield at_part(source, loaded.declared[name][1], "fact-unused", message, key=True)


def counts_on_unused(loaded: Loaded) -> Iterator[Finding]:
    """Each given fact that neither its part nor what that includes uses, itself or by computing."""
    if not loaded.whole:
        return
    for source in loaded.sources.values():
        given = _counted_on(source)
        used = _used_within(loaded, source) if given else set()
        for number, name in enumerate(given):
            if name not in used:
                message = (
                    f"Nothing in this part uses “{name}”; "
                    "take it out of counts_on, or put back what used it."
                )
                yield at_part(source, ("counts_on", number), "counts-on-unused", message)


def fact_unasked(loaded: Loaded) -> Iterator[Finding]:
    """Each fact of a procedure's own that a computation goes by if it is known, and that no block asks."""
    if not loaded.whole:
        return
    asked = {
        fact for source in loaded.sources.values() for fact in _asked_in(source.tree, source.shape)
    }
    inputs = {name: fact for fact in loaded.facts for name in loaded.facts[fact].input_facts()}
    for name, fact in loaded.facts.items():
        source, path = loaded.declared[name]
        own = isinstance(source.shape, schema.ProcedureShape)
        if own and not fact.worked and name in inputs and name not in asked:
            message = (
                f"Nothing asks “{name}”, and “{inputs[name]}” goes by it; "
                "put the question back, or take the input out."
            )
            yield at_part(source, path, "fact-unasked", message, key=True)


def _asked_in(node: Node, shape: object) -> Iterator[str]:
    """The facts that blocks ask, time, check or are given; none in a file of facts."""
    if isinstance(shape, schema.ProcedureShape):
        yield from shape.counts_on
        yield from _facts_of_blocks(node)


def _facts_of_blocks(node: Node) -> Iterator[str]:
    """Every value of a key `fact`."""
    if isinstance(node, Map):
        for key, value in node.entries.items():
            if key == "fact" and isinstance(value, Text):
                yield value.value
            else:
                yield from _facts_of_blocks(value)
    elif isinstance(node, Seq):
        for item in node.items:
            yield from _facts_of_blocks(item)


def answer_unused(graph: Graph) -> Iterator[Finding]:
    """Each question of a whole procedure, with labels for answers, that nothing goes by."""
    if any(node.id.startswith(f"{COUNTS_ON}/") or node.id == END_OF_PART for node in graph.nodes):
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
            message = (
                f"Nothing depends on the answer to “{node.id}”; "
                "put back what it was for, or take it out."
            )
            yield at_block(node, "answer-unused", message)


def _texts(body: dict[str, object]) -> list[str]:
    return [value for value in body.values() if isinstance(value, str)]


def _counted_on(source: Source) -> list[str]:
    """The facts that a part needs to be known; none for other files."""
    return source.shape.counts_on if isinstance(source.shape, schema.ProcedureShape) else []


def _named_in(source: Source) -> set[str]:
    """Every word of a file that may name a fact: values, keys of conditions, names in braces. What a fact is
    declared as, and what a part is given, name nothing."""
    found: set[str] = set()
    if isinstance(source.tree, Map):
        for key, node in source.tree.entries.items():
            if key == "facts" and isinstance(node, Map):
                for fact in node.entries.values():
                    _gather(fact, found)
            elif key != "counts_on":
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
        found.update(_COMPARED.findall(node.value))
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


def option_gone(loaded: Loaded) -> Iterator[Finding]:
    """Each fact of a shared file that lacks an answer by which another file of the folder goes."""
    for source in loaded.sources.values():
        if not isinstance(source.shape, schema.FactsFileShape):
            continue
        own = {
            name: fact
            for name, fact in loaded.facts.items()
            if fact.kind == "choice" and fact.options and loaded.declared[name][0] is source
        }
        gone = _labels_beside(loaded, source, frozenset(own)) if own else {}
        for name, (label, file) in gone.items():
            message = (
                f"“{file}” goes by the answer “{label}” of “{name}”, which has no such option; "
                "put it back, or correct that file."
            )
            yield at_part(source, loaded.declared[name][1], "option-gone", message, key=True)


def _labels_beside(
    loaded: Loaded, shared: Source, names: frozenset[str]
) -> dict[str, tuple[str, str]]:
    """For each fact the first answer that it lacks and that a file of the folder goes by which gathers the shared
    file, with that file."""
    found: dict[str, tuple[str, str]] = {}
    gathered = {path.name for path in loaded.sources}
    try:
        beside = sorted(p for p in shared.path.parent.glob("*.yaml") if p.name not in gathered)
        for path in beside if len(beside) <= MOST_NEIGHBOURS else ():
            stat = path.stat()
            if not path.is_file() or stat.st_size > LARGEST_NEIGHBOUR:
                continue
            if shared.path.name in _words(path, stat.st_mtime_ns, stat.st_size):
                for name, label in _tests_of(path, stat.st_mtime_ns, stat.st_size):
                    fact = loaded.facts[name] if name in names else None
                    known = {*fact.options, UNSURE, NONE} if fact is not None else {label}
                    if label not in known and label not in loaded.facts:
                        found.setdefault(name, (label, path.name))
    except OSError:
        return {}
    return found


_TEST = re.compile(r"\b([a-z][a-z0-9_]*): *(?:\[([\w, -]+)\]|([\w-]+)) *(?=[,}\n])")
"""A test of a fact for one answer or for a list of them, as it stands in a condition."""


@lru_cache(maxsize=2 * MOST_NEIGHBOURS)
def _tests_of(path: Path, changed: int, size: int) -> tuple[tuple[str, str], ...]:
    """Every fact and answer in the conditions of a file, as it was when it was last changed; without what its own
    facts are declared as."""
    text = path.read_text("utf-8", "replace").partition("\nsteps:")[2]
    return tuple(
        (found[1], label.strip())
        for found in _TEST.finditer(text)
        for label in (found[2] or found[3]).split(",")
    )


@lru_cache(maxsize=2 * MOST_NEIGHBOURS)
def _words(path: Path, changed: int, size: int) -> frozenset[str]:
    """Every word and file name of a text, as it was when it was last changed: one check of a whole folder
    looks into the same files again and again."""
    return frozenset(re.findall(r"[\w.-]*\w", path.read_text("utf-8", "replace")))
