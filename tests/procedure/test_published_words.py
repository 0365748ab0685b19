"""What published texts ask of a step or a question, in the words of the shipped procedures; each with its source."""

from functools import cache

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.graph import Graph


@cache
def shipped(name: str) -> Graph:
    return graph_of(find("procedure", name))


def block(procedure: str, id_: str) -> str:
    """Every word of a block."""
    graph = shipped(procedure)
    index = graph.index_of(id_)
    assert index is not None
    return " ".join(str(value) for value in graph.nodes[index].body.values())


def question(procedure: str, fact: str) -> str:
    """A question and how its answer is found out."""
    found = shipped(procedure).facts[fact]
    return f"{found.question('inch')} {found.how_to_find_out('inch')}"


FIT, ADJUST, INSPECT = "fit-surface-closer", "adjust-a-closer", "inspect-a-closing-door"


@pytest.mark.parametrize(
    ("procedure", "fact", "words"),
    [
        # 2010 ADA Standards, advisory 404.2.9; ADAAG Manual 4.13.11: the steady push, neither start nor latch
        (FIT, "open_force", "Hold the latch back. Push slowly and evenly"),
        # IBC 1010.1.3 (2009 to 2021); NFPA 101 7.2.1.4.5 (2000 on): set in motion, and full open
        (FIT, "exit_forces", "at most 30 lbf to start and at most 15 lbf to open fully"),
        # NFPA 80 6.3.1.7: gaps are read on the pull side
        (FIT, "gap_sides", "from the pull side with the leaf latched"),
        # BHMA A156.4-2000 clause 1.3: a closer on a labelled fire door is listed or labelled itself
        (FIT, "closer_listed", "closer itself listed or marked for fire doors"),
        ("replace-a-closer", "closer_listed", "closer itself listed or marked for fire doors"),
    ],
)
def test_a_question_asks_what_the_text_means(procedure: str, fact: str, words: str) -> None:
    assert words in question(procedure, fact)


@pytest.mark.parametrize(
    ("procedure", "id_", "words"),
    [
        # NFPA 80 5.2.1, 5.2.2.5 and 5.2.2 (2013): after installation, after maintenance, kept three years
        (FIT, "owner/inspection-follows", "after installation and after maintenance"),
        (ADJUST, "owner/inspection-follows", "the record kept three years"),
        (INSPECT, "the-record", "kept three years"),
        # Fire Safety (England) Regulations 2022, regulation 10
        (INSPECT, "the-next-check", "flat entrance doors every 12 months"),
        (INSPECT, "the-next-check", "common parts every 3"),
        # Home Office guidance to the same, 2022
        (INSPECT, "closing-uk", "from fully open and from about 15 degrees"),
        # 29 CFR 1926.1053(b)(5)(i): the foot of a leaning ladder a quarter of its working length out
        (FIT, "make-safe/look-at-ladder", "one out for four up"),
        # NFPA 80 5.5.7 (2013), and later text
        (
            "replace-a-closer",
            "fill-on-a-fire-door",
            "a steel fastener, the door's own material, or a filler listed for it",
        ),
    ],
)
def test_a_step_says_what_the_text_asks(procedure: str, id_: str, words: str) -> None:
    assert words in block(procedure, id_)


def test_an_inspection_is_yearly() -> None:
    """NFPA 80 5.2.4.1, from its edition of 2007."""
    assert "once a year" in shipped(INSPECT).about


def test_the_yearly_check_has_the_points_of_nfpa_80() -> None:
    """NFPA 80 5.2.3.5, later text, thirteen: labels, holes and breaks, glazing, hardware and threshold, missing parts,
    gaps, closing, coordinator, latching, what hinders it, changes, seals, signs."""
    asked = {node.body.get("fact") for node in shipped(INSPECT).nodes}
    points = {
        *("label_seen", "surfaces_whole", "glazing", "hardware_sound", "gap_sides", "gap_bottom"),
        *("closes_fully", "closing_order", "latches_itself", "in_its_way", "changed_on_site"),
        "seals_whole",
    }
    assert points <= asked
    assert "no part missing" in question(INSPECT, "hardware_sound")
    assert "a sign screwed on" in question(INSPECT, "changed_on_site")
