"""What an earlier job knows of an opening, offered to a new job at the same door or at one that is its like."""

from guide.procedure.facts import UNSURE, Value
from guide.procedure.graph import Graph
from guide.run.state import State


def offered_again(state: State, graph: Graph) -> dict[str, Value]:
    """The values that a door schedule might hold and the earlier job knows: offered at their questions, never used
    without an answer. No reading and no mark is among them."""
    found: dict[str, Value] = {}
    for name, fact in graph.facts.items():
        before, value = state.graph.facts.get(name), state.known(name)
        if before is None or value is None or value == UNSURE or not fact.schedule:
            continue
        if before.worked or fact.worked or before.kind != fact.kind:
            continue
        if before.options.keys() == fact.options.keys():
            found[name] = value
    return found
