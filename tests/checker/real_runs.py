"""Every run of a small procedure, carried through the real engine: what is true of it, told one by one.

Two standings go on alike where they are at the same block with the same answers in force, the same tries
of every `repeat` and the same facts read back; each is looked at once. How often a `go` went round is left
out: the engine counts it only to tell visits apart.

Values tried of a number: every number written in the file that is of its kind, or that a comparison or a sum
carries to it, the ends of its range, the least difference to either side, and the middle between each two; as far
as the fact takes them.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from typing import Any

from guide import measures
from guide.measures import Quantity
from guide.procedure.arithmetic import weights
from guide.procedure.conditions import (
    Against,
    All,
    AnyOf,
    Between,
    Compare,
    Condition,
    Not,
    UnknownFact,
    facts_of,
    holds,
    value_kind,
)
from guide.procedure.facts import MEASURED, UNSURE, Fact, Value, writing
from guide.procedure.graph import Graph, Node
from guide.procedure.worked_facts import Env, NeedsWork, memo_key, read_worked, work_out
from guide.run import replies
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.state import FAULT, Occurrence, State
from guide.run.turns import begin_turn
from guide.run.walk import known_at, not_read_back
from guide.trade import registry

NOON = "2026-03-02T12:00:00.000Z"
Place = tuple[str, int, int]
"""File, line and column of a block: the same for every time its file is included."""
Broken = tuple[Place, str, str]
"""A block, the property broken there, and what about it: a fact, two branches, an input."""
LEAST = {"length": Fraction(1, 64), "time": Fraction(1, 10), "angle": Fraction(1, 8)}
"""The difference to either side of a threshold, in base units (inches, seconds, degrees)."""

MANY_MARKS = 8
"""Numbers of a fact beyond which fewer are tried between each two: one beside the lower, and the middle."""

GAVE_UP = "no way on"
"""What the engine says once it has gone round very often without a stop; it takes seconds to."""
MOST_ROUNDS = 12
"""Answers of that kind that this test has time for."""


class TooMany(Exception):
    """More standings than this test has time for."""


@dataclass
class Truth:
    """What came of all runs."""

    broken: set[Broken] = field(default_factory=set)
    visited: set[int] = field(default_factory=set)
    """Nodes that some run came to."""
    taken: dict[int, set[int]] = field(default_factory=dict)
    """For each node, the numbers of the edges that some run took."""
    refused: set[int] = field(default_factory=set)
    """Nodes at which some run was refused for an unknown fact or an unheld cut."""
    lost: dict[Any, set[int]] = field(default_factory=dict)
    """Standings from where no answers lead to an end: the nodes passed on coming there, itself too."""
    standings: int = 0


def place(node: Node) -> Place:
    """Where a block stands in its file."""
    return node.file, node.line, node.column


class Explorer:
    """Walks every run of one graph."""

    def __init__(self, graph: Graph, most: int) -> None:
        self.graph = graph
        self.most = most
        self.truth = Truth()
        self.values = {
            name: list(values_of(graph, fact))
            for name, fact in graph.facts.items()
            if not fact.worked
        }
        self.cut_facts = sorted({f for n in graph.nodes if n.body.get("cuts") for f in n.shows})
        self.memo: dict[str, Any] = {}
        self.ways: dict[Any, set[Any]] = {}
        """For each standing, those that one answer leads to."""
        self.ended: set[Any] = set()
        """Standings at an end, and those that another fault already tells of."""

    def explore(self) -> Truth:
        """All runs, and what is true of them."""
        session = Session.begin(MemoryJournal(), self.graph, device="bench", clock=lambda: NOON)
        first = session.state
        self._note(first, 0, answered=False)
        key = self._key(first)
        todo = [(key, first)]
        self.ways[key] = set()
        came: list[tuple[Any, list[int]]] = [(key, [o[0] for o in first.path])]
        rounds = 0
        while todo:
            key, state = todo.pop()
            if len(self.ways) > self.most:
                raise TooMany
            if self._at_end(state):
                if GAVE_UP not in state.why:
                    self.ended.add(key)
                continue
            for after in self._answers(state):
                rounds += GAVE_UP in after.why
                if rounds > MOST_ROUNDS:
                    raise TooMany
                self._note(after, len(state.path) - 1, answered=True)
                its = self._key(after)
                passed = [o[0] for o in after.path[len(state.path) :]]
                came.append((its, passed))
                self.ways[key].add(its)
                if its not in self.ways:
                    self.ways[its] = set()
                    todo.append((its, after))
        self.truth.standings = len(self.ways)
        self._stranded(came)
        return self.truth

    def _key(self, state: State) -> Any:
        index, counts = state.at
        node = state.graph.nodes[index]
        loops = state.graph.loops
        tries = tuple(c for n, c in zip(node.loops, counts, strict=True) if loops[n].at_most)
        asked = tuple(sorted((name, writing(v)) for name, v in state.env.asked.items()))
        rounds = tuple((name, writing(v)) for name, v in state.env.taken.values())
        return index, state.why, tries, asked, rounds, self._read_back(state)

    def _read_back(self, state: State) -> tuple[str, ...]:
        probe = Node(-1, "", "do", {}, shows=tuple(self.cut_facts))
        return tuple(sorted(not_read_back(state, probe))) if self.cut_facts else ()

    def _at_end(self, state: State) -> bool:
        return state.status == FAULT or state.node.kind == "end"

    def _answers(self, state: State) -> Iterator[State]:
        """The states that one more answer leads to."""
        node = state.node
        fact = state.graph.facts.get(node.body.get("fact", ""))
        if node.kind in ("ask", "time", "check") and fact is not None and not fact.worked:
            for value in self.values[fact.name]:
                yield self._sent(state, "answer", value)
        elif node.kind == "hold":
            yield self._sent(state, "hold", None)
        else:
            yield self._sent(state, "done", None)

    def _sent(self, state: State, what: str, value: Value | None) -> State:
        session = Session(MemoryJournal(), state, "bench", clock=lambda: NOON)
        if what == "answer" and value is not None:
            session.send(replies.answer(state, writing(value)))
        elif what == "hold":
            session.send(replies.pass_hold(state))
        else:
            if state.node.body.get("cuts"):
                session.send(replies.begin(state))
            session.send(replies.done(session.state))
        return session.state

    def _known_after(self, state: State, occurrence: Occurrence) -> Env:
        env = known_at(state, occurrence).copied(self.memo)
        node, given = state.graph.nodes[occurrence[0]], state.answers.get(occurrence)
        if given is not None:
            env.take(occurrence, node.body["fact"], given.value)
        elif node.kind == "turn":
            begin_turn(env, state.graph, occurrence)
        return env

    # --- what one walk shows ---

    def _note(self, state: State, start: int, *, answered: bool) -> None:
        """Look at every node from a place of the path on; all of them decided by the facts as they are.

        `answered`: the first of them was looked at before its answer was given.
        """
        graph = state.graph
        env = state.env.copied(self.memo)
        turned = any(graph.nodes[index].kind == "turn" for index, _ in state.path[start:])
        for position in range(start, len(state.path)):
            occurrence = state.path[position]
            node = graph.nodes[occurrence[0]]
            if turned:  # what was asked before a turn is not known after it
                env = self._known_after(state, occurrence)
            self.truth.visited.add(node.index)
            last = position == len(state.path) - 1
            if position > start or not answered:
                self._look(state, env, node)
            if not last or (state.status == FAULT and node.kind != "do"):
                self._decided(state, env, occurrence, last=last)
            if not last:
                self._edge(state, occurrence, state.path[position + 1])
        if state.status == FAULT and state.node.kind in ("do", "hold", "work"):
            self.truth.refused.add(state.node.index)

    def _edge(self, state: State, here: Occurrence, there: Occurrence) -> None:
        number = state.decided.get(here)
        if number is None:
            number = 0
            assert state.graph.nodes[here[0]].edges[0].target == there[0]
        self.truth.taken.setdefault(here[0], set()).add(number)

    def _break(self, node: Node, code: str, detail: str = "") -> None:
        self.truth.broken.add((place(node), code, detail))

    def _look(self, state: State, env: Env, node: Node) -> None:
        """What is wrong with coming here, before any answer is given here."""
        asked = node.body.get("fact", "") if self._asks(node) else ""
        for name in node.shows:
            if name != asked and not self._known(env, name):
                self._break(node, "fact-not-known", name)
        if node.kind != "check" or not self._asks(node):
            self._domains(env, node)
        if node.body.get("cuts"):
            for name in not_read_back(state, node):
                self._break(node, "cut-without-hold", name)
        if node.kind == "by_case":
            self._branches(env, node)

    def _asks(self, node: Node) -> bool:
        fact = self.graph.facts.get(node.body.get("fact", ""))
        return node.kind in ("ask", "time", "check") and fact is not None and not fact.worked

    def _branches(self, env: Env, node: Node) -> None:
        true = [self._true(edge.guard, env) for edge in node.edges]
        labels = [edge.label for edge, one in zip(node.edges, true, strict=True) if one]
        for number, first in enumerate(labels):
            for second in labels[number + 1 :]:
                self._break(node, "case-overlap", f"{first} and {second}")

    def _decided(self, state: State, env: Env, here: Occurrence, *, last: bool) -> None:
        """What is wrong with the answer given here, or with what is decided here."""
        node = state.graph.nodes[here[0]]
        if node.kind == "check" and self._asks(node):
            self._domains(env, node)
        if last and state.status == FAULT and node.kind in ("by_case", "when", "repeat", "check"):
            if "a branch for this case" in state.why:
                self._break(node, "case-missing")
            elif (
                node.kind != "check" and GAVE_UP not in state.why
            ):  # what a check shows was looked at by name
                self._break(node, "fact-not-known")

    def _domains(self, env: Env, node: Node) -> None:
        """Computations the block rests on, or that those rest on, with an input past its limits."""
        names = [*node.shows, *(f for c in conditions_at(self.graph, node) for f in facts_of(c))]
        for name in dict.fromkeys(names):
            for one in (name, *sorted(self.graph.inputs_of(name))):
                fact = self.graph.facts[one]
                if not fact.worked or fact.operation:
                    continue
                for wanted in registry.find(fact.computation).inputs:
                    filler = fact.using.get(wanted.name, "=")
                    value = None if filler.startswith("=") else self._value(env, filler)
                    if value is None or isinstance(value, str):
                        continue
                    low, high = wanted.low, wanted.high
                    if (low is not None and value < low) or (high is not None and value > high):  # type: ignore[operator]
                        self._break(node, "input-out-of-domain", f"{one}.{wanted.name}")

    # --- values ---

    def _true(self, condition: Condition | None, env: Env) -> bool:
        assert condition is not None
        while True:
            try:
                return holds(condition, env)
            except UnknownFact:
                return False
            except NeedsWork as need:
                self._work(need)

    def _known(self, env: Env, name: str) -> bool:
        return self._value(env, name) is not None

    def _value(self, env: Env, name: str) -> Value | None:
        while True:
            try:
                return env[name]
            except UnknownFact:
                return None
            except NeedsWork as need:
                self._work(need)

    def _work(self, need: NeedsWork) -> None:
        fact = self.graph.facts[need.fact]
        body = work_out(fact, need.inputs, None)
        self.memo[memo_key(need.fact, need.inputs)] = read_worked(fact, body)

    # --- no way to an end ---

    def _stranded(self, came: list[tuple[Any, list[int]]]) -> None:
        """The standings from where no answers lead to an end, with the nodes passed on coming there."""
        self._back: dict[Any, set[Any]] = {key: set() for key in self.ways}
        for key, targets in self.ways.items():
            for target in targets:
                self._back[target].add(key)
        free = self._leading_to(self.ended)
        self.truth.lost = {key: set() for key in self.ways if key not in free}
        for key, passed in came:
            if key in self.truth.lost:
                self.truth.lost[key].update(passed)

    def _leading_to(self, wanted: set[Any]) -> set[Any]:
        found = set(wanted)
        todo = list(found)
        while todo:
            for key in self._back[todo.pop()] - found:
                found.add(key)
                todo.append(key)
        return found

    def lost_beside(self, told: set[int]) -> int:
        """How many of the lost standings neither lead past one of these nodes nor come from there."""
        lost = self.truth.lost
        near = {key for key, passed in lost.items() if passed & told}
        return len(set(lost) - self._leading_to(near) - self._led_to(near))

    def _led_to(self, wanted: set[Any]) -> set[Any]:
        found = set(wanted)
        todo = list(found)
        while todo:
            for key in set(self.ways.get(todo.pop(), ())) - found:
                found.add(key)
                todo.append(key)
        return found


def conditions_at(graph: Graph, node: Node) -> list[Condition]:
    """What a block decides by."""
    if node.index in graph.untils:
        return [graph.untils[node.index]]
    if node.index in graph.limits:
        return [graph.limits[node.index]]
    guards = node.edges if node.kind == "by_case" else node.edges[:1] if node.kind == "when" else []
    return [edge.guard for edge in guards if edge.guard is not None]


def values_of(graph: Graph, fact: Fact) -> Iterator[Value]:
    """The values of an asked fact that are tried."""
    yield from fact.options
    if fact.unsure:
        yield UNSURE
    kind = value_kind(fact)
    if kind == "count" and isinstance(fact.low, int) and isinstance(fact.high, int):
        yield from range(fact.low, fact.high + 1)
    elif kind in MEASURED:
        yield from _measures(graph, fact, kind)


def _measures(graph: Graph, fact: Fact, kind: str) -> Iterator[Quantity]:
    assert isinstance(fact.low, Quantity)
    assert isinstance(fact.high, Quantity)
    low, high = fact.low.base, fact.high.base
    marks = {low, high}
    marks.update(m for m in _marks_for(graph, fact) if low <= m <= high)
    step = fact.step.base if fact.step is not None else LEAST[kind]
    ordered = sorted(marks)
    numbers = set(ordered)
    for before, after in pairwise(ordered):
        middle = (before + after) / 2
        tried = [before + step, after - step, middle, _on(step, middle)]
        if len(ordered) > MANY_MARKS:
            tried = [before + step, middle]
        numbers.update(number for number in tried if before < number < after)
    for number in sorted(numbers):
        value = _written(fact, kind, number)
        if value is not None:
            yield value


def _marks_for(graph: Graph, fact: Fact) -> Iterator[Fraction]:
    """Numbers at which something may turn: what the file, or a computation fed by the fact, compares it with."""
    yield from _marks(graph, fact.name, 0)


FARTHEST = 4
"""Facts that a number is carried through, from where it is written to an asked fact."""


def _marks(graph: Graph, name: str, depth: int) -> Iterator[Fraction]:
    if depth > FARTHEST:
        return
    for condition in every_condition(graph):
        for one, constant in _constants(condition):
            if one == name:
                yield _base(constant)
        for against in _comparisons(condition):
            yield from _marks_against(graph, name, against, depth)
    for worked in graph.facts.values():
        if worked.worked and name in worked.input_facts():
            yield from _marks_below(graph, name, worked, depth)


def _marks_against(graph: Graph, name: str, one: Against, depth: int) -> Iterator[Fraction]:
    """Numbers of the fact it is compared with, moved by the offset."""
    offset = _base(one.offset) if one.offset is not None else Fraction(0)
    for here, other, sign in ((one.fact, one.other, 1), (one.other, one.fact, -1)):
        if here == name:
            yield from (number + sign * offset for number in _numbers(graph, other, depth + 2))


def _numbers(graph: Graph, name: str, depth: int) -> Iterator[Fraction]:
    """Some numbers a fact may have: its ends, those of what it is computed from, and its own marks."""
    fact = graph.facts[name]
    yield from (_base(end) for end in (fact.low, fact.high) if end is not None)
    if fact.operation and depth <= FARTHEST:
        yield from _sums(graph, fact, depth)
    yield from _marks(graph, name, depth)


def _sums(graph: Graph, fact: Fact, depth: int) -> Iterator[Fraction]:
    factors, added = weights(fact)
    sums = {added}
    for name, factor in factors.items():
        ends = set(_numbers(graph, name, depth + 2))
        sums = {one + factor * end for one in sums for end in sorted(ends)[:6]}
    yield from sums


def _marks_below(graph: Graph, name: str, worked: Fact, depth: int) -> Iterator[Fraction]:
    """Numbers of the fact at which what is computed from it comes to one of its own."""
    if worked.operation:
        factors, added = weights(worked)
        if not factors[name]:
            return
        rests = {added}
        for other, factor in factors.items():
            if other != name:
                numbers = sorted(set(_numbers(graph, other, depth + 2)))[:6]
                rests = {rest + factor * number for rest in rests for number in numbers}
        for mark in _marks(graph, worked.name, depth + 1):
            yield from ((mark - rest) / factors[name] for rest in rests)
        return
    computation = registry.find(worked.computation)
    if worked.computation == "chord" and worked.using["width"] == name:
        angle = measures.parse(worked.using["angle"].removeprefix("=").strip(), "angle")
        factor = Fraction(2 * math.sin(math.radians(float(angle.to("deg").magnitude)) / 2))
        for mark in _marks(graph, worked.name, depth + 1):
            yield Fraction(round(4 * mark / factor), 4)
    for wanted in computation.inputs:
        if worked.using.get(wanted.name) == name:
            yield from (_base(x) for x in (wanted.low, wanted.high) if x is not None)
    for key, threshold in computation.thresholds:
        if worked.using.get(key) == name:
            yield threshold.base


def _comparisons(condition: Condition) -> Iterator[Against]:
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from _comparisons(part)
    elif isinstance(condition, Not):
        yield from _comparisons(condition.part)
    elif isinstance(condition, Against):
        yield condition


def every_condition(graph: Graph) -> Iterator[Condition]:
    """All that a graph decides by."""
    for node in graph.nodes:
        yield from conditions_at(graph, node)


def _constants(condition: Condition) -> Iterator[tuple[str, Quantity | int]]:
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from _constants(part)
    elif isinstance(condition, Not):
        yield from _constants(condition.part)
    elif isinstance(condition, Compare):
        yield condition.fact, condition.value
    elif isinstance(condition, Between):
        yield from ((condition.fact, condition.low), (condition.fact, condition.high))


def _base(value: Quantity | int) -> Fraction:
    return value.base if isinstance(value, Quantity) else Fraction(value)


def _on(step: Fraction, number: Fraction) -> Fraction:
    return Fraction(round(number / step)) * step


def _written(fact: Fact, kind: str, number: Fraction) -> Quantity | None:
    """The number in the first unit in which the fact takes it."""
    for unit in measures.units_of(kind):
        value = Quantity(number / Quantity(Fraction(1), unit).base, unit)
        try:
            if fact.read(writing(value)) == value:
                return value
        except ValueError:
            continue
    return None
