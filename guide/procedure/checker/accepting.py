"""Findings that a file accepts: `accepted: [{code, at, because}]`, each with its reason.

An entry speaks for its own file, whichever file includes that. Whether it is still needed is told only where
its file is checked by itself, since a part may be found fault with in one procedure and not in another.
"""

from collections.abc import Iterator

from guide.procedure import schema
from guide.procedure.checker.rules import RULES
from guide.procedure.findings import Finding, Mark
from guide.procedure.load import Loaded
from guide.procedure.marks import Map, Node, Seq, Text
from guide.procedure.source import Path_, Source
from guide.text import meant, short

Accepted = tuple[Finding, str]
"""A finding, and why it may stand."""


def sift(
    loaded: Loaded, findings: list[Finding], *, whole: bool
) -> tuple[list[Finding], list[Accepted]]:
    """The findings that remain, with those about the entries themselves; and those accepted.

    `whole` says whether everything could be looked at; else no entry is called unused.
    """
    accepted: list[Accepted] = []
    more: list[Finding] = []
    for source in loaded.sources.values():
        entries: list[schema.AcceptedShape] = getattr(source.shape, "accepted", [])
        places = _places(source) if entries else {}
        for number, entry in enumerate(entries):
            path: Path_ = ("accepted", number)
            refusal = _refusal(source, path, entry, places)
            if refusal is not None:
                more.append(refusal)
                continue
            found = [f for f in findings if _covers(source, entry, places[entry.at], f)]
            accepted += [(finding, entry.because) for finding in found]
            if not found and whole and source is loaded.root:
                more.append(_said(source, path, "accepted-unused", _unused(entry)))
    taken = {finding for finding, _ in accepted}
    return [f for f in findings if f not in taken] + more, sorted(
        accepted, key=lambda one: one[0].place()
    )


def _covers(source: Source, entry: schema.AcceptedShape, marks: set[Mark], found: Finding) -> bool:
    here = found.file == source.shown and (found.line, found.column) in marks
    return here and found.code == entry.code


def _unused(entry: schema.AcceptedShape) -> str:
    return f"There is no “{entry.code}” at “{short(entry.at)}” to accept; take the entry out."


def _refusal(
    source: Source, path: Path_, entry: schema.AcceptedShape, places: dict[str, set[Mark]]
) -> Finding | None:
    """Why an entry counts for nothing; None where it counts."""
    if entry.code not in RULES:
        hint = meant(entry.code, RULES, "“hingeside check --explain” lists them all.")
        message = f"There is no finding “{short(entry.code)}”; {hint}"
        return _said(source, (*path, "code"), "accepted-unknown", message)
    if not RULES[entry.code].acceptable:
        message = f"“{entry.code}” cannot be accepted; mend what is found."
        return _said(source, (*path, "code"), "accepted-refused", message)
    if entry.at not in places:
        hint = meant(entry.at, places, "name a block by its id.")
        message = f"This file has no block and no fact “{short(entry.at)}”; {hint}"
        return _said(source, (*path, "at"), "accepted-unknown", message)
    return None


def _said(source: Source, path: Path_, code: str, message: str) -> Finding:
    return Finding(source.shown, *source.mark(path), code, RULES[code].level, message)


def _places(source: Source) -> dict[str, set[Mark]]:
    """Every place of each block, without the blocks inside it, and of each declared fact."""
    found: dict[str, set[Mark]] = {}
    for owner, mark in _owned(source.tree, ""):
        found.setdefault(owner, set()).add(mark)
    facts = source.tree.entries.get("facts") if isinstance(source.tree, Map) else None
    if isinstance(facts, Map):
        for name, fact in facts.entries.items():
            marks = {mark for _, mark in _owned(fact, name)}
            found.setdefault(name, set()).update(marks, {facts.key_marks[name]})
    found.pop("", None)
    return found


def _owned(node: Node, owner: str) -> Iterator[tuple[str, Mark]]:
    """Every place below a node, with the block that it belongs to."""
    if isinstance(node, Map):
        owner = _block_id(node) or owner
        for key, value in node.entries.items():
            yield owner, node.key_marks[key]
            yield from _owned(value, owner)
    elif isinstance(node, Seq):
        for item in node.items:
            yield from _owned(item, owner)
    yield owner, node.mark


def _block_id(node: Map) -> str:
    """The id of a block; empty for a mapping that is none."""
    if len(node.entries) != 1:
        return ""
    ((kind, body),) = node.entries.items()
    named = body.entries.get("id") if kind in schema.BLOCK_KINDS and isinstance(body, Map) else None
    return named.value if isinstance(named, Text) else ""
