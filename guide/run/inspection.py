"""The items of an inspection: each check of its procedure, with its result as far as the run came."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import astuple, dataclass
from typing import TypeVar

from guide.procedure.conditions import UnknownFact, holds
from guide.procedure.graph import Graph, Node
from guide.procedure.worked_facts import NeedsWork
from guide.run.state import State, occurrence_of
from guide.run.texts import filled, name_of, show_fact

T = TypeVar("T")
PASS, FAIL, NOT_REACHED = "pass", "fail", "not reached"


@dataclass(frozen=True, slots=True)
class Item:
    """One item of one inspection."""

    fact: str
    """The fact that its check asks; items of several inspections are compared by it."""
    title: str
    result: str
    """`PASS`, `FAIL` or `NOT_REACHED`."""
    found: str = ""
    """What was found, for a person; empty if it was not reached."""
    noted: str = ""
    """What was written down at it."""
    photos: tuple[tuple[str, str], ...] = ()
    """What each photo that was added at it shows, and the SHA-256 of the copy that is kept."""


def items_of(state: State) -> list[Item]:
    """Every item, in the order of the procedure. What does not apply to a door that was gone through to an end, such as
    the item of another country, is left out."""
    reached = {at[0] for at in (state.path if state.ended else state.path[:-1])}
    noted = _at_items(state, [(at, text) for _, at, text in state.notes])
    photos = _at_items(state, [(one.at, (one.shows, one.sha256)) for one in state.photos])
    found: dict[str, Item] = {}
    for node in item_nodes(state.graph):
        fact = node.body["fact"]
        result = _result(state, node) if node.index in reached else NOT_REACHED
        if result != NOT_REACHED:
            found[fact] = Item(
                fact,
                _title(state, fact),
                result,
                _found(state, node),
                "; ".join(noted.get(node.index, ())),
                tuple(photos.get(node.index, ())),
            )
        elif not _went_through(state):
            found.setdefault(fact, Item(fact, _title(state, fact), NOT_REACHED))
    return list(found.values())


def item_nodes(graph: Graph) -> Iterator[Node]:
    """The checks that are items: a failed one leads on. One that ends the job asks only whether the inspection fits."""
    for node in graph.nodes:
        if node.kind == "check" and graph.nodes[node.edges[1].target].kind != "end":
            yield node


def _title(state: State, fact: str) -> str:
    name = name_of(state, fact)
    return f"{name[:1].upper()}{name[1:]}"


def _found(state: State, node: Node) -> str:
    """What was answered; of a computed item what was measured for it, and what its check says."""
    graph, fact = state.graph, node.body["fact"]
    if not graph.facts[fact].worked:
        return show_fact(state, fact)
    of = graph.inputs_of(fact)
    read = [name for name, one in graph.facts.items() if name in of and one.measured]
    known = [f"{name_of(state, one)}: {show_fact(state, one)}" for one in read if one in state.env]
    said = filled(state, node.body.get("text", ""), node) or show_fact(state, fact)
    return f"{'; '.join(known)}. {said}" if known else said


def _went_through(state: State) -> bool:
    return bool(state.ended) and state.node.kind == "end"


def _result(state: State, node: Node) -> str:
    try:
        return PASS if holds(state.graph.limits[node.index], state.env) else FAIL
    except (UnknownFact, NeedsWork):
        return NOT_REACHED


def _at_items(state: State, told: Sequence[tuple[str, T]]) -> dict[int, list[T]]:
    """What was told at each check and at the steps after it, by the check's index; each with its place in the run."""
    checks = [node.index for node in item_nodes(state.graph)]
    found: dict[int, list[T]] = {}
    for at, one in told:
        place = occurrence_of(state.graph, at)
        before = [index for index in checks if place is not None and index <= place[0]]
        if before:
            found.setdefault(before[-1], []).append(one)
    return found


def written_items(items: list[Item]) -> str:
    """Items as the catalogue keeps them."""
    return json.dumps([astuple(item) for item in items], ensure_ascii=False)


def read_items(text: str) -> list[Item]:
    """Items that the catalogue kept."""
    kept = json.loads(text) if text else []
    return [
        Item(fact, title, result, found, noted, tuple((shows, sha) for shows, sha in photos))
        for fact, title, result, found, noted, photos in kept
    ]
