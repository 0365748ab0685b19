"""The part of a record that checks the final readings against the rules of the run's setting."""

from guide.procedure.conditions import UnknownFact
from guide.procedure.worked_facts import NeedsWork
from guide.run.state import State

COMPUTATION, PART = "access-and-fire", "verdict"


def rules_data(state: State) -> list[str]:
    """A line for each rule, as the run worked it out; empty if it never came to that."""
    for fact in state.graph.facts.values():
        if fact.computation == COMPUTATION and fact.part == PART:
            try:
                return list(state.env.result(fact).working)
            except (UnknownFact, NeedsWork):
                continue
    return []


def rules_lines(state: State) -> list[str]:
    """The same to be read, under a heading; nothing if there is none."""
    found = rules_data(state)
    return ["", "Rules on the final readings", *(f"  {line}" for line in found)] if found else []
