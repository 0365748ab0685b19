"""Past its bound the proof still finds what no relation between facts can excuse; and a better order gets further."""

from itertools import pairwise
from pathlib import Path

import pytest

from guide.checker.every_way import EveryWay
from guide.checker.proof import Proof
from guide.checker.variable_order import first_asked, grouped, joined_facts, orders
from guide.files.findings import ERROR, WARNING
from guide.procedure.compiler import compile_procedure
from guide.procedure.conditions import All, Is, Not
from guide.procedure.graph import Graph
from guide.procedure.load import load
from guide.run.replay import replay
from tests.benchmarks.prove_large import generated, near, paired

FACTS = """\
  mount: {choice: {regular: Regular arm, parallel: Parallel arm}, ask: Which mount?}
  leaf: {choice: {wood: Wood, steel: Steel, glass: Glass}, ask: What is the leaf made of?}
  fire: {yesno: {}, ask: Is it a fire door?}
"""


def graph_of(folder: Path, steps: str) -> Graph:
    path = folder / "clinic.yaml"
    path.write_text(
        f"procedure: clinic\ntitle: The clinic's door\nfacts:\n{FACTS}steps:\n{steps}"
        "  - end: {id: done, outcome: finished}\n",
        "utf-8",
    )
    graph, findings = compile_procedure(load(path))
    assert graph is not None, findings
    return graph


def past_bound(graph: Graph, bound: int = 0) -> list[tuple[str, str]]:
    """What is found past the bound beside that it was met; one node less than is needed is the bound, if none is
    given."""
    bound = bound or len(Proof(graph, replay).flow.sets.levels) - 1
    proof = Proof(graph, replay, bound=bound)
    assert proof.sliced
    assert not proof.proved
    assert "grew past its bound" in proof.findings[0].message
    assert proof.findings[0].level == WARNING
    return [(one.code, one.level) for one in proof.findings[1:]]


ASKS = "".join(
    f"  - ask: {{id: which-{name}, fact: {name}}}\n" for name in ("mount", "leaf", "fire")
)
CUT = "  - do: {id: drill, text: Drill the leaf., cuts: true, reads: [mount, leaf]}\n"
HOLD = "  - hold: {id: before, reads_back: [mount, leaf], text: Stop.}\n"
TANGLE = "".join(
    f"  - do: {{id: step-{n}, when: {{any: [{{mount: regular, leaf: {leaf}}}, {{fire: yes, leaf: wood}}]}}, "
    "text: Do it.}\n"
    for n, leaf in enumerate(("wood", "steel", "glass"))
)


def test_what_is_sound_past_the_bound_is_only_not_proved(tmp_path: Path) -> None:
    assert past_bound(graph_of(tmp_path, ASKS + TANGLE + HOLD + CUT)) == []


def test_a_cut_without_its_hold_is_found_past_the_bound(tmp_path: Path) -> None:
    found = past_bound(graph_of(tmp_path, ASKS + TANGLE + CUT))
    assert found == [("cut-without-hold", ERROR)] * 2


def test_a_fact_that_is_never_asked_is_found_past_the_bound(tmp_path: Path) -> None:
    steps = ASKS.replace("  - ask: {id: which-fire, fact: fire}\n", "")
    steps += '  - do: {id: say-it, text: "Write down {fire}."}\n'
    found = past_bound(graph_of(tmp_path, steps + HOLD + CUT))
    assert found == [("fact-not-known", ERROR)]


def test_a_gap_that_one_fact_shows_is_found_past_the_bound(tmp_path: Path) -> None:
    gap = (
        "  - by_case:\n      id: by-leaf\n      cases:\n"
        "        - {id: wood, when: {leaf: wood}, steps: []}\n"
        "        - {id: steel, when: {leaf: steel}, steps: []}\n"
    )
    found = past_bound(graph_of(tmp_path, ASKS + TANGLE + gap + HOLD + CUT))
    assert found == [("case-missing", ERROR)]


def test_a_condition_that_never_holds_and_what_lies_behind_it_are_found_past_the_bound(
    tmp_path: Path,
) -> None:
    never = (
        "  - do: {id: glass-first, when: {all: [{leaf: glass}, {leaf: wood}]}, text: Do it.}\n"
        "  - by_case:\n      id: by-fire\n      when: {leaf: [wood, steel, glass]}\n      cases:\n"
        "        - {id: labelled, when: {fire: yes}, steps: []}\n"
        "        - id: plain\n          when: {fire: no}\n          steps:\n"
        "            - do: {id: mark-it, when: {fire: yes}, text: Mark it.}\n"
    )
    found = past_bound(graph_of(tmp_path, ASKS + TANGLE + never + HOLD + CUT))
    assert [code for code, _ in found] == ["condition-constant"] * 3


def test_a_case_that_no_answer_leads_to_is_found_past_the_bound(tmp_path: Path) -> None:
    cases = (
        "  - by_case:\n      id: by-leaf\n      cases:\n"
        "        - {id: some, when: {leaf: [wood, steel, glass]}, steps: []}\n"
        "        - id: more\n          when: {all: [{leaf: wood}, {leaf: steel}]}\n          steps:\n"
        "            - do: {id: more-of-it, text: Do more of it.}\n"
    )
    found = past_bound(graph_of(tmp_path, ASKS + TANGLE + cases + HOLD + CUT))
    assert [code for code, _ in found] == ["case-never"]


def test_a_ring_of_blocks_with_no_way_to_an_end_is_found_past_the_bound(tmp_path: Path) -> None:
    ring = (
        "  - by_case:\n      id: by-fire\n      cases:\n"
        "        - {id: plain, when: {fire: no}, steps: []}\n"
        "        - id: labelled\n          when: {fire: yes}\n          steps:\n"
        "            - repeat:\n                id: again\n                at_most: 2\n"
        "                until: {all: [{fire: yes}, {fire: no}]}\n"
        "                steps:\n                  - do: {id: ring-up, text: Call the foreman.}\n"
        "                otherwise: {go: again}\n"
    )
    found = past_bound(graph_of(tmp_path, ASKS + TANGLE + ring + HOLD + CUT))
    assert found == [("condition-constant", ERROR), ("stranded", ERROR)]


def test_a_hold_and_its_cut_under_one_condition_are_no_fault(tmp_path: Path) -> None:
    """On every way the hold is not passed, and the cut is not come to on the others."""
    under = HOLD.replace("before,", "before, when: {fire: yes},")
    under += CUT.replace("drill,", "drill, when: {fire: yes},")
    assert past_bound(graph_of(tmp_path, ASKS + TANGLE + under)) == []


def test_without_room_for_the_conditions_the_ways_alone_are_looked_at(tmp_path: Path) -> None:
    steps = ASKS.replace("  - ask: {id: which-fire, fact: fire}\n", "")
    steps += '  - do: {id: say-it, text: "Write down {fire}."}\n'
    found = past_bound(graph_of(tmp_path, steps + CUT), 3)
    assert sorted(set(found)) == [("cut-without-hold", ERROR), ("fact-not-known", ERROR)]


def test_what_is_known_on_every_way_and_on_some(tmp_path: Path) -> None:
    graph = graph_of(
        tmp_path,
        "  - ask: {id: which-fire, fact: fire}\n"
        "  - ask: {id: which-leaf, fact: leaf, when: {fire: yes}}\n",
    )
    ways = EveryWay(graph)
    end = graph.index_of("done") or 0
    always, sometimes = ways.always[end], ways.sometimes[end]
    assert always is not None
    assert sometimes is not None
    assert [ways.knows(always, name) for name in ("fire", "leaf", "mount")] == [True, False, False]
    assert [ways.knows(sometimes, name) for name in ("fire", "leaf", "mount")] == [
        True,
        True,
        False,
    ]


# --- orders ---


@pytest.mark.parametrize("apart", [True, False])
def test_random_pairs_of_sixty_facts_are_proved(apart: bool) -> None:
    assert Proof(paired(60, 240, 20, seed=20, apart=apart), bound=20_000).proved


def test_joined_facts_stand_side_by_side() -> None:
    names = [f"f{n}" for n in range(8)]
    joined = [frozenset(("f0", "f7")), frozenset(("f1", "f6")), frozenset(("f2", "f5"))]
    order = grouped(names, joined)
    assert sorted(order) == sorted(names)
    for pair in joined:
        first, second = (order.index(name) for name in pair)
        assert abs(first - second) == 1


def test_a_chain_of_joined_facts_is_laid_along_it() -> None:
    chain = ["f4", "f0", "f3", "f1", "f2"]
    joined = [frozenset(two) for two in pairwise(chain)]
    order = grouped(sorted(chain), joined)
    span = sum(abs(order.index(a) - order.index(b)) for a, b in pairwise(chain))
    assert span <= 6  # 4 is the least; in the order of asking it is 11


def test_the_order_of_asking_is_tried_first_and_alone_where_nothing_is_joined() -> None:
    graph = generated(200, lambda rng, facts, last: last, seed=1)
    assert joined_facts(graph) == []
    assert list(orders(graph)) == [first_asked(graph)]


def test_facts_are_joined_by_a_part_of_a_condition_and_not_by_alternatives() -> None:
    graph = generated(200, near, seed=1)
    by_case = next(node for node in graph.nodes if node.kind == "by_case")
    both = All((Is("f1", ("butt",)), Is("f9", ("pivot",))))
    by_case.edges[0].guard, by_case.edges[1].guard = both, Not(both)
    assert frozenset(("f1", "f9")) in joined_facts(graph)
