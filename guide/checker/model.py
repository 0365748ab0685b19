"""The symbolic model: a variable of the decision diagrams for each fact, and each condition as a set of cases.

Value 0 of a fact's variable is "not known yet"; value n is its cell n - 1. Beside the facts there are
- a bit for each fact that a cut depends on: 1 while it has been read back at a hold since it last changed;
- a free variable for each computed fact whose answer cannot be tabled: any value its computation may give, within
  what its inputs leave (landing.py);
- for two facts that are compared, how far the one is above the other (compared.py);
- a counter for each `repeat`.
"""

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import partial

from guide.checker.compared import Pair, pairs_of, stand_so, stands
from guide.checker.diagram import EVERYTHING, NOTHING, Diagrams
from guide.checker.domains import Cell, cells_of, cuts_of, said_cells
from guide.checker.intervals import ends_of
from guide.checker.landing import Landing, landings
from guide.checker.variable_order import first_asked
from guide.procedure.conditions import (
    Against,
    All,
    AnyOf,
    Condition,
    IsKnown,
    Not,
    UnknownFact,
    holds,
    value_kind,
)
from guide.procedure.facts import MEASURED, NONE, Fact, Value
from guide.procedure.graph import Graph
from guide.procedure.worked_facts import (
    RUNS_OWN,
    Env,
    Memo,
    NeedsWork,
    memo_key,
    read_worked,
    work_out,
)
from guide.trade import registry

MOST_NODES = 600_000
"""Nodes of all the sets together; past it the proof stops and names where it stopped."""
MOST_ROWS = 30_000
"""Rows of a computed fact's table; past it the fact may have any value that its computation may give."""
SAMPLED_ROWS = 500
"""Rows of all tables of samples together: they only serve to find an example that replays."""


@dataclass(slots=True)
class Truth:
    """Three-valued truth of a condition: cases in which it is true, and false; in all others a fact is not known."""

    yes: int
    no: int


@dataclass(slots=True)
class Variable:
    """One variable of the sets."""

    name: str
    kind: str
    """`fact`, `bit`, `free`, `order` or `tries`."""
    cells: list[Cell] = field(default_factory=list)
    size: int = 2
    pair: Pair | None = None
    """Of an `order`: the two facts that are compared."""


class CaseModel:
    """Facts, cells and conditions of one graph."""

    def __init__(
        self,
        graph: Graph,
        bound: int = MOST_NODES,
        *,
        sampled: bool = False,
        order: Iterable[str] | None = None,
    ) -> None:
        self.graph = graph
        self.sampled = sampled
        """Whether each cell has its sample as its only value. Then every case is a real one, though not every
        real case is there."""
        self._tabled: dict[str, bool] = {}
        self._rows_left = SAMPLED_ROWS
        self.ends = ends_of(graph.facts)
        cuts = cuts_of(graph, self.ends)
        self.cells = {
            name: cells_of(fact, cuts.get(name, ()), self.ends[name])
            for name, fact in graph.facts.items()
        }
        self.pairs = {} if sampled else pairs_of(graph)
        self.cut_facts = graph.cut_facts()
        self.variables: list[Variable] = []
        self.fact_level: dict[str, int] = {}
        self.bit_level: dict[str, int] = {}
        self.free_level: dict[str, int] = {}
        self.order_level: dict[frozenset[str], int] = {}
        """For two facts that are compared: how far the one is above the other."""
        self.tries_level: dict[int, int] = {}
        self._order(first_asked(graph) if order is None else order)
        self.sets = Diagrams((v.size for v in self.variables), bound)
        self._truths: dict[Condition, Truth] = {}
        self._tables: dict[str, list[int]] = {}
        self._known: dict[str, int] = {}
        self._landings: dict[str, list[Landing]] = {}
        self._outside: dict[str, list[tuple[str, int]]] = {}
        self._support: dict[int, int] = {NOTHING: 0, EVERYTHING: 0}
        self.dependents: dict[str, list[str]] = {name: [] for name in graph.facts}
        """The computed facts that change when a fact is asked again."""
        for name, fact in graph.facts.items():
            for one in graph.inputs_of(name) if fact.worked else ():
                self.dependents[one].append(name)

    def _order(self, order: Iterable[str]) -> None:
        """Asked facts in this order, each with its bit beside it, and after a fact the counters of the loops that
        begin between its first question and the next."""
        counters = self._counters()
        for name in ("", *order):
            if name:
                self._add_fact(name)
            for loop in counters.get(name, ()):
                self.tries_level[loop] = len(self.variables)
                size = self.graph.loops[loop].at_most + 1
                self.variables.append(Variable(f"try {loop}", "tries", size=size))
        for name, fact in self.graph.facts.items():
            if fact.worked:
                if not self.tabled(name):
                    self.free_level[name] = len(self.variables)
                    cells = self.cells[name]
                    self.variables.append(Variable(name, "free", cells, len(cells)))
                self._add_bit(name)
        for key, pair in self.pairs.items():
            self.order_level[key] = len(self.variables)
            self.variables.append(Variable(pair.said([1]), "order", size=pair.size, pair=pair))

    @property
    def free_levels(self) -> int:
        """The mask of the levels of what is only assumed to be possible."""
        return self.order_levels | sum(1 << level for level in self.free_level.values())

    @property
    def order_levels(self) -> int:
        """The mask of the levels of facts that are compared with each other."""
        return sum(1 << level for level in self.order_level.values())

    def changed_by(self, names: Iterable[str]) -> Iterator[int]:
        """The levels of free variables that are lost when these facts change."""
        changed = set(names)
        yield from (self.free_level[name] for name in changed if name in self.free_level)
        yield from (level for key, level in self.order_level.items() if key & changed)

    def _counters(self) -> dict[str, list[int]]:
        """The loops that count their rounds, by the fact that was last asked for the first time when each begins."""
        found: dict[str, list[int]] = {}
        asked: set[str] = set()
        last = ""
        for node in self.graph.nodes:
            name = node.body.get("fact", "")
            fact = self.graph.facts.get(name)
            asking = node.kind in ("ask", "time", "check") and fact is not None and not fact.worked
            if asking and name not in asked:
                asked.add(name)
                last = name
            for loop in node.loops:
                if self.graph.loops[loop].at_most and all(loop not in ls for ls in found.values()):
                    found.setdefault(last, []).append(loop)
        return found

    def _add_fact(self, name: str) -> None:
        if name in self.fact_level:
            return
        self.fact_level[name] = len(self.variables)
        cells = self.cells[name]
        self.variables.append(Variable(name, "fact", cells, len(cells) + 1))
        self._add_bit(name)

    def _add_bit(self, name: str) -> None:
        if name in self.cut_facts:
            self.bit_level[name] = len(self.variables)
            self.variables.append(Variable(name, "bit"))

    # --- computed facts ---

    def leaves(self, name: str) -> list[str]:
        """The asked facts that a computed fact comes from."""
        return [n for n in self.graph.inputs_of(name) if not self.graph.facts[n].worked]

    def tabled(self, name: str) -> bool:
        """Whether a computed fact has a table: where its answer is the same throughout every combination of
        cells, or, among samples, where there is room for one."""
        found = self._tabled.get(name)
        if found is None:
            found = self._exact(name)
            fits = not self.by_rounds(name) and self._rows_of(name) <= self._rows_left
            if not found and self.sampled and fits:
                self._rows_left -= self._rows_of(name)
                found = True
            self._tabled[name] = found
        return found

    def by_rounds(self, name: str) -> bool:
        """Whether a computed fact depends on earlier rounds too, which no case contains."""
        return any(self.graph.facts[one].rounds for one in (name, *self.graph.inputs_of(name)))

    def _rows_of(self, name: str) -> int:
        return math.prod(len(self.cells[leaf]) + 1 for leaf in self.leaves(name))

    def _exact(self, name: str) -> bool:
        fact = self.graph.facts[name]
        if self.by_rounds(name) or self._rows_of(name) > MOST_ROWS:
            return False
        if fact.operation:
            return self._exact_formula(fact)
        computation = registry.find(fact.computation)
        if any(one.kind == "sheet" or one.name in RUNS_OWN for one in computation.inputs):
            return False  # what a run brings itself is not among the cases
        if fact.gives not in ("choice", "yesno", "count"):
            return False
        stepped = {key for key, _ in computation.thresholds}
        for one in computation.inputs:
            filler = fact.using.get(one.name, "=")
            if not filler.startswith("="):
                numeric = one.kind in MEASURED or one.kind == "count"
                if numeric and one.name not in stepped:
                    return False
                if self.graph.facts[filler].worked and not self.tabled(filler):
                    return False
        return True

    def _exact_formula(self, fact: Fact) -> bool:
        """Whether arithmetic has one fact in it, whose cells then each lie in one cell of the result."""
        names = set(fact.input_facts())
        return len(names) == 1 and all(
            not self.graph.facts[name].worked or (self.tabled(name) and self._exact(name))
            for name in names
        )

    def _table(self, name: str) -> list[int]:
        """For a tabled fact: the set of cases for not known, then for each of its cells."""
        found = self._tables.get(name)
        if found is None:
            leaves = sorted(self.leaves(name), key=lambda n: self.fact_level[n])
            memo: Memo = {}
            found = self._rows(name, leaves, {}, memo)
            self._tables[name] = found
        return found

    def _rows(
        self,
        name: str,
        leaves: list[str],
        asked: dict[str, Value],
        memo: Memo,
    ) -> list[int]:
        width = len(self.cells[name]) + 1
        if not leaves:
            value = computed(self.graph, name, asked, memo)
            place = 0 if value is None else self._cell(name, value) + 1
            return [EVERYTHING if n == place else NOTHING for n in range(width)]
        leaf, rest = leaves[0], leaves[1:]
        kids = [self._rows(name, rest, asked, memo)]
        for cell in self.cells[leaf]:
            kids.append(self._rows(name, rest, {**asked, leaf: cell.sample}, memo))
        level = self.fact_level[leaf]
        return [self.sets.node(level, tuple(kid[n] for kid in kids)) for n in range(width)]

    def _cell(self, name: str, value: Value) -> int:
        """The place of the cell that a value lies in."""
        cells = self.cells[name]
        if value != NONE and value_kind(self.graph.facts[name]) == "text":
            return 0  # all words are one cell
        return next(n for n, cell in enumerate(cells) if cell.has(value))

    # --- what is known, and conditions ---

    def known(self, name: str) -> int:
        """The cases in which a fact has a value."""
        found = self._known.get(name)
        if found is None:
            fact = self.graph.facts[name]
            if not fact.worked:
                level = self.fact_level[name]
                found = self.sets.values(level, range(1, self.sets.sizes[level]))
            elif name in self.free_level:
                found = EVERYTHING
                for wanted, filler in fact.using.items():
                    if not filler.startswith("=") and wanted not in fact.optional:
                        found = self.sets.both(found, self.known(filler))
                for columns in fact.rounds.values():
                    found = self.sets.both(found, self.known(columns[0]))
            else:
                found = self.sets.less(EVERYTHING, self._table(name)[0])
            self._known[name] = found
        return found

    def cell_set(self, name: str, wanted: Callable[[Value], bool]) -> int:
        """The cases in which a fact has a value of a cell whose sample is wanted."""
        places = [n for n, cell in enumerate(self.cells[name]) if wanted(cell.sample)]
        if name in self.fact_level:
            return self.sets.values(self.fact_level[name], (n + 1 for n in places))
        if name in self.free_level:
            return self._free_set(name, places)
        table = self._table(name)
        found = NOTHING
        for place in places:
            found = self.sets.either(found, table[place + 1])
        return found

    def _free_set(self, name: str, places: list[int]) -> int:
        """The cases in which a free number lies in one of these cells."""
        level, cells = self.free_level[name], self.cells[name]
        found = self.landings(name)
        if not found:
            return self.sets.both(self.known(name), self.sets.values(level, places))
        cases = NOTHING
        for landing in found:
            values = [v for v in range(len(cells)) if landing.place(v, len(cells) - 1) in places]
            chosen = self.sets.values(level, values)
            cases = self.sets.either(cases, self.sets.both(landing.cases, chosen))
        return cases

    def landings(self, name: str) -> list[Landing]:
        """Where a free number can lie, by the cells of its inputs; empty where nothing is known of it."""
        found = self._landings.get(name)
        if found is None:
            found = self._landings[name] = landings(self, name)
        return found

    def value_set(self, variable: Variable, value: int) -> int:
        """The cases in which a variable of another model of the same graph has this value."""
        if variable.kind == "free" and variable.name not in self.free_level:
            return self._table(variable.name)[value + 1]
        if variable.pair is not None:
            return stand_so(self, variable.pair, value)
        level = next(
            n
            for n, own in enumerate(self.variables)
            if (own.kind, own.name) == (variable.kind, variable.name)
        )
        return self.sets.values(level, (value,))

    def truth(self, condition: Condition) -> Truth:
        """The three-valued truth of a condition, evaluated left to right with short circuit, as the run does."""
        found = self._truths.get(condition)
        if found is None:
            found = self._truth(condition)
            self._truths[condition] = found
        return found

    def _truth(self, condition: Condition) -> Truth:
        sets = self.sets
        if isinstance(condition, Not):
            inner = self.truth(condition.part)
            return Truth(inner.no, inner.yes)
        if isinstance(condition, All):
            yes, no = EVERYTHING, NOTHING
            for part in condition.parts:
                inner = self.truth(part)
                no = sets.either(no, sets.both(yes, inner.no))
                yes = sets.both(yes, inner.yes)
            return Truth(yes, no)
        if isinstance(condition, AnyOf):
            yes, no = NOTHING, EVERYTHING
            for part in condition.parts:
                inner = self.truth(part)
                yes = sets.either(yes, sets.both(no, inner.yes))
                no = sets.both(no, inner.no)
            return Truth(yes, no)
        known = self.known(condition.fact)
        if isinstance(condition, IsKnown):
            return Truth(known, sets.less(EVERYTHING, known))
        if isinstance(condition, Against):
            return Truth(*stands(self, condition))
        name = condition.fact
        yes = self.cell_set(name, lambda value: holds(condition, {name: value}))
        return Truth(yes, sets.less(known, yes))

    def out_of_domain(self, name: str) -> list[tuple[str, int]]:
        """For a computed fact: each numeric input, and the cases in which it is past its limits."""
        found = self._outside.get(name)
        if found is None:
            found = self._outside[name] = list(self._out_of_domain(name))
        return found

    def _out_of_domain(self, name: str) -> Iterator[tuple[str, int]]:
        fact = self.graph.facts[name]
        if fact.operation:
            return
        computation = registry.find(fact.computation)
        for wanted in computation.inputs:
            filler = fact.using.get(wanted.name, "=")
            if filler.startswith("=") or (wanted.low is None and wanted.high is None):
                continue

            def outside(value: Value, low: object, high: object) -> bool:
                if isinstance(value, str):
                    return False
                return (low is not None and value < low) or (high is not None and value > high)  # type: ignore[operator]

            test = partial(outside, low=wanted.low, high=wanted.high)
            yield wanted.name, self.cell_set(filler, test)

    def support(self, a: int) -> int:
        """The support of a set: the variables it depends on, as a mask of levels."""
        found = self._support.get(a)
        if found is None:
            found = 1 << self.sets.levels[a]
            for kid in set(self.sets.kids[a]):
                found |= self.support(kid)
            self._support[a] = found
        return found

    def plain(self) -> dict[int, int]:
        """For each fact that is a number, the value of its variable for its widest cell: a plain reading, not
        one on the very threshold."""
        found = {}
        for name, level in self.fact_level.items():
            wide = [
                (math.inf if c.low is None or c.high is None else c.high - c.low, place)
                for place, c in enumerate(self.cells[name])
                if c.number and not c.point
            ]
            if wide:
                found[level] = max(wide)[1] + 1
        return found

    def said(self, level: int, values: list[int]) -> str:
        """One variable of a case, in the trade's words; empty for what a person does not see."""
        variable = self.variables[level]
        if variable.pair is not None:
            return variable.pair.said(values)
        if variable.kind not in ("fact", "free"):
            return ""
        name = variable.name.replace("_", " ")
        first = 1 if variable.kind == "fact" else 0
        cells = [variable.cells[value - first] for value in values if value >= first]
        if len(cells) < len(values):
            said = f"{name} {self._cells(variable, cells)}, or " if cells else f"{name} "
            return f"{said}not asked"
        return f"{name} {self._cells(variable, cells)}"

    def _cells(self, variable: Variable, cells: list[Cell]) -> str:
        return said_cells(value_kind(self.graph.facts[variable.name]), cells)


def computed(graph: Graph, name: str, asked: dict[str, Value], memo: Memo) -> Value | None:
    """A computed fact's value for these answers; None if an input it needs is not known."""
    env = Env(graph.facts, memo, asked)
    while True:
        try:
            return env[name]
        except UnknownFact:
            return None
        except NeedsWork as need:
            fact = graph.facts[need.fact]
            body = work_out(fact, need.inputs, None)
            memo[memo_key(need.fact, need.inputs)] = read_worked(fact, body)
