"""From blocks to the graph: the nodes and ways of each kind of block, its branches and its loops."""

import json
from pathlib import Path

import pytest

from guide.procedure.conditions import Between, Compare, Is, Not
from guide.procedure.graph import Graph, Loop, Node
from tests.procedure.sample_procedure import (
    CLOSET_DOOR,
    compiled,
    findings,
    graph_of_text,
    node,
    ways,
)

FACTS = CLOSET_DOOR[CLOSET_DOOR.index("facts:") : CLOSET_DOOR.index("steps:")]
HEAD = f"procedure: closet-door\ntitle: A closer on a closet door\n{FACTS}steps:\n"
END = "  - end: {id: done, outcome: finished}\n"


def graph_of(folder: Path, steps: str) -> Graph:
    """The graph of these steps and an end."""
    return graph_of_text(folder, HEAD + steps + END)


def ids(graph: Graph) -> list[str]:
    return [one.id for one in graph.nodes]


def within(graph: Graph, node_id: str, label: str) -> list[str]:
    """The nodes that only this way leads into."""
    (edge,) = [edge for edge in node(graph, node_id).edges if edge.label == label]
    low, high = edge.inside
    return ids(graph)[low:high]


def loops_of(graph: Graph, node_id: str) -> list[tuple[str, str, int]]:
    """The loops a node is part of: first node, last node, tries."""
    found: list[Loop] = [graph.loops[number] for number in node(graph, node_id).loops]
    return [(graph.nodes[loop.low].id, graph.nodes[loop.high].id, loop.at_most) for loop in found]


@pytest.mark.parametrize(
    ("block", "kind"),
    [
        ("do: {id: one, text: Clean the top rail.}", "do"),
        ("ask: {id: one, fact: width}", "ask"),
        ("work: {id: one, fact: size}", "work"),
        ("time: {id: one, fact: sweep}", "time"),
        ("hold: {id: one, reads_back: [width]}", "hold"),
    ],
)
def test_a_step_has_one_way_on(tmp_path: Path, block: str, kind: str) -> None:
    graph = graph_of(tmp_path, f"  - {block}\n")
    assert node(graph, "one").kind == kind
    assert node(graph, "one").seen
    assert ways(graph, "one") == {"next": "done"}
    assert ways(graph, "done") == {}
    assert graph.loops == []


@pytest.mark.parametrize(
    "block",
    [
        "do: {id: one, text: Clean the top rail., when: {fire: yes}}",
        "ask: {id: one, fact: width, when: {fire: yes}}",
        "work: {id: one, fact: size, when: {fire: yes}}",
        "time: {id: one, fact: sweep, when: {fire: yes}}",
        "hold: {id: one, reads_back: [width], when: {fire: yes}}",
        "check: {id: one, fact: sweep, limit: '> 5 s', otherwise: {go: first}, when: {fire: yes}}",
        "end: {id: one, outcome: not-started, when: {fire: yes}}",
        (
            "by_case: {id: one, when: {fire: yes}, cases: ["
            "{id: left, when: {hand: lh}, steps: [{do: {id: l, text: Mark.}}]},"
            "{id: other, when: {not: {hand: lh}}, steps: []}]}"
        ),
        (
            "repeat: {id: one, when: {fire: yes}, steps: [{do: {id: turn, text: Turn.}}],"
            " until: {sweep: '> 5 s'}, at_most: 3, otherwise: {go: first}}"
        ),
        "include: {id: one, file: part.yaml, when: {fire: yes}}",
    ],
)
def test_a_block_of_any_kind_is_passed_over_where_its_when_does_not_hold(
    tmp_path: Path, block: str
) -> None:
    part = "procedure: part\ntitle: A part\ncounts_on: []\nsteps: [{do: {id: clean, text: Clean it.}}]\n"
    first = "  - do: {id: first, text: Open the leaf.}\n"
    graph = graph_of_text(tmp_path, f"{HEAD}{first}  - {block}\n{END}", part=part)
    gate = node(graph, "one?")
    assert (gate.kind, gate.seen) == ("when", False)
    yes, no = gate.edges
    assert (yes.label, yes.guard) == ("yes", Is("fire", ("yes",)))
    assert (no.label, no.guard) == ("no", Not(Is("fire", ("yes",))))
    assert graph.nodes[no.target].id == "done"
    assert yes.target == gate.index + 1
    assert yes.inside == (gate.index + 1, len(graph.nodes) - 1)
    assert no.inside == (0, 0)


def test_a_check_goes_on_where_the_limit_is_met(tmp_path: Path) -> None:
    graph = graph_of(
        tmp_path,
        "  - check: {id: slow-enough, fact: sweep, limit: '>= 5 s',\n"
        "      otherwise: {steps: [{do: {id: turn, text: Turn the valve.}}]}}\n",
    )
    assert ways(graph, "slow-enough") == {"met": "done", "not met": "turn"}
    assert ways(graph, "turn") == {"next": "done"}
    assert within(graph, "slow-enough", "not met") == ["turn"]
    limit = graph.limits[node(graph, "slow-enough").index]
    assert isinstance(limit, Compare)
    assert [edge.guard for edge in node(graph, "slow-enough").edges] == [limit, Not(limit)]


def test_a_go_back_is_a_loop_without_tries(tmp_path: Path) -> None:
    graph = graph_of(
        tmp_path,
        "  - do: {id: turn, text: Turn the valve.}\n  - time: {id: time-it, fact: sweep}\n"
        "  - check: {id: slow-enough, fact: sweep, limit: '>= 5 s', otherwise: {go: turn}}\n",
    )
    assert ways(graph, "slow-enough") == {"not met": "slow-enough>", "met": "done"}
    assert ways(graph, "slow-enough>") == {"go": "turn"}
    loop = ("turn", "slow-enough>", 0)
    for name in ("turn", "time-it", "slow-enough", "slow-enough>"):
        assert loops_of(graph, name) == [loop]
    assert loops_of(graph, "done") == []
    assert node(graph, "slow-enough>").edges[0].loop == 0


def test_a_go_ahead_is_no_loop_and_runs_its_steps_first(tmp_path: Path) -> None:
    graph = graph_of(
        tmp_path,
        "  - check: {id: light, fact: width, limit: <= 3 ft,\n"
        "      otherwise: {steps: [{do: {id: fetch, text: Fetch a helper.}}], go: hang}}\n"
        "  - do: {id: lift, text: Lift it alone.}\n  - do: {id: hang, text: Hang it.}\n",
    )
    assert ways(graph, "fetch") == {"next": "light>"}
    assert ways(graph, "light>") == {"go": "hang"}
    assert within(graph, "light", "not met") == ["fetch", "light>"]
    assert graph.loops == []


@pytest.mark.parametrize(
    ("target", "first"),
    [
        ("do: {id: there, text: Turn the valve.}", "there"),
        ("do: {id: there, text: Turn the valve., when: {fire: no}}", "there?"),
        (
            (
                "repeat: {id: there, steps: [{do: {id: turn, text: Turn.}}], until: {sweep: '> 5 s'},"
                " at_most: 2, otherwise: {steps: [{end: {id: spent, outcome: not-started}}]}}"
            ),
            "turn",
        ),
        ("include: {id: there, file: part.yaml}", "there/clean"),
        (
            (
                "by_case: {id: there, cases: [{id: left, when: {hand: lh}, steps: []},"
                "{id: other, when: {not: {hand: lh}}, steps: []}]}"
            ),
            "there",
        ),
    ],
)
def test_a_go_leads_to_where_its_block_begins(tmp_path: Path, target: str, first: str) -> None:
    part = "procedure: part\ntitle: A part\ncounts_on: []\nsteps: [{do: {id: clean, text: Clean it.}}]\n"
    check = "  - check: {id: seen, fact: fire, limit: no, otherwise: {go: there}}\n"
    graph = graph_of_text(tmp_path, f"{HEAD}  - {target}\n{check}{END}", part=part)
    assert ways(graph, "seen>") == {"go": first}


def test_branches_are_ranges_of_nodes_and_meet_again(tmp_path: Path) -> None:
    graph = graph_of_text(tmp_path, CLOSET_DOOR)
    assert ways(graph, "by-hand") == {"left": "mark-left", "other": "mark-right"}
    assert within(graph, "by-hand", "left") == ["mark-left"]
    assert within(graph, "by-hand", "other") == ["mark-right"]
    assert ways(graph, "mark-left") == ways(graph, "mark-right") == {"next": "before-drilling"}
    left, other = node(graph, "by-hand").edges
    assert (left.guard, other.guard) == (Is("hand", ("lh",)), Is("hand", ("rh", "unsure")))


def test_a_branch_without_steps_leads_straight_on(tmp_path: Path) -> None:
    graph = graph_of(
        tmp_path,
        "  - by_case: {id: labelled, cases: [{id: there, when: {fire: yes}, steps: []},"
        " {id: none, when: {fire: no}, steps: [{do: {id: note, text: Note it.}}]}]}\n",
    )
    assert ways(graph, "labelled") == {"there": "done", "none": "note"}
    assert within(graph, "labelled", "there") == []


def test_a_repeat_goes_round_until_its_condition_or_its_tries(tmp_path: Path) -> None:
    graph = graph_of_text(tmp_path, CLOSET_DOOR)
    tune = node(graph, "tune")
    assert (tune.kind, tune.seen) == ("repeat", False)
    assert ways(graph, "tune") == {"until": "slow-enough", "again": "turn-valve", "spent": "slow"}
    assert isinstance(graph.untils[tune.index], Between)
    assert within(graph, "tune", "spent") == ["slow"]
    assert loops_of(graph, "turn-valve")[0] == ("turn-valve", "tune", 4)
    # The check behind it goes back to where the repeat begins, so that loop holds this one.
    assert loops_of(graph, "time-it")[1] == ("turn-valve", "slow-enough>", 0)
    assert loops_of(graph, "slow-enough") == [("turn-valve", "slow-enough>", 0)]


def test_loops_stand_in_one_another(tmp_path: Path) -> None:
    graph = graph_of(
        tmp_path,
        "  - repeat:\n      id: by-season\n      steps:\n"
        "        - do: {id: wait, text: Wait for the cold.}\n"
        "        - repeat:\n            id: by-turn\n"
        "            steps: [{do: {id: turn, text: Turn.}}, {time: {id: time-it, fact: sweep}}]\n"
        "            until: {sweep: '> 5 s'}\n            at_most: 3\n"
        "            otherwise: {steps: [{do: {id: note, text: Note it.}}]}\n"
        "      until: {sweep: '> 6 s'}\n      at_most: 2\n      otherwise: {go: by-season}\n",
    )
    inner, outer = ("turn", "by-turn", 3), ("wait", "by-season", 2)
    round_again = ("wait", "by-season>", 0)
    assert sorted(loops_of(graph, "turn")) == sorted([inner, outer, round_again])
    assert sorted(loops_of(graph, "note")) == sorted([outer, round_again])
    assert loops_of(graph, "done") == []
    assert ways(graph, "by-season>") == {"go": "wait"}


def test_an_end_has_no_way_on(tmp_path: Path) -> None:
    graph = graph_of_text(tmp_path, HEAD + "  - ask: {id: label, fact: fire}\n" + END)
    assert node(graph, "done").edges == []
    assert node(graph, "done").body["outcome"] == "finished"


def test_included_blocks_carry_the_ids_of_their_includes(tmp_path: Path) -> None:
    outer = (
        "procedure: outer\ntitle: Outer\ncounts_on: []\nsteps:\n"
        "  - include: {id: deeper, file: inner.yaml}\n"
        "  - check: {id: again, fact: fire, limit: no, otherwise: {go: deeper}}\n"
    )
    inner = (
        "procedure: inner\ntitle: Inner\ncounts_on: []\nsteps: [{do: {id: clean, text: Clean.}}]\n"
    )
    steps = (
        "  - include: {id: first, file: outer.yaml}\n  - include: {id: then, file: outer.yaml}\n"
    )
    graph = graph_of_text(tmp_path, HEAD + steps + END, outer=outer, inner=inner)
    assert ids(graph) == [
        "first/deeper/clean",
        "first/again",
        "first/again>",
        "then/deeper/clean",
        "then/again",
        "then/again>",
        "done",
    ]
    assert ways(graph, "then/again>") == {"go": "then/deeper/clean"}
    clean = node(graph, "then/deeper/clean")
    assert (Path(clean.file).name, clean.line) == ("inner.yaml", 4)


def test_a_go_does_not_leave_its_file(tmp_path: Path) -> None:
    inner = (
        "procedure: inner\ntitle: Inner\ncounts_on: []\nsteps:\n"
        "  - do: {id: clean, text: Clean.}\n"
        "  - check: {id: again, fact: fire, limit: no, otherwise: {go: mark}}\n"
    )
    steps = "  - do: {id: mark, text: Mark.}\n  - include: {id: part, file: inner.yaml}\n"
    (out,) = findings(tmp_path, HEAD + steps + END, inner=inner)
    assert (Path(out.file).name, out.code, out.line) == ("inner.yaml", "block-unknown", 6)
    into = "  - check: {id: b, fact: fire, limit: no, otherwise: {go: part/clean}}\n"
    found = findings(tmp_path, HEAD + steps + into + END, inner=inner.replace("mark}", "clean}"))
    assert [one.code for one in found] == ["block-unknown"]


def test_a_part_run_by_itself_asks_first_for_what_it_is_given(tmp_path: Path) -> None:
    text = HEAD.replace("facts:", "counts_on: [size, hand]\nfacts:", 1)
    graph = graph_of_text(tmp_path, text + "  - work: {id: spring, fact: size}\n")
    assert ids(graph) == [
        "counts-on/hand",
        "counts-on/width",
        "counts-on/fire",
        "spring",
        "end-of-part",
    ]
    assert graph.nodes[0].kind == "ask"
    assert ways(graph, "counts-on/fire") == {"next": "spring"}
    assert ways(graph, "spring") == {"next": "end-of-part"}
    assert node(graph, "end-of-part").body["outcome"] == "finished"


def test_a_part_that_is_given_nothing_says_so(tmp_path: Path) -> None:
    step = "  - ask: {id: label, fact: fire}\n"
    assert [one.code for one in findings(tmp_path, HEAD + step)] == ["no-end"]
    text = HEAD.replace("facts:", "counts_on: []\nfacts:", 1)
    assert ids(graph_of_text(tmp_path, text + step)) == ["label", "end-of-part"]


@pytest.mark.parametrize(
    ("steps", "code"),
    [
        ("  - do: {id: mark, text: Mark.}\n  - do: {id: mark, text: Mark again.}\n", "id-twice"),
        (
            (
                "  - do: {id: mark, text: Mark.}\n  - check: {id: c, fact: fire, limit: no,"
                " otherwise: {steps: [{do: {id: mark, text: Mark.}}]}}\n"
            ),
            "id-twice",
        ),
        # A branch has its id within its by_case: a block may be called the same.
        (
            (
                "  - do: {id: left, text: Mark.}\n  - by_case: {id: by-hand, cases: ["
                "{id: left, when: {hand: lh}, steps: []},"
                " {id: other, when: {not: {hand: lh}}, steps: []}]}\n"
            ),
            "",
        ),
    ],
)
def test_an_id_stands_for_one_block(tmp_path: Path, steps: str, code: str) -> None:
    assert [one.code for one in findings(tmp_path, HEAD + steps + END)] == ([code] if code else [])


def test_a_block_knows_the_facts_it_shows_reads_and_compares(tmp_path: Path) -> None:
    frame = "  frame: {length: {from: 20 in, to: 60 in}, ask: How wide is the opening?}\nsteps:"
    graph = graph_of_text(
        tmp_path,
        HEAD.replace("steps:", frame)
        + "  - do: {id: drill, text: 'Drill for {width}.', why: '{width} and {size}.', reads: [hand],"
        " caution: {warning: 'Mind the {label}.'}}\n"
        "  - check: {id: wide, fact: width, limit: '<= frame', otherwise: {go: drill}}\n"
        "  - hold: {id: stop, reads_back: [fire], text: 'With {{braces}}.'}\n" + END,
    )
    assert node(graph, "drill").shows == ("width", "size", "label", "hand")
    assert node(graph, "wide").shows == ("width", "frame")
    assert node(graph, "stop").shows == ("fire",)


def test_a_node_knows_its_place_in_the_file(tmp_path: Path) -> None:
    drill = node(graph_of_text(tmp_path, CLOSET_DOOR), "drill")
    lines = CLOSET_DOOR.splitlines()
    assert lines[drill.line - 1][drill.column - 1 :] == "id: drill"


def exactly(graph: Graph) -> object:
    return json.loads(json.dumps(graph.to_json()))


def test_a_graph_comes_back_from_json_exactly(tmp_path: Path) -> None:
    graph = graph_of_text(tmp_path, CLOSET_DOOR)
    again = Graph.from_json(json.loads(json.dumps(graph.to_json())))
    assert exactly(again) == exactly(graph)
    assert again == graph
    assert [isinstance(one, Node) for one in again.nodes] == [True] * len(graph.nodes)


def test_a_graph_of_another_edition_of_the_program_is_refused(tmp_path: Path) -> None:
    data = graph_of_text(tmp_path, CLOSET_DOOR).to_json()
    with pytest.raises(ValueError, match="another edition"):
        Graph.from_json({**data, "format": 0})


def test_the_digest_changes_with_any_of_the_files(tmp_path: Path) -> None:
    facts = "facts:\n  gap: {length: {from: 0 in, to: 1 in}, ask: How wide is the gap?}\n"
    part = "procedure: part\ntitle: A part\ncounts_on: []\nsteps: [{do: {id: clean, text: Clean it.}}]\n"
    text = (HEAD + "  - include: {id: part, file: part.yaml}\n" + END).replace(
        "facts:", "facts_in: [gaps.yaml]\nfacts:", 1
    )
    first = graph_of_text(tmp_path, text, part=part, gaps=facts).digest
    digests = {
        first,
        graph_of_text(tmp_path, text + "# mended\n", part=part, gaps=facts).digest,
        graph_of_text(tmp_path, text, part=part.replace("it.", "the leaf."), gaps=facts).digest,
        graph_of_text(tmp_path, text, part=part, gaps=facts.replace("1 in", "2 in")).digest,
    }
    assert len(digests) == 4
    assert graph_of_text(tmp_path, text, part=part, gaps=facts).digest == first


def test_ten_thousand_steps_are_compiled(tmp_path: Path) -> None:
    steps = "".join(f"  - do: {{id: mark-{n}, text: Mark hole {n}.}}\n" for n in range(10_000))
    graph, found = compiled(tmp_path, HEAD + steps + END)
    assert found == []
    assert graph is not None
    assert len(graph.nodes) == 10_001
