"""The walk: from the start, or from where the run stands, on through every answer in force.

It stops at the first block that waits for the person. Where a choice turns out otherwise than before,
what lay on the way left is abandoned: its answers become suggestions and its cuts stop the run.
"""

from guide.procedure.conditions import UnknownFact, holds
from guide.procedure.facts import Value, writing
from guide.procedure.graph import Edge, Graph, Node
from guide.procedure.worked import Env, NeedsWork
from guide.run.state import (
    CUT_OPEN,
    FAULT,
    NEEDS_WORK,
    STANDING,
    STOPPED,
    Cut,
    Occurrence,
    State,
    label,
)

LONGEST_WALK = 100_000
"""Nodes in one walk; a procedure that goes round more often than this is at fault."""


def walk_afresh(state: State) -> None:
    """Stand where a fresh run with the answers in force would."""
    state.path = [(0, (1,) * len(state.graph.nodes[0].loops))]
    state.env = Env(state.graph.facts, state.memo)
    walk_on(state)


def walk_on(state: State) -> None:
    """Go on from where the run stands, as far as the answers in force lead."""
    state.status, state.why, state.work = STANDING, "", None
    graph = state.graph
    while True:
        here = state.path[-1]
        node = graph.nodes[here[0]]
        try:
            edge = _way_on(state, node, here)
        except NeedsWork as need:
            state.status, state.work = NEEDS_WORK, (need.fact, need.inputs)
            return
        except UnknownFact as error:
            state.status = FAULT
            state.why = (
                f"This procedure has a fault: at “{node.id}” it needs “{error.fact}”, which was never "
                "asked. Stop here, make the door safe and tell whoever wrote the procedure."
            )
            return
        if edge is None:
            break
        if edge.target < 0 or len(state.path) > LONGEST_WALK:
            state.status = FAULT
            state.why = f"This procedure has a fault: it has no way on after “{node.id}”."
            return
        state.path.append(_arrive(graph, node, here, edge))
    _look_at_cuts(state)


def _way_on(state: State, node: Node, here: Occurrence) -> Edge | None:
    """The edge to take, or None where the run waits here."""
    kind = node.kind
    if kind in ("choose", "when", "repeat"):
        return _decide(state, node, here)
    if kind == "go":
        return node.edges[0]
    if kind in ("ask", "time", "check"):
        fact = state.graph.facts[node.body["fact"]]
        if not fact.worked:
            answer = state.answers.get(here)
            if answer is None:
                return None
            state.env.asked[fact.name] = answer.value
        return _decide(state, node, here) if kind == "check" else node.edges[0]
    if kind == "end":
        return None
    basis = basis_of(state, node)
    return node.edges[0] if state.dones.get(here) == basis else None


def basis_of(state: State, node: Node) -> dict[str, str]:
    """What a block rests on now: the exact writing of every fact it shows or reads."""
    names = list(node.shows)
    if node.kind == "hold":
        names += [name for name in _worked_from(state.graph, node) if name in state.env]
    return {name: writing(state.env[name]) for name in names}


def _worked_from(graph: Graph, node: Node) -> list[str]:
    """The worked facts that come from what a hold reads back and that some cut rests on."""
    shown = set(node.shows)
    return [
        name
        for name, fact in graph.facts.items()
        if fact.worked
        and name not in shown
        and shown & graph.inputs_of(name)
        and any(name in cut.shows for cut in graph.nodes if cut.body.get("cuts"))
    ]


def _decide(state: State, node: Node, here: Occurrence) -> Edge:
    """The edge whose condition holds, noting where the choice has changed."""
    number = _choice(state, node, here)
    if number is None:
        raise UnknownFact("a branch for this case")
    before = state.decided.get(here)
    if before is not None and before != number:
        abandon(state, here, node.edges[before])
    state.decided[here] = number
    return node.edges[number]


def _choice(state: State, node: Node, here: Occurrence) -> int | None:
    if node.kind == "repeat":
        if holds(state.graph.untils[node.index], state.env):
            return 0
        loop_number = node.edges[1].loop
        count = here[1][node.loops.index(loop_number)]
        return 1 if count < state.graph.loops[loop_number].tries else 2
    if node.kind == "check":
        return 0 if holds(state.graph.limits[node.index], state.env) else 1
    for number, edge in enumerate(node.edges):
        if edge.guard is not None and holds(edge.guard, state.env):
            return number
    return None


def _arrive(graph: Graph, node: Node, here: Occurrence, edge: Edge) -> Occurrence:
    """The occurrence at the far end of an edge."""
    counts = dict(zip(node.loops, here[1], strict=True))
    if edge.loop >= 0:
        counts[edge.loop] = counts.get(edge.loop, 1) + 1
        round_again = graph.loops[edge.loop]
        for number in list(counts):
            inner = graph.loops[number]
            if (
                number != edge.loop
                and round_again.low <= inner.low
                and inner.high <= round_again.high
            ):
                del counts[number]
    target = graph.nodes[edge.target]
    return target.index, tuple(counts.get(number, 1) for number in target.loops)


def abandon(state: State, here: Occurrence, edge: Edge) -> None:
    """Leave what lay behind an edge: answers become suggestions, cuts are orphaned."""
    graph = state.graph
    counts = dict(zip(graph.nodes[here[0]].loops, here[1], strict=True))
    rounds = {
        e.loop
        for index in range(*edge.inside)
        for e in graph.nodes[index].edges
        if e.loop >= 0 and graph.nodes[index].kind == "go"
    }
    if edge.loop >= 0:
        rounds.add(edge.loop)

    def left(occurrence: Occurrence) -> bool:
        index, its = occurrence
        node = graph.nodes[index]
        its_counts = dict(zip(node.loops, its, strict=True))
        if edge.inside[0] <= index < edge.inside[1]:
            return all(its_counts[n] == c for n, c in counts.items() if n in its_counts)
        for number in rounds & its_counts.keys():
            loop = graph.loops[number]
            outer = [
                n
                for n in counts
                if n in its_counts
                and n != number
                and not (loop.low <= graph.loops[n].low and graph.loops[n].high <= loop.high)
            ]
            if its_counts[number] > counts.get(number, 1) and all(
                its_counts[n] == counts[n] for n in outer
            ):
                return True
        return False

    for occurrence in [o for o in state.answers if left(o)]:
        state.suggestions[occurrence] = state.answers.pop(occurrence).value
    for occurrence in [o for o in state.dones if left(o)]:
        del state.dones[occurrence]
    for occurrence in [o for o in state.decided if o != here and left(o)]:
        del state.decided[occurrence]
    for cut in state.cuts:
        if left(cut.at) and not cut.resolution:
            cut.orphan = True


def changes(state: State, cut: Cut) -> dict[str, tuple[str, str]]:
    """What a cut rests on that is now known to be otherwise: fact -> (then, now)."""
    found: dict[str, tuple[str, str]] = {}
    for name, then in cut.basis.items():
        value = _known(state.env, name)
        if value is not None and writing(value) != then:
            found[name] = (then, writing(value))
    return found


def _known(env: Env, name: str) -> Value | None:
    try:
        return env[name]
    except (UnknownFact, NeedsWork):
        return None


def stopped_by(state: State) -> Cut | None:
    """The first cut that no longer fits what is known."""
    passed = set(state.path[:-1])
    for cut in state.cuts:
        if cut.resolution:
            continue
        if cut.orphan or (cut.at not in passed and changes(state, cut)):
            return cut
    return None


def _look_at_cuts(state: State) -> None:
    cut = stopped_by(state)
    if cut is None:
        if state.interrupted:
            state.status = CUT_OPEN
            state.why = f"The tool was closed while “{label(state.graph, state.at)}” was being cut."
        return
    state.status = STOPPED
    place = label(state.graph, cut.at)
    changed = changes(state, cut)
    if changed:
        said = "; ".join(
            f"{name.replace('_', ' ')} was {shown(state, name, then)}, now it is {shown(state, name, now)}"
            for name, (then, now) in changed.items()
        )
        state.why = f"“{place}” was already cut on other values: {said}."
    else:
        state.why = f"“{place}” was already cut, and the way now taken does without it."


def shown(state: State, name: str, text: str) -> str:
    """A value in its exact writing, for a person."""
    fact = state.graph.facts[name]
    return fact.show(fact.decode(text), state.units)
