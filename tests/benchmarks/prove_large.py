"""How the proof grows: generated procedures of 1,000 to 10,000 blocks and 60 facts.

Run by hand: python -m tests.benchmarks.prove_large
Guards over 8 header facts and the last 12 are proved whole, and so are guards over 10 to 30 random pairs of 60
facts; guards over any fact stop at the stated bound and say where.
Times are of one run on one machine: read the growth, not the seconds.
"""

import math
import random
import resource
import sys
import time
from collections.abc import Callable

from guide.checker.proof import Proof
from guide.procedure.conditions import All, Condition, Is, Not
from guide.procedure.facts import Fact, Option
from guide.procedure.graph import Edge, Graph, Node

FACTS = 60
LABELS = ("butt", "continuous", "pivot")


def generated(blocks: int, pick: Callable[[random.Random, int, int], int], seed: int) -> Graph:
    """A procedure that asks 60 facts over and over and branches on them. One choice in five refuses a
    pair of answers, so that facts come to depend on one another. `pick` says which fact a guard reads,
    given how many facts there are and which was asked last."""
    rng = random.Random(seed)
    facts = {}
    for number in range(FACTS):
        options = {label: Option(label, label, label) for label in LABELS}
        facts[f"f{number}"] = Fact(f"f{number}", "choice", ask="Which?", options=options)
    nodes: list[Node] = []

    def add(kind: str, **body: object) -> Node:
        node = Node(len(nodes), f"b{len(nodes)}", kind, {"id": f"b{len(nodes)}", **body})
        nodes.append(node)
        return node

    waiting: list[Edge] = []

    def join(node: Node) -> None:
        for edge in waiting:
            edge.target = node.index
        waiting.clear()

    def way(node: Node, label: str, guard: Condition | None = None) -> Edge:
        edge = Edge(-1, label, guard)
        node.edges.append(edge)
        return edge

    for number in range(FACTS):
        ask = add("ask", fact=f"f{number}")
        ask.shows = (f"f{number}",)
        join(ask)
        waiting.append(way(ask, "next"))
    last = FACTS - 1
    while len(nodes) < blocks - 1:
        choose = add("by_case")
        join(choose)
        first, second = (f"f{pick(rng, FACTS, last)}" for _ in range(2))
        split = rng.randrange(1, len(LABELS))
        guard: Condition = Is(first, LABELS[:split])
        refuses = rng.random() < 0.2 and first != second
        if refuses:
            guard = All((Is(first, (rng.choice(LABELS),)), Is(second, (rng.choice(LABELS),))))
        ends = []
        for label, test in (("one", guard), ("other", Not(guard))):
            edge = way(choose, label, test)
            if refuses and label == "one":
                step = add("end", outcome="not-started")
            else:
                step = add("do", text="Do it.")
                ends.append(way(step, "next"))
            edge.target = step.index
            edge.inside = (step.index, step.index + 1)
        waiting.extend(ends)
        if rng.random() < 0.5:
            last = 8 + (last - 7) % (FACTS - 8)
            ask = add("ask", fact=f"f{last}")
            ask.shows = (f"f{last}",)
            join(ask)
            waiting.append(way(ask, "next"))
    join(add("end", outcome="finished"))
    return Graph("generated", 1, "Generated", "", facts, nodes, [])


def paired(facts: int, blocks: int, pairs: int, seed: int, *, apart: bool = True) -> Graph:
    """A procedure that asks every fact once and then refuses answers of two facts at once, always of one of these
    random pairs. `apart` is whether no fact is in two pairs."""
    rng = random.Random(seed)
    known = {}
    for number in range(facts):
        options = {label: Option(label, label, label) for label in LABELS}
        known[f"f{number}"] = Fact(f"f{number}", "choice", ask="Which?", options=options)
    mixed = rng.sample(range(facts), facts)
    pair = [
        (mixed[2 * n], mixed[2 * n + 1]) if apart else tuple(rng.sample(range(facts), 2))
        for n in range(pairs)
    ]
    nodes: list[Node] = []
    waiting: list[Edge] = []

    def add(kind: str, **body: object) -> Node:
        node = Node(len(nodes), f"b{len(nodes)}", kind, {"id": f"b{len(nodes)}", **body})
        nodes.append(node)
        return node

    def joined(kind: str, **body: object) -> Node:
        node = add(kind, **body)
        for edge in waiting:
            edge.target = node.index
        waiting.clear()
        return node

    for number in range(facts):
        ask = joined("ask", fact=f"f{number}")
        ask.shows = (f"f{number}",)
        ask.edges.append(Edge(-1, "next"))
        waiting.append(ask.edges[0])
    turn = 0
    while len(nodes) < blocks - 1:
        first, second = pair[turn % pairs]
        turn += 1
        choose = joined("by_case")
        guard = All(
            (Is(f"f{first}", (rng.choice(LABELS),)), Is(f"f{second}", (rng.choice(LABELS),)))
        )
        for kind, test in (("end", guard), ("do", Not(guard))):
            step = add(
                kind, **({"outcome": "not-started"} if kind == "end" else {"text": "Do it."})
            )
            inside = (step.index, step.index + 1)
            choose.edges.append(Edge(step.index, kind, test, inside))
        nodes[-1].edges.append(Edge(-1, "next"))
        waiting.append(nodes[-1].edges[0])
    joined("end", outcome="finished")
    return Graph("paired", 1, "Paired", "", known, nodes, [])


def near(rng: random.Random, facts: int, last: int) -> int:
    """One of 8 header facts, or of the last 12 asked."""
    if rng.random() < 0.4:
        return rng.randrange(8)
    return 8 + (last - 8 - rng.randrange(12)) % (facts - 8)


def anywhere(rng: random.Random, facts: int, last: int) -> int:
    """Any fact."""
    return rng.randrange(facts)


def tangled(rng: random.Random, facts: int, last: int) -> int:
    """Facts far from each other in the order they are asked: the worst case for the sets."""
    tangled.turn = (getattr(tangled, "turn", 0) + 1) % facts  # type: ignore[attr-defined]
    return tangled.turn // 2 + (tangled.turn % 2) * facts // 2  # type: ignore[attr-defined, no-any-return]


def main() -> int:
    """Print a table; 1 where a target is missed."""
    seconds: dict[int, float] = {}
    worst = 0
    for blocks in (1_000, 2_000, 5_000, 10_000):
        graph = generated(blocks, near, seed=blocks)
        start = time.perf_counter()
        proof = Proof(graph)
        seconds[blocks] = time.perf_counter() - start
        size = len(proof.flow.sets.levels)
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        print(
            f"near      {blocks:>6} blocks  {seconds[blocks]:6.2f} s  {size:>8} nodes  "
            f"{memory:>4} MB so far  proved {proof.proved}  findings {len(proof.findings)}"
        )
        worst = max(worst, int(not proof.proved))
    growth = math.log(seconds[10_000] / seconds[1_000]) / math.log(10)
    print(f"growth from 1,000 to 10,000 blocks: n^{growth:.2f} (target 1.3)")
    worst = max(worst, int(growth > 1.3 or seconds[10_000] > 10))
    for name, pick in (("anywhere", anywhere), ("tangled", tangled)):
        for blocks in (1_000, 5_000, 10_000):
            graph = generated(blocks, pick, seed=blocks)
            start = time.perf_counter()
            proof = Proof(graph)
            spent = time.perf_counter() - start
            memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
            last = proof.findings[-1].message[:70] if proof.findings else ""
            print(
                f"{name:<9} {blocks:>6} blocks  {spent:6.2f} s  {len(proof.flow.sets.levels):>8} nodes  "
                f"{memory:>4} MB so far  proved {proof.proved}  {last}"
            )
    for apart in (True, False):
        for pairs in (10, 14, 20, 30):
            graph = paired(FACTS, 440, pairs, seed=pairs, apart=apart)
            start = time.perf_counter()
            proof = Proof(graph)
            spent = time.perf_counter() - start
            print(
                f"{pairs:>2} random pairs {'apart' if apart else 'any  '}  440 blocks  {spent:6.2f} s  "
                f"{len(proof.flow.sets.levels):>8} nodes  proved {proof.proved}"
            )
            worst = max(worst, int(not proof.proved))
    return worst


if __name__ == "__main__":
    sys.exit(main())
