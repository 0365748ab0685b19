"""The walk through the procedure's graph, from the start or from the run's place, by the answers in force.

It stops at the first block that waits for the person. If a choice is now another than before, the answers of the
branch that was left become suggestions. Its cuts remain (cuts.py).
"""

from guide.procedure.conditions import UnknownFact, facts_of, holds
from guide.procedure.facts import NONE, writing
from guide.procedure.graph import Edge, Graph, Node
from guide.procedure.worked_facts import Env, NeedsWork
from guide.run.ahead import card_of
from guide.run.cuts import in_force, look_at_cuts
from guide.run.rounds import arrive
from guide.run.state import FAULT, NEEDS_WORK, STANDING, Occurrence, State
from guide.run.turns import begin_turn

LONGEST_WALK = 30_000
"""Nodes in one walk; a procedure that goes round more often than this is at fault."""
MOST_EFFORT = 1_000_000
"""Comparisons of all walks of a run together: about a second. A job of a day needs some ten thousand."""


def walk_afresh(state: State) -> None:
    """Set the state to that of a fresh run with the answers in force."""
    state.path = [(0, (1,) * len(state.graph.nodes[0].loops))]
    state.env = Env(state.graph.facts, state.memo)
    walk_on(state)


def walk_on(state: State) -> None:
    """Go on from where the run is, as far as the answers in force lead."""
    state.status, state.why, state.work = STANDING, "", None
    state.hidden = frozenset()
    graph = state.graph
    while True:
        here = state.path[-1]
        node = graph.nodes[here[0]]
        state.effort += graph.weight(node.index)
        if state.effort > MOST_EFFORT:
            state.status = FAULT
            state.why = (
                "This job has gone round more often than can be read again in a reasonable time. Make the "
                "door safe, end this job and begin another."
            )
            return
        try:
            edge = _way_on(state, node, here)
            if edge is None:
                _compute_shown(state, node)
        except NeedsWork as need:
            state.status, state.work = NEEDS_WORK, (need.fact, need.inputs)
            return
        except UnknownFact as error:
            state.status = FAULT
            state.why = (
                f"This procedure has a fault: at “{node.id}” it needs “{error.fact}”, which was never "
                "asked. Stop here, make the door safe and tell the person who wrote the procedure."
            )
            return
        except CutUnheld as error:
            state.status = FAULT
            state.why = (
                f"This procedure has a fault: “{node.id}” cuts before “{error}” has been read back. Do not "
                "cut. Make the door safe and tell the person who wrote the procedure."
            )
            return
        if edge is None:
            break
        if edge.target < 0 or len(state.path) > LONGEST_WALK:
            state.status = FAULT
            state.why = f"This procedure has a fault: it has no way on after “{node.id}”."
            return
        state.path.append(arrive(graph, node, here, edge))
    look_at_cuts(state)
    if state.status == STANDING:
        state.hidden = graph.hidden_at(node)


def known_at(state: State, at: Occurrence) -> Env:
    """The facts known when the walk came to an earlier block of the path."""
    env = Env(state.graph.facts, state.memo)
    for passed in state.path[: state.path.index(at)]:
        answer = state.answers.get(passed)
        node = state.graph.nodes[passed[0]]
        if answer is not None:
            env.take(passed, node.body["fact"], answer.value)
        elif node.kind == "turn":
            begin_turn(env, state.graph, passed)
    return env


def _way_on(state: State, node: Node, here: Occurrence) -> Edge | None:
    """The edge to take, or None if the run waits here."""
    kind = node.kind
    if kind in ("by_case", "when", "repeat"):
        return _decide(state, node, here)
    if kind == "turn":
        begin_turn(state.env, state.graph, here)
    if kind in ("turn", "go"):
        return node.edges[0]
    if kind in ("ask", "time", "check"):
        fact = state.graph.facts[node.body["fact"]]
        if not fact.worked:
            answer = state.answers.get(here)
            if answer is not None and answer.basis != asked_on(state.graph, node, state.env):
                del state.answers[here]  # nor is it suggested: what it was about has changed
                answer = None
            if answer is None:
                return None
            state.env.take(here, fact.name, answer.value)
        return _decide(state, node, here) if kind == "check" else node.edges[0]
    if kind == "end":
        return None
    basis = basis_of(state, node)
    if node.body.get("cuts"):
        unread = not_read_back(state, node)
        if unread:
            raise CutUnheld(unread[0])
        made = any(cut.at == here and in_force(state, cut, basis) for cut in state.cuts)
    else:
        made = state.dones.get(here) == basis
    return node.edges[0] if made else None


class CutUnheld(LookupError):
    """A cut depends on a fact that no hold has read back since it was last asked."""


def not_read_back(state: State, cut: Node) -> list[str]:
    """The facts a cut depends on that were not read back at a hold since they last could change."""
    graph = state.graph
    waiting = {name: {name, *graph.inputs_of(name)} for name in cut.shows}
    unread: list[str] = []
    for index, _ in reversed(state.path):
        node = graph.nodes[index]
        if node.kind == "hold":
            for name in node.shows:
                waiting.pop(name, None)
        elif node.kind == "turn":
            lost = {node.body["turn"], *node.body["forgets"]}
            for name in [n for n, sources in waiting.items() if lost & sources]:
                unread.append(name)
                del waiting[name]
        elif node.kind in ("ask", "time", "check") and not graph.facts[node.body["fact"]].worked:
            for name in [n for n, sources in waiting.items() if node.body["fact"] in sources]:
                unread.append(name)
                del waiting[name]
        if not waiting:
            break
    return [*unread, *waiting]


def basis_of(state: State, node: Node) -> dict[str, str]:
    """The basis of a block now: the exact writing of every fact it shows or reads."""
    names = list(node.shows)
    if node.kind == "hold":
        names += [name for name in _worked_from(state.graph, node) if name in state.env]
    return {name: writing(state.env[name]) for name in names}


def asked_on(graph: Graph, node: Node, env: Env) -> dict[str, str]:
    """What a question shows, hides or depends on beside its own fact: its answer counts only while that stays so.

    A limit that names a fact is compared with the answer anew in any case.
    """
    limit = graph.limits.get(node.index)
    own = {node.body["fact"], *(facts_of(limit) if limit is not None else ())}
    return {name: writing(env[name]) for name in node.shows if name not in own and name in env}


def _compute_shown(state: State, node: Node) -> None:
    """Raise NeedsWork if the block the run waits at, or a step of its card, shows a value that is not computed yet."""
    for block in [node, *card_of(state, node)]:
        for name in block.shows:
            if name in state.env:
                state.env[name]


_BARE = frozenset(("id", "fact", "text", "say"))
"""The parts of a block that a person need not stop to read."""


def in_passing(state: State, node: Node) -> bool:
    """Whether a block shows a computed result that leaves nothing to decide, so that the run does not wait at it.

    It waits if there is no result, and if the block has more to tell than its text: why, what to watch for, a hazard,
    a tool. It waits, too, if an input was never asked, as in a file that `check` would not pass. What the computation
    warns of is shown with the result, above the next step.
    """
    if node.kind != "work" or not node.body.keys() <= _BARE:
        return False
    try:
        result = state.env.result(state.graph.facts[node.body["fact"]])
    except (UnknownFact, NeedsWork):
        return False
    return result.value != NONE


def _worked_from(graph: Graph, node: Node) -> list[str]:
    """The computed facts that come from what a hold reads back and that some cut depends on."""
    shown = set(node.shows)
    cut_facts = graph.cut_facts()
    return [
        name
        for name, fact in graph.facts.items()
        if fact.worked and name in cut_facts and name not in shown and shown & graph.inputs_of(name)
    ]


def _decide(state: State, node: Node, here: Occurrence) -> Edge:
    """The edge whose condition holds, noting if the choice has changed."""
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
        return 1 if count < state.graph.loops[loop_number].at_most else 2
    if node.kind == "check":
        return 0 if holds(state.graph.limits[node.index], state.env) else 1
    for number, edge in enumerate(node.edges):
        if edge.guard is not None and holds(edge.guard, state.env):
            return number
    return None


def abandon(state: State, here: Occurrence, edge: Edge) -> None:
    """Leave what lay behind an edge: answers become suggestions, what was done must be done again."""
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
        if edge.inside[0] <= index < edge.inside[1]:
            shared = dict(zip(graph.nodes[index].loops, its, strict=True))
            return all(shared[n] == c for n, c in counts.items() if n in shared)
        for number, count in zip(graph.nodes[index].loops, its, strict=True):
            if number in rounds and count > counts.get(number, 1):
                return True
            if count != counts.get(number, count):
                return False
        return False

    for occurrence in [o for o in state.answers if left(o)]:
        state.suggestions[occurrence] = state.answers.pop(occurrence).value
    for occurrence in [o for o in state.dones if left(o)]:
        del state.dones[occurrence]
    for occurrence in [o for o in state.decided if o != here and left(o)]:
        del state.decided[occurrence]


def measure_again(state: State) -> None:
    """What was measured blind further on, before this step was done anew, was measured of a mark that is gone."""
    passed = set(state.path)
    for occurrence in [o for o in state.answers if o[0] > state.at[0] and o not in passed]:
        if state.graph.nodes[occurrence[0]].body.get("blind"):
            del state.answers[occurrence]


def put_back_after_cut(state: State) -> None:
    """What was answered and done further on, before this cut, was of another closer in another place: ask again.

    There is none if the run only goes forward; there is if an answer was changed and the cut is made once more.
    """
    passed = set(state.path)
    here = state.at[0]
    for occurrence in [o for o in state.answers if o[0] > here and o not in passed]:
        state.suggestions[occurrence] = state.answers.pop(occurrence).value
    for kept in (state.dones, state.decided):
        for occurrence in [o for o in kept if o[0] > here and o not in passed]:
            kept.pop(occurrence)
