"""Cuts cannot be undone: the first one that conflicts with the answers in force, and the message for it."""

from guide.procedure.facts import Value, writing
from guide.run.rounds import ways_to
from guide.run.state import CUT_OPEN, STOPPED, Cut, State
from guide.run.texts import block_words, name_of


def stopped_by(state: State) -> Cut | None:
    """The first cut that no longer fits: its basis changed, or the branch now taken does not have it.

    A fact that is asked again on the way to the cut is not compared with it before it is asked.
    """
    passed = set(state.path[:-1])
    for cut in state.cuts:
        if cut.resolution or cut.at in passed:
            continue
        way = ways_to(state.graph, state.at, cut.at)
        if not way or changes(state, cut, way):
            return cut
    return None


def changes(state: State, cut: Cut, way: set[int] | None = None) -> dict[str, tuple[str, str]]:
    """The facts a cut depends on whose value is now another: fact -> (then, now).

    `way` holds the nodes between here and the cut, which may still ask.
    """
    if way is None:
        way = ways_to(state.graph, state.at, cut.at)
    open_facts = {
        node.body["fact"]
        for node in (state.graph.nodes[index] for index in way)
        if node.kind in ("ask", "time", "check")
    }
    found: dict[str, tuple[str, str]] = {}
    for name, then in cut.basis.items():
        if name in open_facts or state.graph.inputs_of(name) & open_facts:
            continue
        value: Value | None = state.known(name)
        if value is not None and writing(value) != then:
            found[name] = (then, writing(value))
    return found


def look_at_cuts(state: State) -> None:
    """Stop the run if a cut no longer fits; ask what was drilled if one was interrupted."""
    if state.cuts:
        state.effort += len(state.path) // 10 + len(state.cuts) * len(state.graph.nodes) // 10
    cut = stopped_by(state)
    if cut is not None:
        state.status = STOPPED
        state.why = _why(state, cut)
        return
    asked = state.unreported_cut()
    if asked is not None:
        state.status = CUT_OPEN
        state.why = (
            f"The program was closed in the middle of a cut, “{block_words(state, asked.at)}”."
        )


def _why(state: State, cut: Cut) -> str:
    place = block_words(state, cut.at)
    changed = changes(state, cut)
    if not changed:
        return f"“{place}” was already cut, and the way now taken does without it."
    said = "; ".join(
        f"{name_of(state, name)}: it was {shown(state, name, then)}, now it is {shown(state, name, now)}"
        for name, (then, now) in changed.items()
    )
    return f"“{place}” was already cut on other values: {said}."


def in_force(state: State, cut: Cut, basis: dict[str, str]) -> bool:
    """Whether a cut was made, still stands, and fits what is known now."""
    return cut.done and not cut.resolution and cut.basis == basis


def shown(state: State, name: str, text: str) -> str:
    """A value in its exact writing, for a person."""
    fact = state.graph.facts[name]
    return fact.show(fact.decode(text), state.units)
