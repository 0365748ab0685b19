"""Runs at random: at every turn one of the things a person could do where the run stands."""

from collections.abc import Callable

from guide.procedure.facts import UNSURE, Fact
from guide.run import replies
from guide.run.replies import Draft
from guide.run.session import Session
from guide.run.state import CUT_OPEN, STOPPED, State
from guide.run.step import CUT_REPORTS, RESOLUTIONS
from tests.run.small_procedures import begin, small

Pick = Callable[[int], int]
"""A number from 0 up to, not including, the one given."""

SAMPLES = {
    "length": ("30 in", "36 in", "48 in", "62 1/2 in", "914.4 mm"),
    "time": ("0.8 s", "2 s", "5 s", "6.5 s", "1.5 s", "20 s"),
    "force": ("4 lbf", "5 lbf", "9 lbf"),
    "count": ("0", "3"),
    "text": ("no label", "pause", "20 min"),
}


def answers(fact: Fact) -> list[str]:
    """Some answers the fact takes."""
    if fact.options:
        return [*fact.options, *([UNSURE] if fact.unsure else [])]
    low, high = fact.low, fact.high
    found = []
    for text in SAMPLES[fact.kind]:
        value = fact.decode(text)
        inside = low is None or high is None or low <= value <= high  # type: ignore[operator]
        if inside:
            found.append(text)
    return found


def moves(state: State) -> list[Callable[[Pick], Draft]]:
    """What a person could do here; likelier things stand more than once."""
    if state.ended:
        return [lambda pick: replies.note(state, "Looked at it again.")]
    found: list[Callable[[Pick], Draft]] = []
    asked = [at for at in state.path if at in state.answers]
    if asked:
        found.append(lambda pick: _revision(state, pick))
    found += [
        lambda pick: replies.note(state, "The lamp over the door flickers."),
        lambda pick: ("resumed", {}),
        lambda pick: ("paused", {}),
    ]
    if state.status == STOPPED:
        return (
            found[:1] * 2
            + [lambda pick: replies.resolve(state, RESOLUTIONS[pick(3)], "Seen by the foreman.")]
            * 3
        )
    if state.status == CUT_OPEN:
        return found[:1] + [lambda pick: replies.report(state, CUT_REPORTS[pick(3)])] * 3
    if state.pending is not None:
        return [lambda pick: replies.confirm(state, yes=pick(3) > 0)]
    node = state.node
    kind = node.kind
    if kind in ("ask", "time", "check") and not state.graph.facts[node.body["fact"]].worked:
        onward: Callable[[Pick], Draft] = lambda pick: _answer(state, pick)  # noqa: E731
    elif kind == "hold":
        onward = lambda pick: replies.pass_hold(state)  # noqa: E731
    elif node.body.get("cuts") and not any(
        cut.at == state.at and not cut.done and not cut.resolution for cut in state.cuts
    ):
        onward = lambda pick: replies.begin(state)  # noqa: E731
    else:
        onward = lambda pick: replies.done(state)  # noqa: E731
    return found + [onward] * 12


def _answer(state: State, pick: Pick) -> Draft:
    texts = answers(state.graph.facts[state.node.body["fact"]])
    return replies.answer(state, texts[pick(len(texts))])


def _revision(state: State, pick: Pick) -> Draft:
    asked = [at for at in state.path if at in state.answers]
    at = asked[pick(len(asked))]
    texts = answers(state.graph.facts[state.graph.nodes[at[0]].body["fact"]])
    return replies.answer(state, texts[pick(len(texts))], at)


def random_run(name: str, pick: Pick, turns: int) -> Session:
    """Carry a small procedure on for so many turns."""
    graph = small(name)
    width = graph.facts.get("width")
    supplied = {"width": width.decode("36 in")} if width is not None and pick(2) else None
    session = begin(name, supplied)
    for _ in range(turns):
        choices = moves(session.state)
        session.send(choices[pick(len(choices))](pick))
    return session
