"""The proof held against every real run of small procedures; tests/campaigns/soundness.py does thousands."""

from pathlib import Path

import pytest

from tests.checker.held_against import held_against, totals
from tests.checker.small_files import ROOT, written

SEEDS = (
    *(517, 518, 519, 521, 523, 524, 530, 531, 533, 536, 537, 538, 539, 541, 542, 545),
    *(547, 548, 549, 550, 554, 555, 561, 562, 563, 564, 566, 567, 568, 570, 574, 577),
    *(578, 581, 582, 585, 591, 592, 596, 599, 600, 601, 603, 610, 611, 614, 618, 619),
    *(622, 625, 626, 627, 629, 630, 631, 632, 633, 635, 638, 639),
)
"""Files from 500 to 639, those that are soonest compared; they break and keep every property, and
`python -m tests.campaigns.soundness` compares thousands."""
TURNS = (18, 20, 27, 29, 32, 38, 39, 46, 57, 66, 77, 98, 103, 108, 140)
"""Files with something done in turn; `python -m tests.campaigns.soundness turns` compares hundreds."""
FEWER_STANDINGS = 300
"""Files with more runs than this are left to the campaign."""


def test_the_proof_says_what_the_runs_show(tmp_path: Path) -> None:
    verdicts = []
    for seed in SEEDS:
        folder = tmp_path / str(seed)
        folder.mkdir()
        verdict = held_against(folder, written(seed), FEWER_STANDINGS)
        assert verdict.wrong == [], f"seed {seed}"
        verdicts.append(verdict)
    compared = [verdict for verdict in verdicts if verdict.outcome == "compared"]
    assert len(compared) == len(SEEDS)
    for code, (broken, whole, _, _) in totals(compared).items():
        assert broken, f"no file breaks {code}"
        assert whole, f"no file keeps {code}"


@pytest.mark.parametrize("seed", TURNS)
def test_the_proof_says_what_the_runs_show_of_things_done_in_turn(
    tmp_path: Path, seed: int
) -> None:
    verdict = held_against(tmp_path, written(seed, turns=True), FEWER_STANDINGS)
    assert (verdict.outcome, verdict.wrong) == ("compared", [])


def test_the_same_seed_writes_the_same_files() -> None:
    assert written(512) == written(512)
    assert written(512) != written(513)


NARROW_AND_WIDE = """
procedure: root
title: How many hands
facts:
  width: {length: {from: 24 in, to: 60 in, step: 1/4 in}, ask: How wide is the leaf?}
  gap: {length: {from: 0 in, to: 30 in, step: 1/16 in}, ask: How wide is the opening beside it?}
  hinges: {count: {from: 2, to: 4}, ask: How many hinges?}
  knuckles: {choice: {left: Left, right: Right}, ask: Where are the knuckles?}
  outside: {choice: {push: Push side, pull: Pull side}, ask: Which side is outside?}
  din: {worked: din, using: {knuckles: knuckles}}
  hand: {worked: hand, using: {knuckles: din, outside: outside}}
  reach: {worked: chord, using: {width: gap, angle: "= 90 deg"}}
steps:
"""
"""Facts of the examples below."""


@pytest.mark.parametrize(
    ("steps", "code"),
    [
        pytest.param(
            """
  - ask: {id: how-many, fact: hinges}
  - end: {id: enough, outcome: finished}
  - repeat:
      id: again
      steps: [{do: {id: look, text: Look again.}}]
      until: {hinges: "= 2"}
      at_most: 2
      otherwise: {steps: [{do: {id: tell, text: Tell the foreman.}}]}
  - end: {id: done, outcome: finished}
""",
            "unreachable",
            id="a repeat behind an end",
        ),
        pytest.param(
            """
  - repeat:
      id: count
      steps: [{ask: {id: how-many, fact: hinges}}]
      until: {hinges: 2 to 4}
      at_most: 1
      otherwise: {steps: [{do: {id: tell, text: Tell the foreman.}}]}
  - end: {id: done, outcome: finished}
""",
            "condition-constant",
            id="a repeat of one try that is always done",
        ),
        pytest.param(
            """
  - repeat:
      id: count
      steps:
        - ask: {id: how-many, fact: hinges}
        - ask: {id: again, fact: hinges, when: {hinges: "> 2"}}
      until: {known: hinges}
      at_most: 3
      otherwise: {go: count}
  - end: {id: done, outcome: finished}
""",
            "condition-constant",
            id="a repeat whose reading is always known",
        ),
        pytest.param(
            """
  - check:
      id: hangs
      fact: hinges
      limit: "= 2"
      otherwise: {steps: [{do: {id: wait, text: Wait., when: {hinges: "= 2"}}}], go: wait}
  - end: {id: done, outcome: finished}
""",
            "stranded",
            id="a jump that goes round without a stop",
        ),
        pytest.param(
            """
  - ask: {id: how-wide, fact: width}
  - check:
      id: room
      fact: gap
      limit: "<= width"
      otherwise: {go: how-wide}
  - end: {id: done, outcome: finished}
""",
            "",
            id="one fact against another",
        ),
        pytest.param(
            """
  - check:
      id: room
      fact: gap
      limit: "<= width"
      otherwise: {go: room}
  - end: {id: done, outcome: finished}
""",
            "fact-not-known",
            id="one fact against another that was never asked",
        ),
        pytest.param(
            """
  - ask: {id: knuckles-where, fact: knuckles}
  - ask: {id: outside-where, fact: outside}
  - by_case:
      id: by-hand
      cases:
        - {id: reverse, when: {hand: [LHR, RHR]}, steps: []}
        - {id: din-left, when: {din: left, outside: pull}, steps: []}
        - {id: plain, when: {hand: [LH, RH]}, steps: []}
  - end: {id: done, outcome: finished}
""",
            "case-overlap",
            id="an overlap by a value that the run never computed",
        ),
        pytest.param(
            """
  - ask: {id: how-wide, fact: gap}
  - work: {id: how-far, fact: reach}
  - end: {id: done, outcome: finished}
""",
            "input-out-of-domain",
            id="a computation past its limits",
        ),
        pytest.param(
            """
  - ask: {id: how-many, fact: hinges}
  - ask: {id: how-wide, fact: width, when: {hinges: "= 2"}}
  - hold: {id: before, reads_back: [width]}
  - ask: {id: once-more, fact: width}
  - do: {id: drill, text: Drill., cuts: yes, reads: [width]}
  - end: {id: done, outcome: finished}
""",
            "cut-without-hold",
            id="a way to an unheld cut that another fault half blocks",
        ),
    ],
)
def test_what_the_runs_once_showed_otherwise(tmp_path: Path, steps: str, code: str) -> None:
    verdict = held_against(tmp_path, {ROOT: NARROW_AND_WIDE + steps.lstrip("\n")})
    assert verdict.outcome == "compared"
    assert verdict.wrong == []
    assert {one for one, count in verdict.broken.items() if count} >= ({code} if code else set())


BY_ROUNDS = """
procedure: root
title: Which hand, seen twice
facts:
  let_go: {choice: {latches: It latches, high: It stops high}, ask: What does it do?}
  sweep: {time: {from: 6 s, to: 7 s, step: 1 s}, ask: Seconds to the mark?}
  last: {time: {from: 1 s, to: 2 s, step: 1 s}, ask: Seconds to shut?}
  force: {force: {from: 4 lbf, to: 5 lbf, step: 1 lbf}, ask: Pounds to open?}
  next:
    worked: tune-next
    part: next
    using: {width: "= 36 in", mount: "= regular", fire: "= no", exterior: "= no", size: "= 5"}
    rounds: {reading: [let_go, sweep, last, force]}
steps:
"""
"""A computation over every round: the same answers now may come to something else by those before."""


@pytest.mark.parametrize(
    ("steps", "code"),
    [
        pytest.param(
            """
  - repeat:
      id: tests
      at_most: 3
      until: {next: done}
      steps:
        - ask: {id: what, fact: let_go}
        - time: {id: mark, fact: sweep, when: {let_go: latches}}
        - time: {id: shut, fact: last, when: {let_go: latches}}
      otherwise: {steps: [{do: {id: tell, text: Tell the foreman.}}]}
  - end: {id: done, outcome: finished}
""",
            "",
            id="known once its first column was asked",
        ),
        pytest.param(
            """
  - time: {id: mark, fact: sweep}
  - by_case:
      id: by-next
      cases:
        - {id: over, when: {next: done}, steps: []}
        - {id: on, when: {not: {next: done}}, steps: []}
  - ask: {id: what, fact: let_go}
  - end: {id: done, outcome: finished}
""",
            "fact-not-known",
            id="read before its first column was asked",
        ),
        pytest.param(
            """
  - repeat:
      id: tests
      at_most: 3
      until: {let_go: latches}
      steps:
        - ask: {id: what, fact: let_go}
      otherwise: {steps: [{do: {id: tell, text: Tell the foreman.}}]}
  - by_case:
      id: by-next
      cases:
        - {id: half, when: {next: none}, steps: []}
        - {id: whole, when: {next: [done, turn-valves, turn-spring, measure-force]}, steps: []}
  - end: {id: done, outcome: finished}
""",
            "case-missing",
            id="a case that comes about by three rounds",
        ),
    ],
)
def test_a_computation_over_rounds_is_proved_as_the_runs_show(
    tmp_path: Path, steps: str, code: str
) -> None:
    verdict = held_against(tmp_path, {ROOT: BY_ROUNDS + steps.lstrip("\n")})
    assert verdict.outcome == "compared"
    assert verdict.wrong == []
    assert {one for one, count in verdict.broken.items() if count} >= ({code} if code else set())
