"""Numbers that the closer's sheet suggests for the questions of a procedure."""

from guide.procedure.conditions import UnknownFact
from guide.procedure.facts import NONE, Fact, Value
from guide.procedure.worked_facts import Env, NeedsWork, work_out
from guide.run.state import State
from guide.trade.sheet.sheet import Sheet


def offered(state: State, fact: Fact) -> Value | None:
    """The sheet's number for a fact, or None if it has none. It is only ever a suggestion."""
    if fact.offer is None or state.sheet is None:
        return None
    asking = Fact(
        fact.name,
        "worked",
        computation=fact.offer.computation,
        gives=fact.kind,
        using=fact.offer.using,
    )
    env: Env = state.env
    try:
        inputs = env.inputs(asking)
    except (UnknownFact, NeedsWork):
        return None
    body = work_out(asking, inputs, Sheet.from_json(state.sheet))
    return None if body["value"] == NONE else asking.decode(body["value"])
