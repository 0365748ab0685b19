"""What can be wrong where a computation reads rounds, and where two times belong to one swing."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.checker.graph_cache import graph_of
from guide.procedure.facts import Fact

TUNING = """\
procedure: chapel-door
title: Tune the chapel door
edition: 1
facts:
  let_go: {choice: {latches: It latches, high: It stops high}, ask: What does it do?}
  sweep: {time: {from: 1 s, to: 20 s}, ask: Seconds to the mark?}
  last: {time: {from: 1 s, to: 6 s}, ask: Seconds to shut?}
  push: {force: {from: 2 lbf, to: 20 lbf}, ask: Force to open?}
  width: {length: {from: 30 in, to: 40 in}, ask: How wide is the leaf?}
  next:
    worked: tune-next
    part: next
    using: {width: width, mount: "= regular", fire: "= no", exterior: "= no"}
    rounds: {reading: [let_go, sweep, last, push]}
steps:
  - ask: {id: how-wide, fact: width}
  - repeat:
      id: tests
      at_most: 8
      until: {next: [done, left-to-do, impossible, none]}
      steps:
        - ask: {id: what, fact: let_go}
        - time: {id: mark, when: {let_go: latches}, fact: sweep, same_swing: shut}
        - time: {id: shut, when: {let_go: latches}, fact: last}
        - ask: {id: force, when: {not: {known: push}}, fact: push}
        - do:
            id: turn
            when: {next: [turn-valves, turn-spring, measure-force, time-again]}
            text: Turn it.
            say: Turn it.
      otherwise: {steps: [{do: {id: tell, text: Tell the sexton.}}]}
  - end: {id: done, outcome: finished}
"""
"""The advice is the adviser's; what is left out of a chapel door are its other questions."""


def found(folder: Path, text: str) -> list[tuple[str, str]]:
    path = folder / "chapel-door.yaml"
    path.write_text(text, "utf-8")
    return [(one.code, one.message) for one in check(path).findings]


def test_the_whole_file_is_sound(tmp_path: Path) -> None:
    assert found(tmp_path, TUNING) == []


FAULTS = [
    ("rounds: {reading:", "rounds: {readings:", "input-wrong", "did you mean “reading”?"),
    ("rounds: {reading:", "rounds: {width:", "input-wrong", "no input “width” that goes by rounds"),
    ("last, push]", "last]", "input-wrong", "needs 4 facts: what it does, seconds from 90"),
    ("[let_go, sweep, last", "[let_go, swep, last", "fact-unknown", "did you mean “sweep”?"),
    ("[let_go, sweep, last", "[let_go, width, last", "input-wrong", "“width” is a length"),
    (
        "[let_go, sweep, last",
        "[sweep, let_go, last",
        "input-wrong",
        "“seen” accepts latches, slams",
    ),
    ("[let_go, sweep, last", "[let_go, next, last", "input-wrong", "made of what is asked in it"),
    ('exterior: "= no"}', 'exterior: "= no", reading: let_go}', "input-wrong", "take it out"),
    (
        "    rounds: {reading: [let_go, sweep, last, push]}\n",
        "",
        "input-wrong",
        "also needs reading",
    ),
    ("ask: Force to open?", "ask: Force?, rounds: {a: [b]}", "shape", "belong to a worked fact"),
    ("same_swing: shut", "same_swing: shutt", "block-unknown", "did you mean “shut”?"),
    ("same_swing: shut", "same_swing: force", "block-unknown", "No time block “force” follows"),
    (
        "fact: last}",
        "fact: last, same_swing: mark}",
        "block-unknown",
        "No time block “mark” follows",
    ),
]


@pytest.mark.parametrize(("right", "wrong", "code", "says"), FAULTS)
def test_each_fault_is_told_with_its_way_out(
    tmp_path: Path, right: str, wrong: str, code: str, says: str
) -> None:
    assert TUNING.count(right) == 1
    told = found(tmp_path, TUNING.replace(right, wrong))
    assert any(one == code and says in message for one, message in told), told


def test_a_computation_over_rounds_needs_its_first_column_to_be_asked(tmp_path: Path) -> None:
    late = TUNING.replace("- ask: {id: how-wide, fact: width}", "- work: {id: early, fact: next}")
    assert "fact-not-known" in {code for code, _ in found(tmp_path, late)}


def test_the_compiled_graph_keeps_rounds_and_swings(tmp_path: Path) -> None:
    path = tmp_path / "chapel-door.yaml"
    path.write_text(TUNING, "utf-8")
    graph = graph_of(path)
    fact = Fact.from_json(graph.facts["next"].to_json())
    assert fact.rounds == {"reading": ["let_go", "sweep", "last", "push"]}
    assert {"let_go", "sweep", "last", "push", "width"} <= graph.inputs_of("next")
    mark = next(node for node in graph.nodes if node.id == "mark")
    assert mark.body["same_swing"] == "shut"
