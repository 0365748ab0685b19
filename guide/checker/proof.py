"""Symbolic model checking: each safety property over every combination of answers that the facts allow.

Sets of reachable cases are computed exactly (flow.py, reach.py). A property is broken if a reachable case breaks it.
That case is the counter-example, which can be replayed through the real engine.
"""

from collections.abc import Iterator
from functools import partial
from operator import eq

from guide.checker.bounds import conditions_at, facts_needed
from guide.checker.diagram import EVERYTHING, NOTHING, SetsTooLarge
from guide.checker.every_way import EveryWay
from guide.checker.flow import Flow, Property
from guide.checker.landing import anywhere
from guide.checker.manual import at_block, page_of
from guide.checker.model import MOST_NODES, CaseModel
from guide.checker.reach import (
    ReachableCases,
    Replay,
    Samples,
    Stop,
    ending,
    smallest,
    traps,
    way_to,
)
from guide.checker.rounds import done_when_over, idle, only_first, passed_over
from guide.checker.slices import Slices, open_properties
from guide.checker.variable_order import orders
from guide.files.findings import ERROR, WARNING, Finding
from guide.measures import Quantity
from guide.procedure.conditions import All, AnyOf, Condition, Is
from guide.procedure.graph import Graph, Node

MOST_ALIKE = 12
"""Values that are tried for all measures of a way."""

SHARE = 3
"""The part of the bound that each order of the variables is first given: a good order needs far less than a bad one,
so that a short look at each costs less than one long look at the wrong one."""

DECIDING = ("when", "check", "by_case", "repeat")
"""The kinds of node whose ways have conditions."""

MESSAGES = {
    "case-missing": "No case of “{id}” covers these answers; add one, or widen one.",
    "case-overlap": "Two cases of “{id}” cover the same answers ({detail}); narrow one.",
    "fact-not-known": "“{id}” needs “{detail}”, which is not known on every way there; ask it before.",
    "cut-without-hold": "“{id}” cuts, and “{detail}” was not read back at a hold since it was last asked; "
    "read it back in a hold before.",
    "input-out-of-domain": "“{id}” computes “{detail}” past the limits it holds for; narrow the fact, or "
    "add a `by_case` before it.",
    "no-answer-shown": "“{id}” gives “{detail}” where it may have no answer; add a `by_case` for none before it, "
    "or end there.",
    "stranded": "From “{id}” there is a case in which no answer leads to an end; give it a way out.",
    "done-when-over": "“{id}” is done although “{detail}” is over then; give it a when, or move it to after "
    "the repeat.",
}
"""The message of a broken property, by its code."""


class Proof:
    """Everything proved of one graph, and what was found on the way."""

    def __init__(self, graph: Graph, replay: Replay | None = None, bound: int = MOST_NODES) -> None:
        self.graph = graph
        self.replay = replay
        self.findings: list[Finding] = []
        self.proved = False
        self._samples: Samples | None = None
        self.sliced = False
        """Whether the bound was met, so that only slices were looked at."""
        self.looking = graph.nodes[0]
        attempts = [(order, bound // SHARE) for order in orders(graph)]
        for order, room in (*attempts, (None, bound)):
            try:
                self._prove(order, room)
            except SetsTooLarge:
                self.findings.clear()
                self._samples = None
            else:
                open_codes = ("not-proved", "number-unbounded")
                self.proved = not any(f.code in open_codes for f in self.findings)
                return
        self.sliced = True
        self._not_proved(self.looking)
        try:
            self.flow = Flow(CaseModel(self.graph, bound))
        except SetsTooLarge:
            self.findings += self._by_ways()
        else:
            self.findings += self._by_slices()
            self.findings += self._never_by_slices()

    def _prove(self, order: list[str] | None, bound: int) -> None:
        """Look at every property with the variables in this order. Raises SetsTooLarge past the bound, with the
        block that was looked at in `looking`."""
        self.looking = self.graph.nodes[0]
        self.flow = Flow(CaseModel(self.graph, bound, order=order))
        self.reach = ReachableCases(self.flow)
        if self.reach.stopped_at is not None:
            self.looking = self.graph.nodes[self.reach.stopped_at]
            raise SetsTooLarge
        self.real = self._as_run()
        self.findings += self._broken()
        self.looking = self.graph.nodes[-1]
        comes = {n.index for n in self.graph.nodes if self.reach.cases[n.index] != NOTHING}
        self.findings += self._constant(comes, self._ways_taken(comes))
        stopping = {_place(n) for n in self.graph.nodes if n.index in comes and self._stops(n)}
        self.findings += self._dead(comes, stopping)
        self.findings += self._idle_labels(comes)
        self.findings += self._stranded()
        if all(finding.level != ERROR for finding in self.findings):
            self.findings += self._rounds()
        self.findings += self._resting_on_numbers()

    def _by_slices(self) -> Iterator[Finding]:
        """What slices of few variables still show: errors where every case of a slice breaks a property, or where a
        run does."""
        told: set[tuple[str, int, int, int | str]] = set()
        for found in open_properties(self.graph, self.flow):
            key = (found.prop.code, *_place(found.node)[1:], found.prop.detail)
            if key not in told:
                told.add(key)
                self.real = found.reach
                try:
                    yield self._shown(
                        found.node, found.prop, found.bad, found.there, certain=found.certain
                    )
                except SetsTooLarge:
                    return

    def _never_by_slices(self) -> Iterator[Finding]:
        """What no case of a slice comes to: ways, blocks, and the blocks from which no way is left to an end."""
        slices = Slices(self.flow, refusing=False)
        taken = {
            node.index: slices.ways_taken(node)
            for node in self.graph.nodes
            if node.kind in DECIDING
        }
        comes = {node.index for node in self.graph.nodes if slices.comes(node)}
        yield from self._constant(comes, taken)
        explained = {_place(self.graph.nodes[i]) for i, ways in taken.items() if not all(ways)}
        yield from self._dead(comes, explained)
        ways = {
            node.index: [
                edge.target
                for number, edge in enumerate(node.edges)
                if taken.get(node.index, [True] * len(node.edges))[number] and edge.target in comes
            ]
            for node in self.graph.nodes
            if node.index in comes
        }
        ends = {index for index in ways if self.graph.nodes[index].kind == "end"}
        for node in self._once(self.graph.nodes[index] for index in traps(ways, ends)):
            if _place(node) in {(f.file, f.line, f.column) for f in self.findings}:
                continue  # a gap there, or a fact that is not known, is reported already
            message = MESSAGES["stranded"].format(id=node.id)
            yield at_block(node, "stranded", message, "every case: no way to an end")

    def _not_proved(self, node: Node) -> None:
        found = at_block(
            node,
            "not-proved",
            f"The proof grew past its bound at “{node.id}”, the first block not proved; "
            "let fewer facts decide at once, or split the procedure.",
        )
        self.findings.append(found._replace(level=WARNING))

    def _as_run(self) -> ReachableCases:
        """The cases that come to each node of a real run, which refuses to go on at some faults."""
        flow = self.flow
        refuses = any(
            flow.sets.both(self.reach.cases[node.index], flow.refused(node.index)) != NOTHING
            for node in self.graph.nodes
        )
        return ReachableCases(flow, refusing=True) if refuses else self.reach

    def _by_ways(self) -> Iterator[Finding]:
        """Where even the conditions make too large sets: what is known and held on no way."""
        ways = EveryWay(self.graph)
        for node in self.graph.nodes:
            bits = ways.sometimes[node.index]
            if bits is None:
                continue
            for name in node.shows:
                code = "fact-not-known"
                broken = name != self._asked_at(node) and not ways.knows(bits, name)
                if node.body.get("cuts") and not broken:
                    code, broken = "cut-without-hold", not ways.holds(bits, name)
                if broken:
                    message = MESSAGES[code].format(id=node.id, detail=name)
                    yield at_block(node, code, message, f"every case: {name} on no way")

    @staticmethod
    def _asked_at(node: Node) -> str:
        return node.body.get("fact", "") if node.kind in ("ask", "time", "check") else ""

    # --- properties of one node ---

    def _broken(self) -> Iterator[Finding]:
        told: set[tuple[str, str, int, int, str]] = set()
        for node in self.graph.nodes:
            cases = self.real.cases[node.index]
            if cases == NOTHING:
                continue
            self.looking = node
            for prop in self.flow.passages[node.index].properties:
                there = self.flow.written(node.index, cases) if prop.after else cases
                bad = self.flow.sets.both(there, prop.bad)
                key = (prop.code, *_place(node), prop.detail)
                if bad != NOTHING and key not in told:
                    told.add(key)
                    found = self._shown(node, prop, bad, there)
                    if prop.code != "no-answer-shown" or found.code != "not-proved":
                        yield found

    def _shown(
        self, node: Node, prop: Property, bad: int, there: int, *, certain: bool = False
    ) -> Finding:
        """The finding of a property that these cases break; `certain` is whether nothing more need be shown."""
        case = smallest(self.real, bad, there)
        detail = prop.detail or self._unknown_name(node, bad)
        message = MESSAGES[prop.code].format(id=node.id.removesuffix("?"), detail=detail)
        words = (self.flow.model.said(level, values) for level, values in sorted(case.items()))
        said = ", ".join(filter(None, words)) or "every case"
        example = f"{said}: {_result(prop)}"
        if not certain and not self._replays(node, prop, bad, detail):
            # A file that checks clean strands nobody: what may be an error is never passed over as advice.
            found = at_block(node, "not-proved", f"Not proved: {message}", example)
            error = page_of(prop.code).level == ERROR
            return found._replace(level=WARNING) if error else found
        return at_block(node, prop.code, message, example)

    def _unknown_name(self, node: Node, bad: int) -> str:
        """The first fact a decision reads that is not known in some of these cases."""
        model, sets = self.flow.model, self.flow.sets
        for condition in conditions_at(self.graph, node):
            for name in facts_needed(condition):
                if sets.less(bad, model.known(name)) != NOTHING:
                    return name
        return node.id.removesuffix("?")

    def _replays(self, node: Node, prop: Property, bad: int, detail: str) -> bool:
        """Whether the counter-example is real. Without an engine at hand, the sets are believed where
        they are exact: where no computed value was taken to be anything its computation may give."""
        exact = not self.flow.model.support(bad) & self.flow.model.free_levels
        if self.replay is None:
            return exact and not self.sliced
        # A replay shows that a run comes to a stranded block, not with which computed value.
        if prop.code != "stranded" or exact:
            way = way_to(self.real, node.index, bad, after=prop.after)
            if self.replay(self.graph, way, prop.code, detail):
                return True
            if prop.code != "stranded" and self._replays_alike(self.replay, way, prop.code, detail):
                return True
        # A sampled way comes to the cells of two facts, not to which of the two is the greater.
        by_cells = prop.code in ("stranded", "done-when-over")
        if by_cells and self.flow.model.support(bad) & self.flow.model.order_levels:
            return False
        sampled = None if self.sliced else self._sampled_way(node, prop, bad)
        return sampled is not None and self.replay(self.graph, sampled, prop.code, detail)

    def _replays_alike(self, replay: Replay, way: list[Stop], code: str, detail: str) -> bool:
        """Whether a way becomes real once measures of one kind are answered alike: if a computation compares
        readings with each other, they usually have to agree."""
        model = self.flow.model
        values = dict.fromkeys(s.answer for s in way if isinstance(s.answer, Quantity))
        for value in list(values)[:MOST_ALIKE]:
            if replay(self.graph, [self._alike(model, s, value) for s in way], code, detail):
                return True
        return False

    def _alike(self, model: CaseModel, stop: Stop, value: Quantity) -> Stop:
        """The stop with this value as its answer, if nothing in the procedure can tell the two apart."""
        fact = self.graph.facts.get(self.flow.asks(self.graph.nodes[stop.node]))
        if fact is None or fact.kind != value.kind or stop.answer is None or not fact.takes(value):
            return stop
        cell = next(cell for cell in model.cells[fact.name] if cell.has(stop.answer))
        return Stop(stop.node, value) if cell.has(value) else stop

    def _sampled_way(self, node: Node, prop: Property, bad: int) -> list[Stop] | None:
        """A way to the same fault on which every computed value is the one it has."""
        try:
            if self._samples is None:
                self._samples = Samples(self.graph, self.flow.sets.bound)
            if prop.code in ("stranded", "done-when-over"):
                return self._samples.way_to_cases(node.index, self.flow.model, bad)
            return self._samples.way_to_breach(node.index, prop)
        except SetsTooLarge:
            return None

    # --- repeats and failures ---

    def _rounds(self) -> Iterator[Finding]:
        """Findings of repeats: steps done in a round that needs nothing, or left undone in one that does."""
        told: set[tuple[str, int, int]] = set()
        for node, repeat, bad in done_when_over(self.flow, self.real):
            if _place(node) not in told:
                prop = Property("done-when-over", bad, False, repeat.id)
                found = self._shown(node, prop, bad, self.real.cases[node.index])
                if (
                    found.code != "not-proved"
                ):  # what does not replay does not justify a change of the file
                    told.add(_place(node))
                    yield found
        for node, repeat in self._in_every_place(dict(self._first_rounds())):
            message = (
                f"“{node.id}” is never done on a second round of “{repeat.id}”; "
                "correct until or its when, or put it before."
            )
            yield at_block(node, "only-first-round", message)
        for node in self._once(idle(self.flow, self.real)):
            message = (
                f"“{node.id}” goes round in some case with none of its steps done; "
                "give that case a step."
            )
            yield at_block(node, "round-for-nothing", message)
        for node in self._once(passed_over(self.flow, self.real)):
            message = (
                f"“{node.id}” can fail and go on as if it had not, with nothing done; "
                "give that case a step or an end."
            )
            yield at_block(node, "failure-passed", message)

    @staticmethod
    def _once(nodes: Iterator[Node]) -> Iterator[Node]:
        """The first of the nodes at each place: a part may be included more than once."""
        yield from {_place(node): node for node in reversed(list(nodes))}.values()

    def _first_rounds(self) -> Iterator[tuple[int, Node]]:
        for node, repeat in only_first(self.flow, self.real):
            yield node.index, repeat

    def _in_every_place(self, found: dict[int, Node]) -> Iterator[tuple[Node, Node]]:
        """Of what was found, what is so in every place its file is included: a part serves them all."""
        excused = {
            _place(node)
            for node in self.graph.nodes
            if self.real.cases[node.index] != NOTHING and node.index not in found
        }
        for index, repeat in found.items():
            if _place(self.graph.nodes[index]) not in excused:
                yield self.graph.nodes[index], repeat

    # --- dead blocks and constant conditions ---

    def _dead(self, comes: set[int], stopping: set[tuple[str, int, int]]) -> Iterator[Finding]:
        """Unreachable blocks; of a dead part only its first block is reported, and not even that
        if the condition before it is reported, or is one of those `stopping` cases."""
        alive = {_place(node) for node in self.graph.nodes if node.index in comes}
        explained = {(f.file, f.line, f.column) for f in self.findings if f.level == ERROR}
        told: set[tuple[str, int, int]] = set()
        for node in self.graph.nodes:
            if _place(node) in alive or _place(node) in told or node.id == "end-of-part":
                continue
            told.add(_place(node))
            sources = [self.graph.nodes[index] for index, _ in self.flow.into[node.index]]
            if any(_place(source) not in alive and source.index < node.index for source in sources):
                continue
            if any(_place(s) in explained | stopping for s in sources):
                continue
            yield at_block(node, "unreachable", _dead_words(node))

    def _stops(self, node: Node) -> bool:
        """Whether some cases get no further than a decision: a gap, or a fact that is not known."""
        here = self.flow.written(node.index, self.reach.cases[node.index])
        for guard in self.flow.passages[node.index].guards:
            here = self.flow.sets.less(here, guard)
        return here != NOTHING

    def _ways_taken(self, comes: set[int]) -> dict[int, list[bool]]:
        """Of each decision that some case comes to, whether some case takes each way out of it."""
        sets = self.flow.sets
        found = {}
        for node in self.graph.nodes:
            if node.kind in DECIDING and node.index in comes:
                after = self.flow.written(node.index, self.reach.cases[node.index])
                guards = self.flow.passages[node.index].guards
                found[node.index] = [sets.both(after, guard) != NOTHING for guard in guards]
        return found

    def _constant(self, comes: set[int], taken: dict[int, list[bool]]) -> Iterator[Finding]:
        """Conditions that are the same in every case, in every place their file is included."""
        anywhere_taken: dict[tuple[str, int, int], list[bool]] = {}
        nodes: dict[tuple[str, int, int], Node] = {}
        for index, ways in taken.items():
            if index not in comes:
                continue
            key = _place(self.graph.nodes[index])
            nodes.setdefault(key, self.graph.nodes[index])
            before = anywhere_taken.get(key, [False] * len(ways))
            anywhere_taken[key] = [a or b for a, b in zip(before, ways, strict=True)]
        for key, ways in anywhere_taken.items():
            if not all(ways) and any(ways):
                yield from self._constant_finding(nodes[key], ways)

    def _constant_finding(self, node: Node, ways: list[bool]) -> Iterator[Finding]:
        name = node.id.removesuffix("?")
        if node.kind == "when":
            word = "never" if not ways[0] else "always"
            message = f"The condition of “{name}” {word} holds here; take it out, or correct it."
            yield at_block(node, "condition-constant", message)
        elif node.kind == "check":
            word = "never" if not ways[0] else "always"
            message = f"The limit of “{name}” is {word} met; correct the limit or the fact's range."
            yield at_block(node, "limit-constant", message)
        elif node.kind == "repeat":
            if not ways[0]:
                message = f"“{name}” is never done: its until never holds; correct it."
                yield at_block(node, "condition-constant", message)
            elif not ways[1] and not ways[2]:
                message = f"“{name}” is always done the first time; take the repeat out, or correct until."
                yield at_block(node, "condition-constant", message)
        else:
            for edge, way in zip(node.edges, ways, strict=True):
                if not way:
                    message = (
                        f"No answer leads to the case “{edge.label}” of “{name}”; "
                        "correct its when, or take it out."
                    )
                    yield at_block(node, "case-never", message)

    def _idle_labels(self, comes: set[int]) -> Iterator[Finding]:
        """Answers that a condition lists and that nobody can have given there, in every place of their file; others
        of its list can be."""
        idle: dict[tuple[str, int, int], dict[tuple[str, str], bool]] = {}
        nodes: dict[tuple[str, int, int], Node] = {}
        model, sets = self.flow.model, self.flow.sets
        for index in sorted(comes):
            node = self.graph.nodes[index]
            here = self.flow.written(index, self.reach.cases[index])
            known = idle.setdefault(_place(nodes.setdefault(_place(node), node)), {})
            for name, label in dict.fromkeys(_listed(self.graph, node)):
                if known.get((name, label), True):
                    having = model.cell_set(name, partial(eq, label))
                    known[name, label] = sets.both(here, having) == NOTHING
        for place, labels in idle.items():
            heard = {name for (name, _), never in labels.items() if not never}
            idle_here = (pair for pair, never in labels.items() if never and pair[0] in heard)
            name, label = next(idle_here, ("", ""))
            if name:
                message = (
                    f"“{nodes[place].id.removesuffix('?')}” lists the answer “{label}” of {name}, "
                    "which never comes here; take it out, or correct what is asked or done before."
                )
                yield at_block(nodes[place], "label-idle", message)

    # --- computed numbers ---

    def _resting_on_numbers(self) -> Iterator[Finding]:
        """Decisions by a computed number of which no range is known: that it can be what they ask for is not proved."""
        told: set[tuple[str, int, int]] = set()
        for node in self.graph.nodes:
            if self.reach.cases[node.index] == NOTHING or _place(node) in told:
                continue
            names = [n for c in conditions_at(self.graph, node) for n in facts_needed(c)]
            for name in dict.fromkeys(names):
                if name in self.flow.model.free_level and anywhere(self.flow.model, name):
                    told.add(_place(node))
                    message = (
                        f"Not proved: “{node.id.removesuffix('?')}” depends on a computed number, “{name}”, "
                        "whose range is not known; rehearse every way from here."
                    )
                    yield at_block(node, "number-unbounded", message)

    # --- no way to an end ---

    def _stranded(self) -> Iterator[Finding]:
        def faults(index: int) -> int:
            """Cases at a block that a gap, an unknown fact or an unheld cut already tells of."""
            found = self.flow.refused(index)
            passage = self.flow.passages[index]
            if self.graph.nodes[index].kind in ("by_case", "when", "repeat", "check"):
                stuck = EVERYTHING
                for guard in passage.guards:
                    stuck = self.flow.sets.less(stuck, guard)
                found = self.flow.sets.either(found, self.flow.before(index, stuck))
            return found

        ends = ending(self.flow, faults)
        lost = {
            node.index: bad
            for node in self.graph.nodes
            if (bad := self.flow.sets.less(self.real.cases[node.index], ends[node.index]))
            != NOTHING
        }
        told: set[tuple[str, int, int]] = set()
        for index in self._traps(lost):
            node = self.graph.nodes[index]
            if _place(node) not in told:
                told.add(_place(node))
                prop = Property("stranded", EVERYTHING, False)
                yield self._shown(node, prop, lost[index], self.real.cases[index])

    def _traps(self, lost: dict[int, int]) -> list[int]:
        """The traps of the lost cases."""
        ways: dict[int, list[int]] = {}
        for index, bad in lost.items():
            after = self.flow.written(index, self.flow.sets.less(bad, self.flow.refused(index)))
            ways[index] = [
                edge.target
                for number, edge in enumerate(self.graph.nodes[index].edges)
                if edge.target in lost and self.flow.along(index, number, after) != NOTHING
            ]
        return traps(ways)


def _result(prop: Property) -> str:
    return {
        "case-missing": "no case",
        "case-overlap": prop.detail,
        "fact-not-known": "not known",
        "cut-without-hold": "cut without having been read back",
        "input-out-of-domain": "past the limits",
        "stranded": "no way to an end",
        "no-answer-shown": "no answer",
        "done-when-over": "over, and done all the same",
    }[prop.code]


def _listed(graph: Graph, node: Node) -> Iterator[tuple[str, str]]:
    """Each answer in a list of two or more that a condition of a decision names, with its fact."""
    for condition in conditions_at(graph, node):
        for name, labels in _lists(condition):
            if len(labels) > 1:
                yield from ((name, label) for label in labels)


def _lists(condition: Condition) -> Iterator[tuple[str, tuple[str, ...]]]:
    if isinstance(condition, All | AnyOf):
        for part in condition.parts:
            yield from _lists(part)
    elif isinstance(condition, Is):
        yield condition.fact, condition.labels


def _dead_words(node: Node) -> str:
    if node.kind == "go":
        return f"No case comes to the jump of “{node.id.rstrip('>')}”; correct its condition, or take it out."
    name = node.id.removesuffix("?")
    return f"No case comes to “{name}”; correct the condition before it, or take it out."


def _place(node: Node) -> tuple[str, int, int]:
    return node.file, node.line, node.column
