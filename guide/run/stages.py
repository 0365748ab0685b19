"""Where a job stands: the stages of the work, the round of a loop, and the minutes that are left."""

from typing import NamedTuple

from guide.procedure import conditions
from guide.procedure.graph import Edge
from guide.procedure.outcomes import ACHIEVED
from guide.procedure.worked_facts import NeedsWork
from guide.run.state import State
from guide.run.turns import later_turn


class Standing(NamedTuple):
    """The stages of a job, and the one it is in."""

    titles: tuple[str, ...]
    """In the order of the work; empty where the procedure names none."""
    now: int
    """The place of the present one in `titles`; -1 before the first."""
    round: int = 0
    """In a loop: which round this is, from 1; else 0."""
    rounds: int = 0
    """In a loop: the most there are; 0 if nothing limits them."""
    turn: str = ""
    """In a later turn of several things, which of them this is: “Other leaf”."""

    @property
    def title(self) -> str:
        """The present stage; empty before the first."""
        return self.titles[self.now] if self.now >= 0 else ""


def standing(state: State) -> Standing:
    """The stage of the work that the run is in."""
    graph = state.graph
    index, counts = state.at
    began = [number for number, (first, _) in enumerate(graph.stages) if first <= index]
    loops = graph.nodes[index].loops
    titles = tuple(title for _, title in graph.stages)
    turn = later_turn(state, state.at)
    if not loops or not counts or graph.takes_turns(loops[-1]):
        return Standing(titles, len(began) - 1, turn=turn)
    return Standing(titles, len(began) - 1, counts[-1], graph.loops[loops[-1]].at_most, turn)


def minutes_left(state: State) -> int:
    """The minutes of the shortest way from here to where the work is finished, by the steps' own minutes.

    Ways that what is known rules out do not count, and no loop is gone round again: a job seldom takes less. 0
    where the steps name no minutes, or no way is left.
    """
    if state.ended:
        return 0
    graph, here = state.graph, state.at[0]
    least: list[int | None] = [None] * (len(graph.nodes) + 1)
    for node in reversed(graph.nodes[here:]):
        own = node.body.get("minutes", 0)
        if node.kind == "end":
            least[node.index] = own if node.body["outcome"] in ACHIEVED else None
            continue
        ahead = [
            found
            for edge in node.edges
            if edge.target > node.index and _open(state, edge)
            for found in (least[edge.target],)
            if found is not None
        ]
        least[node.index] = own + min(ahead) if ahead else None
    return least[here] or 0


def _open(state: State, edge: Edge) -> bool:
    """Whether a way may still be taken, by what is known so far."""
    if edge.guard is None:
        return True
    try:
        return conditions.holds(edge.guard, state.env)
    except (conditions.UnknownFact, NeedsWork):
        return True
