"""What is known and what was done in a run, and the block before or after the one that is looked at."""

from typing import NamedTuple

from guide.run.state import HIDDEN, Occurrence, State, label
from guide.run.texts import block_words


class Known(NamedTuple):
    """One thing known of the opening."""

    at: str
    """Where it was answered, so that it can be changed; empty for a computed one."""
    fact: str
    question: str
    value: str


def known(state: State) -> list[Known]:
    """The known facts of the opening, in the order of their answers; of several things in turn, those of the last."""
    found: dict[str, Known] = {}
    for at in state.path:
        for name in state.graph.nodes[at[0]].body.get("forgets", ()):
            found.pop(name, None)
        answer = state.answers.get(at)
        if answer is None:
            continue
        fact = state.graph.facts[state.graph.nodes[at[0]].body["fact"]]
        found.pop(fact.name, None)
        found[fact.name] = Known(
            label(state.graph, at),
            fact.name,
            fact.short_question(state.units),
            HIDDEN if fact.name in state.hidden else fact.show(answer.value, state.units),
        )
    return list(found.values())


def done_steps(state: State) -> list[str]:
    """The steps and holds passed, in their short words; a step that is done again is listed again."""
    passed = state.path if state.ended else state.path[:-1]
    return [
        block_words(state, at)
        for at in passed
        if state.graph.nodes[at[0]].kind in ("do", "hold") and at in state.dones
    ]


def earlier(state: State, at: Occurrence | None) -> Occurrence | None:
    """The block seen before `at` on the path, for `back`; None at the beginning."""
    place = state.path.index(at) if at is not None and at in state.path else len(state.path) - 1
    for occurrence in reversed(state.path[:place]):
        if state.graph.nodes[occurrence[0]].seen:
            return occurrence
    return None


def later(state: State, at: Occurrence) -> Occurrence | None:
    """The block seen after `at`; None if that is where the run is."""
    place = state.path.index(at)
    for occurrence in state.path[place + 1 :]:
        if state.graph.nodes[occurrence[0]].seen:
            return None if occurrence == state.at else occurrence
    return None
