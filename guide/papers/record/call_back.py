"""What a call-back asks of a record: the closer, as found, every test and turn, as left, and what remains."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

from guide.procedure.graph import Node
from guide.run.events import Event
from guide.run.found_and_left import found_and_left
from guide.run.prompt import next_job
from guide.run.state import Occurrence, State
from guide.run.texts import filled, show_fact, show_piece
from guide.text import fill

SERIAL, SPRING = (
    "serial",
    (
        ("size", "Size the leaf needs"),
        ("start_size", "Size set on the bench"),
        ("spring_turns", "Turns on the bench"),
    ),
)
SPRING_NOW, MOUNT = "size_now", "mount"
ADVISERS = ("tune-next", "backcheck")
"""Computations whose answer is what to turn."""


@dataclass(frozen=True, slots=True)
class Round:
    """One time round a part that is done again: what was turned before, read after, and done on that."""

    number: int
    turned: tuple[str, ...]
    """As it was advised."""
    done: tuple[str, ...]
    """Work that no advice was given for; the swings that follow a turn do not count."""
    read: tuple[tuple[str, str], ...]
    """Short question and value."""
    marks: bool = False
    """Whether it is of marks that are measured again before a cut."""
    again: bool = False
    """Whether its part was gone round more than once."""


def rounds(state: State) -> list[Round]:
    """Every round of the path, in order."""
    found: list[
        tuple[tuple[int, tuple[int, ...]], list[str], list[str], list[tuple[str, str]]]
    ] = []
    for at in _passed(state):
        node = state.graph.nodes[at[0]]
        tries = state.graph.tries_of(node)
        if not tries:
            continue
        key = tries[-1], at[1]
        if not found or found[-1][0] != key:
            found.append((key, [], [], []))
        answer = state.answers.get(at)
        if answer is not None:
            fact = state.graph.facts[node.body["fact"]]
            asked = fact.short_question(state.units).rstrip("?")
            found[-1][3].append((asked, fact.show(answer.value, state.units)))
        elif _advises(state, node):
            if at in state.dones or at != state.at:
                found[-1][1].append(_words(state, at, node))
        elif works(node) and at in state.dones and not found[-1][1]:
            found[-1][2].append(_words(state, at, node))
    times = Counter(key[0] for key, *lists in found if any(lists))
    graph = state.graph
    blind = {n for one in graph.nodes if one.body.get("blind") for n in graph.tries_of(one)}
    return [
        Round(
            *(key[1][-1], tuple(turned), tuple(done), tuple(read)),
            marks=key[0] in blind,
            again=times[key[0]] > 1,
        )
        for key, turned, done, read in found
        if turned or done or read
    ]


def remains(state: State, events: list[Event]) -> list[str]:
    """What the end of an unfinished job says, and what was made safe; what follows, where a job does."""
    if not state.ended:
        return []
    follows = next_job(state)
    after = [f"Next: {follows.title}"] if follows else []
    if state.ended == "finished":
        return after
    lines = [state.ended_why or filled(state, state.node.body.get("text", ""), state.node)]
    ended = next(event for event in reversed(events) if event.kind == "ended")
    lines += [f"Safe: {one}" for one in ended.body.get("safe", ())]
    return [*lines, *after]


def call_back_data(state: State, events: list[Event]) -> dict[str, Any]:
    """The same as plain data."""
    return {
        "closer": dict(closer(state)),
        "found_and_left": [
            {"asked": asked, "found": first, "left": last}
            for asked, first, last in found_and_left(state)
        ],
        "rounds": [
            {
                "round": one.number,
                "turned": list(one.turned),
                "done": list(one.done),
                "read": dict(one.read),
            }
            for one in rounds(state)
        ],
        "remains": remains(state, events),
    }


def closer(state: State) -> Iterator[tuple[str, str]]:
    """Model, serial, mount and spring, as far as they are known. The size of the table is of a new closer alone."""
    if state.sheet is not None:
        yield "Model, by its sheet", str(state.sheet["sheet"])
    if state.known(SERIAL) is not None:
        yield "Serial", show_fact(state, SERIAL)
    if state.known(MOUNT) is not None:
        yield "Mount", show_fact(state, MOUNT)
    if state.known("start_size") is not None:
        for name, words in SPRING:
            if state.known(name) is not None:
                yield words, show_fact(state, name)
    if state.known(SPRING_NOW) is not None:
        yield "Spring now at EN size", show_fact(state, SPRING_NOW)
    # A valve may have been turned along with the spring, in a sentence of its own.
    told = (
        sentence for one in rounds(state) for said in one.turned for sentence in said.split(". ")
    )
    turned = [one.rstrip(".").split(": ", 1)[-1] for one in told if "spring" in one.casefold()]
    if turned:
        yield "Spring turned since", "; ".join(turned)


def round_lines(one: Round) -> list[str]:
    """A round as lines of a record, with its number if there were several. Marks stand with the holes."""
    read = "; ".join(f"{asked}: {value}" for asked, value in one.read)
    lines = [f"Turned: {said}" for said in one.turned]
    lines += [f"Read: {read}"] if read else []
    lines += [] if one.marks else [f"Done: {said}" for said in one.done]
    if not one.again:
        return lines
    called = "Marks" if one.marks else "Test"
    return [f"{called} {one.number}. {line}" for line in lines]


def _advises(state: State, node: Node) -> bool:
    """Whether a block shows what to turn."""
    return node.kind == "work" and state.graph.facts[node.body["fact"]].computation in ADVISERS


def works(node: Node) -> bool:
    """Whether a block of a round is work at the door, and not a look at it."""
    return node.kind == "do" and bool(node.body.get("tools") or node.body.get("hazards"))


def _words(state: State, at: Occurrence, node: Node) -> str:
    """A step as it was worded when it was done."""
    done = state.dones.get(at, {})

    def then(state: State, name: str) -> str:
        if name not in done:
            return show_fact(state, name)
        fact = state.graph.facts[name]
        return fact.show(fact.decode(done[name]), state.units)

    return fill(node.body.get("text", node.id), partial(show_piece, state, node=node, of_fact=then))


def _passed(state: State) -> list[Occurrence]:
    return state.path if state.ended else state.path[:-1]
