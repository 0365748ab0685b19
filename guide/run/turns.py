"""Turns: the same steps for each of several things, such as the leaves of a pair (`each`).

A turn begins without what the turn before asked. Its number is the count of the loop that it belongs to.
"""

from guide.procedure.facts import Fact, Value
from guide.procedure.graph import Graph, Node
from guide.procedure.outcomes import LEFT_TO_DO, NOT_STARTED
from guide.procedure.worked_facts import Env
from guide.run.state import Occurrence, State
from guide.translation import _


def begin_turn(env: Env, graph: Graph, at: Occurrence) -> None:
    """Set the facts to those known at the begin of a turn."""
    node = graph.nodes[at[0]]
    turn = node.body["turn"]
    count = at[1][node.loops.index(graph.loop_of_turn(node))]
    env.begin_turn(turn, list(graph.facts[turn].options)[count - 1], node.body["forgets"])


def turn_around(graph: Graph, at: Occurrence) -> tuple[Node, int] | None:
    """The innermost turn that a visit belongs to and its number, from 1; None outside of any."""
    node = graph.nodes[at[0]]
    turns = (n for n in reversed(graph.nodes[: at[0] + 1]) if n.kind == "turn")
    for turn in turns:
        loop = graph.loop_of_turn(turn)
        if loop in node.loops:
            return turn, at[1][node.loops.index(loop)]
    return None


def labels(graph: Graph, turn: Node) -> list[str]:
    """What each of the turns is called, in their order: “First leaf”, “Other leaf”."""
    return [one.text for one in graph.facts[turn.body["turn"]].options.values()]


def answer_of_turn_before(state: State, fact: Fact, at: Occurrence) -> Value | None:
    """What the turn before answered to this question, where the procedure lets it be suggested."""
    found = turn_around(state.graph, at)
    if found is None or fact.name not in found[0].body["suggests"]:
        return None
    turn, number = found
    place = state.graph.nodes[at[0]].loops.index(state.graph.loop_of_turn(turn))
    before = (at[0], (*at[1][:place], number - 1, *(1 for _ in at[1][place + 1 :])))
    given = state.answers.get(before)
    return given.value if given is not None else None


def later_turn(state: State, at: Occurrence) -> str:
    """The label of the turn that a visit belongs to, if it is not the first: “Other leaf”. Else empty."""
    found = turn_around(state.graph, at)
    if found is None or found[1] == 1:
        return ""
    return labels(state.graph, found[0])[found[1] - 1]


def outcome_here(state: State) -> str:
    """The outcome of the end that the run is at.

    What cannot be done for a later turn leaves the earlier ones done: that job is not “not started”.
    """
    outcome: str = state.node.body["outcome"]
    return LEFT_TO_DO if outcome == NOT_STARTED and later_turn(state, state.at) else outcome


def end_of_turn(state: State, text: str) -> str:
    """The words of an end, in a later turn after what the earlier ones came to."""
    turn = later_turn(state, state.at)
    if not turn or state.node.body["outcome"] != NOT_STARTED:
        return text
    found = turn_around(state.graph, state.at)
    assert found is not None
    done = labels(state.graph, found[0])[: found[1] - 1]
    return _("Done: {done}. Left to do, {left}: {why}").format(
        done=", ".join(done).lower(), left=turn.lower(), why=text
    )
