"""The compiled procedure: the control-flow graph that the run, the checker and the chart share.

Nodes are in the order of the file, so that a branch or a loop is a range of indexes.
Plain classes, stored as JSON: opening a run parses no YAML.
"""

from dataclasses import dataclass, field
from typing import Any

from guide.files.stored_form import STORED_FORM
from guide.procedure import conditions
from guide.procedure.conditions import Condition
from guide.procedure.facts import Fact
from guide.procedure.hazards import USUAL, Hazard, declared

VISIT = 5
"""The cost of going to the next node, in comparisons."""

Range = tuple[int, int]
"""Node indexes, the first included and the last not."""


@dataclass(slots=True)
class Edge:
    """A way from one node to the next."""

    target: int
    label: str
    """`next`, a branch id, `yes`/`no` of a `when`, `met`/`not met`, `until`/`again`/`spent`, `go`."""
    guard: Condition | None = None
    inside: Range = (0, 0)
    """The nodes that only this edge leads into: abandoned when the run no longer takes it."""
    loop: int = -1
    """The loop that this edge goes round once more; -1 for a way forward."""

    def to_json(self) -> list[Any]:
        """Compact form for storage."""
        guard = conditions.to_json(self.guard) if self.guard is not None else None
        return [self.target, self.label, guard, list(self.inside), self.loop]

    @staticmethod
    def from_json(data: list[Any]) -> "Edge":
        """Read back what `to_json` wrote."""
        target, label, guard, inside, loop = data
        read = conditions.from_json(guard) if guard is not None else None
        return Edge(target, label, read, (inside[0], inside[1]), loop)


@dataclass(slots=True)
class Loop:
    """A part that may be gone through more than once: a `repeat`, or a `go` back."""

    low: int
    high: int
    """The node whose edge goes round again; included."""
    at_most: int = 0
    """The most times it is gone through; 0 for a `go`, which has no limit of its own."""


@dataclass(slots=True)
class Node:
    """One place in the graph."""

    index: int
    id: str
    """The block's id after the ids of its includes; a `when` ends in `?`, the begin of a turn in `+`, a jump in `>`."""
    kind: str
    """`do ask work time check hold end`, and `by_case when repeat turn go`, which nobody sees."""
    body: dict[str, Any]
    edges: list[Edge] = field(default_factory=list)
    loops: tuple[int, ...] = ()
    """The loops this node is part of, in the order they begin."""
    shows: tuple[str, ...] = ()
    """The facts that the block shows, reads or computes with: what its `done` depends on."""
    file: str = ""
    line: int = 0
    column: int = 0

    @property
    def seen(self) -> bool:
        """Whether a person sees this node, and the run waits there."""
        return self.kind not in ("by_case", "when", "repeat", "turn", "go")

    def to_json(self) -> list[Any]:
        """Compact form for storage."""
        return [
            self.id,
            self.kind,
            self.body,
            [edge.to_json() for edge in self.edges],
            list(self.loops),
            list(self.shows),
            self.file,
            self.line,
            self.column,
        ]

    @staticmethod
    def from_json(index: int, data: list[Any]) -> "Node":
        """Read back what `to_json` wrote."""
        id_, kind, body, edges, loops, shows, file, line, column = data
        return Node(
            index,
            id_,
            kind,
            body,
            [Edge.from_json(edge) for edge in edges],
            tuple(loops),
            tuple(shows),
            file,
            line,
            column,
        )


@dataclass(slots=True)
class Graph:
    """A procedure, ready to run."""

    name: str
    edition: int
    title: str
    about: str
    facts: dict[str, Fact]
    nodes: list[Node]
    loops: list[Loop]
    limits: dict[int, Condition] = field(default_factory=dict)
    """The limit of each `check`, by node index."""
    untils: dict[int, Condition] = field(default_factory=dict)
    """The `until` of each `repeat`, by node index."""
    digest: str = ""
    """Of every source the graph came from."""
    hazards: dict[str, Hazard] = field(default_factory=dict)
    """The hazards that its files declare, beside those known everywhere."""
    stages: list[tuple[int, str]] = field(default_factory=list)
    """The first node of each stage of the work, and the stage's title; empty where the file names none."""
    purpose: str = ""
    """`inspection` where each check is an item that passes or fails; else empty."""
    _by_id: dict[str, int] = field(default_factory=dict, compare=False, repr=False)
    _inputs_of: dict[str, set[str]] = field(default_factory=dict, compare=False, repr=False)
    _weights: list[int] = field(default_factory=list, compare=False, repr=False)
    _cut_facts: frozenset[str] | None = field(default=None, compare=False, repr=False)
    read_back: "Graph | None" = field(default=None, init=False, compare=False, repr=False)
    """This graph as a run reads it from its journal, kept once one was begun with it; None before."""
    checked: bool = field(default=False, init=False, compare=False, repr=False)
    """Whether it comes from the cache, which keeps only graphs that a run's file may hold (`stored_graph`)."""

    def index_of(self, node_id: str) -> int | None:
        """The index of the node of this id."""
        if not self._by_id:
            self._by_id = {node.id: node.index for node in self.nodes}
        return self._by_id.get(node_id)

    def to_json(self) -> dict[str, Any]:
        """The graph as the cache and the journal store it."""
        return {
            "format": STORED_FORM,
            "name": self.name,
            "edition": self.edition,
            "title": self.title,
            "about": self.about,
            "digest": self.digest,
            "facts": [fact.to_json() for fact in self.facts.values()],
            "nodes": [node.to_json() for node in self.nodes],
            "loops": [[loop.low, loop.high, loop.at_most] for loop in self.loops],
            "limits": [[i, conditions.to_json(c)] for i, c in self.limits.items()],
            "untils": [[i, conditions.to_json(c)] for i, c in self.untils.items()],
            "hazards": {
                name: [list(one) for one in h.cautions] for name, h in self.hazards.items()
            },
            "stages": [[index, title] for index, title in self.stages],
            **({"purpose": self.purpose} if self.purpose else {}),
        }

    @staticmethod
    def from_json(data: dict[str, Any]) -> "Graph":
        """Read back what `to_json` wrote. Raises ValueError for another format."""
        if data.get("format") != STORED_FORM:
            raise ValueError("This was written by another edition of Hingeside.")
        facts = (Fact.from_json(fact) for fact in data["facts"])
        return Graph(
            data["name"],
            data["edition"],
            data["title"],
            data["about"],
            {fact.name: fact for fact in facts},
            [Node.from_json(index, node) for index, node in enumerate(data["nodes"])],
            [Loop(*loop) for loop in data["loops"]],
            {i: conditions.from_json(c) for i, c in data["limits"]},
            {i: conditions.from_json(c) for i, c in data["untils"]},
            data["digest"],
            {name: declared((w, t) for w, t in one) for name, one in data["hazards"].items()},
            [(index, title) for index, title in data["stages"]],
            data.get("purpose", ""),
        )

    def loop_of_turn(self, turn: Node) -> int:
        """The number of the loop that a `turn` begins."""
        return next(
            n for n in turn.loops if self.loops[n].low == turn.index and self.takes_turns(n)
        )

    def tries_of(self, node: Node) -> tuple[int, ...]:
        """The loops around a node that try the same thing again; an `each` does it for another thing."""
        return tuple(loop for loop in node.loops if not self.takes_turns(loop))

    def takes_turns(self, loop: int) -> bool:
        """Whether a loop is that of an `each`: a `repeat` or a `go` may begin at the same node."""
        first, last = self.nodes[self.loops[loop].low], self.nodes[self.loops[loop].high]
        return first.kind == "turn" and last.kind == "repeat" and first.id == f"{last.id}+"

    def hazard(self, name: str) -> Hazard:
        """A hazard that a block of this procedure names."""
        return self.hazards.get(name) or USUAL[name]

    def hidden_at(self, node: Node) -> frozenset[str]:
        """The facts whose values are not shown while this question waits for its answer: those it names under
        `blind`, its own and those of the questions after it on its card, which were perhaps answered in an earlier
        round, and whatever is computed from them.
        Empty unless the question is blind."""
        blind = node.body.get("blind")
        if not blind:
            return frozenset()
        told = {*blind, node.body["fact"], *self._beside(node)}
        return frozenset(n for n in self.facts if n in told or told & self.inputs_of(n))

    def _beside(self, node: Node) -> list[str]:
        """The facts of the blind questions that follow at once on the same card."""
        found: list[str] = []
        for after in self.nodes[node.index + 1 :] if node.body.get("card") else ():
            if not after.body.get("blind") or after.body.get("card") != node.body["card"]:
                break
            found.append(after.body["fact"])
        return found

    def weight(self, index: int) -> int:
        """The cost of one visit of a node, in comparisons: those of its conditions, and some for the visit itself."""
        if not self._weights:
            self._weights = [self._weighed(node) for node in self.nodes]
        return self._weights[index]

    def _weighed(self, node: Node) -> int:
        found = [edge.guard for edge in node.edges]
        found += [self.limits.get(node.index), self.untils.get(node.index)]
        parts = sum(1 for one in found if one is not None for _ in conditions.facts_of(one))
        return VISIT + len(node.shows) + parts

    def cut_facts(self) -> frozenset[str]:
        """Every fact that some cut depends on."""
        if self._cut_facts is None:
            cuts = (node for node in self.nodes if node.body.get("cuts"))
            self._cut_facts = frozenset(name for node in cuts for name in node.shows)
        return self._cut_facts

    def inputs_of(self, fact_name: str) -> set[str]:
        """Every fact, asked or worked, that this one is computed from, however far back."""
        kept = self._inputs_of.get(fact_name)
        if kept is not None:
            return kept
        found: set[str] = set()
        todo = [fact_name]
        while todo:
            fact = self.facts.get(todo.pop())
            if fact is None:
                continue
            for name in fact.input_facts():
                if name not in found:
                    found.add(name)
                    todo.append(name)
        self._inputs_of[fact_name] = found
        return found
