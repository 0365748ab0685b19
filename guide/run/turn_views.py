"""A run seen turn by turn, as if each turn had been a job of its own: one leaf of a pair, and then the other."""

from dataclasses import replace

from guide.run.state import Occurrence, State
from guide.run.turns import labels
from guide.run.walk import known_at


def turn_views(state: State) -> list[tuple[str, State]]:
    """The label of each turn that was begun, and the state with that turn's path alone, its cuts, and what was known
    at its end. Empty where there were not several turns."""
    graph = state.graph
    begins = [at for at in state.path if graph.nodes[at[0]].kind == "turn"]
    if len(begins) < 2:
        return []
    turn = graph.nodes[begins[0][0]]
    loop = graph.loop_of_turn(turn)

    def number(at: Occurrence) -> int:
        loops = graph.nodes[at[0]].loops
        return at[1][loops.index(loop)] if loop in loops else 0

    views: list[tuple[str, State]] = []
    for count, label in enumerate(labels(graph, turn), 1):
        path = [at for at in state.path if number(at) == count]
        if not path:
            break
        view = replace(
            state, path=path, cuts=[cut for cut in state.cuts if number(cut.at) == count]
        )
        if path[-1] != state.path[-1]:
            view.env = known_at(state, path[-1])
            view.ended = ""
        views.append((label, view))
    return views


def before_the_turns(state: State) -> State:
    """The state with the path alone that belongs to no turn: what is asked and done once for all of them."""
    graph = state.graph
    inside = {n for n, _ in enumerate(graph.loops) if graph.takes_turns(n)}
    path = [at for at in state.path if not inside & {*graph.nodes[at[0]].loops}]
    return replace(state, path=path)
