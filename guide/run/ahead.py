"""The steps ahead of the run's place: the next block where it is known already, and what one card holds."""

from guide.procedure.conditions import UnknownFact, holds
from guide.procedure.graph import Node
from guide.procedure.worked_facts import NeedsWork
from guide.run.state import State


def following(state: State, node: Node) -> Node | None:
    """The block that the run comes to after this one, if what decides that is known already."""
    nodes = state.graph.nodes
    place = nodes[node.edges[0].target]
    while place.kind in ("when", "by_case"):
        try:
            way = next(e for e in place.edges if e.guard is not None and holds(e.guard, state.env))
        except (StopIteration, UnknownFact, NeedsWork):
            return None
        place = nodes[way.target]
    return place


def card_of(state: State, node: Node) -> list[Node]:
    """This step and those that follow it on the same card, up to the first that cuts; empty for one by itself."""
    card = node.body.get("card")
    steps: list[Node] = []
    place: Node | None = node
    while place is not None and place.kind == "do" and card and place.body.get("card") == card:
        if place.body.get("cuts"):
            break
        steps.append(place)
        target = following(state, place)
        on = target is not None and target.loops == node.loops and target.index > place.index
        place = target if on else None
    return steps if len(steps) > 1 or (steps and question_after(state, steps[-1])) else []


def question_after(state: State, last: Node) -> Node | None:
    """The question that closes the card of this step, if the run comes to it next."""
    place = following(state, last)
    if place is None or place.kind not in ("ask", "check", "time") or place.index <= last.index:
        return None
    same = place.body.get("card") == last.body.get("card")
    onward = place.loops[: len(last.loops)] == last.loops
    return place if same and onward and "blind" not in place.body else None
