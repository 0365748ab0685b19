"""Where a job stands: the stages of the work, the round of a loop, and the minutes that are left."""

from dataclasses import dataclass

from guide.procedure import conditions
from guide.procedure.graph import Edge, Graph
from guide.run.state import State


@dataclass(frozen=True, slots=True)
class Standing:
    """The stages of a job, and the one it is in."""

    titles: tuple[str, ...]
    """In the order of the work; empty where the procedure names none."""
    now: int
    """The place of the present one in `titles`; -1 before the first."""
    round: int = 0
    """In a loop: which round this is, from 1; else 0."""
    rounds: int = 0
    """In a loop: the most there are."""

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
    if not loops or not counts:
        return Standing(titles, len(began) - 1)
    return Standing(titles, len(began) - 1, counts[-1] + 1, graph.loops[loops[-1]].at_most)


def minutes_left(state: State) -> int:
    """The minutes of the longest way from here to an end, by the steps' own minutes; each loop is gone round once.

    Ways that what is known rules out do not count. 0 where the steps name no minutes.
    """
    if state.ended:
        return 0
    graph, here = state.graph, state.at[0]
    longest = [0] * (len(graph.nodes) + 1)
    for node in reversed(graph.nodes[here:]):
        ahead = [longest[e.target] for e in node.edges if e.target > node.index and _open(state, e)]
        longest[node.index] = node.body.get("minutes", 0) + max(ahead, default=0)
    return longest[here]


def _open(state: State, edge: Edge) -> bool:
    """Whether a way may still be taken, by what is known so far."""
    if edge.guard is None:
        return True
    try:
        return conditions.holds(edge.guard, state.env)
    except conditions.UnknownFact:
        return True


def every_minute(graph: Graph) -> int:
    """The minutes of all steps together, whatever the way."""
    return sum(node.body.get("minutes", 0) for node in graph.nodes)
