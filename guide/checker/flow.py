"""Transfer functions of the graph: what a node writes, which cases an edge lets through, which variables are live."""

from dataclasses import dataclass, field

from guide.checker.bounds import conditions_at
from guide.checker.diagram import EVERYTHING, NOTHING
from guide.checker.model import CaseModel
from guide.procedure.compiler import COUNTS_ON, TEXT_KEYS
from guide.procedure.conditions import Condition, facts_of
from guide.procedure.facts import NONE
from guide.procedure.graph import Edge, Node
from guide.text import names_in

ASKING = ("ask", "time", "check")


@dataclass(slots=True)
class Property:
    """A safety property of one node: the cases that would break it if they came there."""

    code: str
    bad: int
    after: bool
    """Whether it is tested after the node's own answer, such as the limit of a `check`."""
    detail: str = ""


@dataclass(slots=True)
class Passage:
    """The transfer function of one node, on the cases that come to it."""

    forget: int = 0
    """Levels whose value is lost."""
    give: list[tuple[int, tuple[int, ...]]] = field(default_factory=list)
    """Levels that get one of these values."""
    pinned: int = EVERYTHING
    """The cases there are after the node, of those it could otherwise give."""
    guards: list[int] = field(default_factory=list)
    """For each edge, the cases that take it, after the node's own answer."""
    properties: list[Property] = field(default_factory=list)


class Flow:
    """The passages of every node of a model's graph."""

    def __init__(self, model: CaseModel) -> None:
        self.model = model
        self.graph = model.graph
        self.sets = model.sets
        self.passages = [self._passage(node) for node in self.graph.nodes]
        self.counts = [[self._counting(n, e) for e in n.edges] for n in self.graph.nodes]
        self.into: list[list[tuple[int, int]]] = [[] for _ in self.graph.nodes]
        """For each node, the edges that lead to it, as node and edge number."""
        for node in self.graph.nodes:
            for number, edge in enumerate(node.edges):
                self.into[edge.target].append((node.index, number))
        self.live = self._live()

    def _passage(self, node: Node) -> Passage:
        passage = Passage()
        self._writes(node, passage)
        self._guards(node, passage)
        self._properties(node, passage)
        return passage

    def asks(self, node: Node) -> str:
        """The fact a node asks for; empty if it asks for none."""
        name = node.body.get("fact", "")
        fact = self.graph.facts.get(name)
        return name if node.kind in ASKING and fact is not None and not fact.worked else ""

    def _writes(self, node: Node, passage: Passage) -> None:
        model = self.model
        name = self.asks(node)
        if name:
            level = model.fact_level[name]
            passage.forget |= 1 << level
            passage.give.append((level, tuple(range(1, self.sets.sizes[level]))))
            for lost in model.changed_by((name, *model.dependents[name])):
                passage.forget |= 1 << lost
            for changed in (name, *model.dependents[name]):
                if changed in model.bit_level:
                    bit = model.bit_level[changed]
                    passage.forget |= 1 << bit
                    passage.give.append((bit, (0,)))
        elif node.kind == "turn":
            self._begins_turn(node, passage)
        elif node.kind == "hold":
            for shown in node.shows:
                if shown in model.bit_level:
                    bit = model.bit_level[shown]
                    passage.forget |= 1 << bit
                    passage.give.append((bit, (1,)))

    def _begins_turn(self, node: Node, passage: Passage) -> None:
        """What the turn before asked is not known any more, and the turn's label goes by the count of turns."""
        model, sets = self.model, self.sets
        turn, forgets = node.body["turn"], node.body["forgets"]
        for name in forgets:
            level = model.fact_level[name]
            passage.forget |= 1 << level
            passage.give.append((level, (0,)))
        label = model.fact_level[turn]
        passage.forget |= 1 << label
        count = model.tries_level[self.graph.loop_of_turn(node)]
        passage.pinned = NOTHING
        for number in range(1, sets.sizes[label]):
            both = sets.both(sets.values(label, (number,)), sets.values(count, (number,)))
            passage.pinned = sets.either(passage.pinned, both)
        changed = dict.fromkeys(
            one for name in (turn, *forgets) for one in (name, *model.dependents[name])
        )
        for lost in model.changed_by(changed):
            passage.forget |= 1 << lost
        for name in changed:
            if name in model.bit_level:
                passage.forget |= 1 << model.bit_level[name]
                passage.give.append((model.bit_level[name], (0,)))

    def _guards(self, node: Node, passage: Passage) -> None:
        model, sets = self.model, self.sets
        if node.kind == "by_case":
            rest = EVERYTHING
            for edge in node.edges:
                truth = model.truth(self.need(edge.guard))
                passage.guards.append(sets.both(rest, truth.yes))
                rest = sets.both(rest, truth.no)
        elif node.kind == "when":
            truth = model.truth(self.need(node.edges[0].guard))
            passage.guards = [truth.yes, truth.no]
        elif node.kind == "check":
            truth = model.truth(self.graph.limits[node.index])
            passage.guards = [truth.yes, truth.no]
        elif node.kind == "repeat":
            truth = model.truth(self.graph.untils[node.index])
            loop = node.edges[1].loop
            level, tries = model.tries_level[loop], self.graph.loops[loop].at_most
            left = sets.values(level, range(tries))
            spent = sets.values(level, (tries,))
            passage.guards = [truth.yes, sets.both(truth.no, left), sets.both(truth.no, spent)]
        else:
            passage.guards = [EVERYTHING] * len(node.edges)

    @staticmethod
    def need(guard: Condition | None) -> Condition:
        """A guard that the compiler has made sure of."""
        assert guard is not None
        return guard

    def _properties(self, node: Node, passage: Passage) -> None:
        model, sets = self.model, self.sets
        asked = self.asks(node)
        add = passage.properties.append
        for name in node.shows:
            if name != asked:
                unknown = sets.less(EVERYTHING, model.known(name))
                add(Property("fact-not-known", unknown, False, name))
        for name in self._told(node):
            none = model.cell_set(name, lambda value: value == NONE)
            add(Property("no-answer-shown", none, False, name))
        if node.kind in ("by_case", "when", "repeat"):
            self._choice_properties(node, passage)
        for name in self._computed_at(node):
            for wanted, bad in model.out_of_domain(name):
                after = node.kind == "check"
                add(Property("input-out-of-domain", bad, after, f"{name}.{wanted}"))
        if node.body.get("cuts"):
            for name in node.shows:
                unread = sets.values(model.bit_level[name], (0,))
                add(Property("cut-without-hold", unread, False, name))

    def _told(self, node: Node) -> list[str]:
        """The computed facts that a block's words give as though they had an answer. A `work` block is there
        to say that there is none, and what a part is given is looked to by what includes it. Measures are left
        out: mostly they cannot be tabled, and any of them would be taken to have no answer in some case."""
        if node.kind == "work" or self.graph.nodes[0].id.startswith(f"{COUNTS_ON}/"):
            return []
        body = node.body
        texts = [body[key] for key in TEXT_KEYS if key in body]
        texts += [text for caution in body.get("caution", ()) for text in caution.values()]
        named = dict.fromkeys(name for text in texts for name in names_in(text))
        facts = [self.graph.facts[name] for name in named]
        return [
            fact.name
            for fact in facts
            if fact.worked and (fact.operation or fact.gives in ("count", "choice", "yesno"))
        ]

    def _computed_at(self, node: Node) -> list[str]:
        """The computed facts a node depends on, and those that they are computed from."""
        graph = self.graph
        read = [
            *node.shows,
            *(name for c in conditions_at(self.graph, node) for name in facts_of(c)),
        ]
        names = [one for name in read for one in (name, *sorted(graph.inputs_of(name)))]
        return [name for name in dict.fromkeys(names) if graph.facts[name].worked]

    def _choice_properties(self, node: Node, passage: Passage) -> None:
        model, sets = self.model, self.sets
        unknown, rest = NOTHING, EVERYTHING
        truths = [model.truth(condition) for condition in conditions_at(self.graph, node)]
        for truth in truths:
            silent = sets.less(EVERYTHING, sets.either(truth.yes, truth.no))
            unknown = sets.either(unknown, sets.both(rest, silent))
            rest = sets.both(rest, truth.no)
        if unknown:
            passage.properties.append(Property("fact-not-known", unknown, False))
        if node.kind == "by_case":
            passage.properties.append(Property("case-missing", rest, False))
            for first in range(len(truths)):
                for second in range(first + 1, len(truths)):
                    shared = sets.both(truths[first].yes, truths[second].yes)
                    if shared:
                        detail = f"{node.edges[first].label} and {node.edges[second].label}"
                        passage.properties.append(Property("case-overlap", shared, False, detail))

    def _counting(self, node: Node, edge: Edge) -> list[tuple[int, str]]:
        """The effect of an edge on the counters of repeats: (loop, `first` or `next`)."""
        found: list[tuple[int, str]] = []
        for number in self.model.tries_level:
            loop = self.graph.loops[number]
            if not loop.low <= edge.target <= loop.high:
                continue
            if edge.loop == number:
                found.append((number, "next"))
                continue
            outside = not loop.low <= node.index <= loop.high
            again = edge.loop >= 0 and (
                self.graph.loops[edge.loop].low <= loop.low
                and loop.high <= self.graph.loops[edge.loop].high
            )
            if outside or again:
                found.append((number, "first"))
        return found

    # --- what matters later ---

    def _live(self) -> list[int]:
        """For each node, the levels whose value on coming there can still matter.

        Live-variable analysis: the least fixpoint, from the last node to the first. What is not live is forgotten,
        which keeps the sets small.
        """
        nodes = self.graph.nodes
        reads = [self._reads(node) for node in nodes]
        entered = [self._entered(node) for node in nodes]
        live = [0] * len(nodes)
        changed = True
        while changed:
            changed = False
            for node in reversed(nodes):
                before, after = reads[node.index]
                out = after
                for number, edge in enumerate(node.edges):
                    out |= live[edge.target] & ~entered[node.index][number]
                    out |= self._counters_read(node, number)
                found = before | (out & ~self.passages[node.index].forget)
                if found != live[node.index]:
                    live[node.index] = found
                    changed = True
        return live

    def _reads(self, node: Node) -> tuple[int, int]:
        """The levels a node's properties and guards read: before its own answer, and after."""
        passage = self.passages[node.index]
        before = after = 0
        for prop in passage.properties:
            if prop.after:
                after |= self.model.support(prop.bad)
            else:
                before |= self.model.support(prop.bad)
        for guard in passage.guards:
            after |= self.model.support(guard)
        after |= self.model.support(passage.pinned)
        no_level = (1 << len(self.model.variables)) - 1
        return before & no_level, after & no_level

    def _counters_read(self, node: Node, number: int) -> int:
        mask = 0
        for loop, how in self.counts[node.index][number]:
            if how == "next":
                mask |= 1 << self.model.tries_level[loop]
        return mask

    def _entered(self, node: Node) -> list[int]:
        """For each edge, the counters that start anew along it."""
        return [
            sum(
                1 << self.model.tries_level[loop]
                for loop, how in self.counts[node.index][number]
                if how == "first"
            )
            for number in range(len(node.edges))
        ]

    # --- passing through ---

    def refused(self, index: int) -> int:
        """The cases in which the run itself refuses to go on at a node: a fact it depends on is not known, or
        a cut was not read back."""
        node = self.graph.nodes[index]
        found = NOTHING
        if node.kind in ("do", "hold", "work"):
            for prop in self.passages[index].properties:
                if prop.code in ("fact-not-known", "cut-without-hold"):
                    found = self.sets.either(found, prop.bad)
        return found

    def written(self, index: int, cases: int) -> int:
        """The cases after a node's own answer."""
        passage = self.passages[index]
        if passage.forget:
            cases = self.sets.forget(cases, passage.forget)
        for level, values in passage.give:
            cases = self.sets.both(cases, self.sets.values(level, values))
        return self.sets.both(cases, passage.pinned)

    def before(self, index: int, cases: int) -> int:
        """The cases at a node that its own answer can turn into these."""
        passage = self.passages[index]
        for level, values in passage.give:
            cases = self.sets.both(cases, self.sets.values(level, values))
        cases = self.sets.both(cases, passage.pinned)
        return self.sets.forget(cases, passage.forget) if passage.forget else cases

    def along(self, index: int, number: int, cases: int) -> int:
        """Of the cases after a node's answer, those that take an edge, as they come to its target."""
        cases = self.sets.both(cases, self.passages[index].guards[number])
        if cases == NOTHING:
            return NOTHING
        for loop, how in self.counts[index][number]:
            level = self.model.tries_level[loop]
            if how == "first":
                cases = self.sets.assign(cases, level, (1,))
            else:
                moves = {count: count + 1 for count in range(self.sets.sizes[level] - 1)}
                cases = self.sets.moved(cases, level, moves)
        target = self.graph.nodes[index].edges[number].target
        return self.sets.forget(cases, ~self.live[target] & self.everything)

    @property
    def everything(self) -> int:
        """The mask of all levels."""
        return (1 << len(self.model.variables)) - 1

    def at_start(self) -> int:
        """The initial case: nothing known, nothing read back."""
        cases = EVERYTHING
        for level, variable in enumerate(self.model.variables):
            if self.live[0] >> level & 1 and variable.kind in ("fact", "bit"):
                cases = self.sets.both(cases, self.sets.values(level, (0,)))
        for number in self.graph.nodes[0].loops:
            if number in self.model.tries_level:
                cases = self.sets.both(
                    cases, self.sets.values(self.model.tries_level[number], (1,))
                )
        return cases
