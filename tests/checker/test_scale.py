"""The proof on long procedures: whole within its bound, and a warning past it."""

from functools import cache

import pytest

from guide.checker.proof import Proof
from guide.files.findings import WARNING
from guide.procedure.graph import Graph
from tests.benchmarks.prove_large import generated, near


def test_two_thousand_blocks_are_proved() -> None:
    graph = generated(2_000, near, seed=2_000)
    assert len(graph.nodes) >= 2_000
    proof = Proof(graph)
    assert proof.proved
    assert "not-proved" not in {finding.code for finding in proof.findings}


@cache
def thousand_blocks() -> Graph:
    return generated(1_000, near, seed=3)


@cache
def proved_within(bound: int) -> Proof:
    return Proof(thousand_blocks(), bound=bound)


@pytest.mark.parametrize("bound", [10, 500, 2_000])
def test_past_its_bound_the_proof_names_a_block_and_claims_nothing(bound: int) -> None:
    graph, proof = thousand_blocks(), proved_within(bound)
    assert not proof.proved
    (finding,) = [found for found in proof.findings if "bound" in found.message]
    assert (finding.code, finding.level) == ("not-proved", WARNING)
    stop = proof.reach.stopped_at if hasattr(proof, "reach") else 0
    assert stop is not None
    assert f"“{graph.nodes[stop].id}”" in finding.message


def test_a_wider_bound_gets_further() -> None:
    stops = [proved_within(bound).reach.stopped_at for bound in (1_000, 1_500, 2_000)]
    places = [stop for stop in stops if stop is not None]
    assert len(places) == len(stops)
    assert places == sorted(set(places))


def test_what_stays_below_the_bound_is_proved() -> None:
    graph = generated(400, near, seed=3)
    needed = len(Proof(graph).flow.sets.levels)
    assert Proof(graph, bound=needed).proved
    assert not Proof(graph, bound=needed - 1).proved
