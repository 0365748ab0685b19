"""The blocks that the job still comes by, as far as the answers so far decide it."""

from guide.procedure.conditions import UnknownFact, holds
from guide.procedure.graph import Edge, Node
from guide.procedure.outcomes import ACHIEVED
from guide.procedure.worked_facts import NeedsWork
from guide.run.state import State


def ways_ahead(state: State) -> tuple[list[Node], list[Node]]:
    """The blocks that every way from here to a finished job has, and those that only some have, in order.

    No loop is gone round again. Both are empty where no way leads to a finished job.
    """
    onward = _useful(state, _open(state))
    if state.at[0] not in onward:
        return [], []
    nodes = state.graph.nodes
    certain: list[Node] = []
    perhaps: list[Node] = []
    furthest = state.at[0]
    for index in sorted(onward):
        (certain if furthest <= index else perhaps).append(nodes[index])
        furthest = max([furthest, *onward[index]]) if onward[index] else len(nodes)
    return certain, perhaps


def _open(state: State) -> dict[int, list[int]]:
    """Every block that can be come to from here, each with those it leads on to."""
    nodes, here = state.graph.nodes, state.at[0]
    found: dict[int, list[int]] = {}
    reached = {here}
    for node in nodes[here:]:
        if node.index in reached:
            found[node.index] = [edge.target for edge in _onward(state, node)]
            reached.update(found[node.index])
    return found


def _onward(state: State, node: Node) -> list[Edge]:
    """The edges that may be taken; the first whose condition holds is the way on."""
    found = []
    for edge in node.edges:
        held = _held(state, edge)
        if edge.target > node.index and held is not False:
            found.append(edge)
        if held and edge.guard is not None:
            break
    return found


def _held(state: State, edge: Edge) -> bool | None:
    """Whether the condition of an edge holds; None while that is not known."""
    if edge.guard is None:
        return True
    try:
        return holds(edge.guard, state.env)
    except (UnknownFact, NeedsWork):
        return None


def _useful(state: State, reached: dict[int, list[int]]) -> dict[int, list[int]]:
    """Those of them from which a way leads to a finished job."""
    nodes = state.graph.nodes
    found: dict[int, list[int]] = {}
    for index in sorted(reached, reverse=True):
        node = nodes[index]
        onward = [target for target in reached[index] if target in found]
        if onward or (node.kind == "end" and node.body["outcome"] in ACHIEVED):
            found[index] = onward
    return found
