"""Arithmetic and comparisons of facts in a run: exact, revised with their inputs, read back before a cut.

The numbers are worked out by hand beside the doors.
"""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.procedure.facts import writing
from guide.run import replies
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.replay import replay
from guide.run.session import Session
from guide.run.spoken_prompt import step_aloud
from guide.run.state import STOPPED, State, label
from guide.words.spoken import language
from tests.run.small_procedures import NOON, give

COLD_STORE = """\
procedure: cold-store
title: The cold store's seal
facts:
  width: {length: {from: 24 in, to: 60 in, step: 1/16 in}, ask: How wide is the leaf?}
  gap_top: {length: {from: 0 in, to: 1 in, step: 1/16 in}, unsure: true, find_out: Use a card., ask: The top gap?}
  gap_bottom: {length: {from: 0 in, to: 1 in, step: 1/16 in}, ask: How wide at the bottom?}
  drop: {length: {from: 0 in, to: 1 in, step: 1/16 in}, ask: How far does the seal drop?}
  hinges: {count: {from: 2, to: 4}, ask: How many hinges?}
  seal: {sum: [width, -1/8 in]}
  lean: {difference: [gap_top, gap_bottom]}
  both: {times: [gap_bottom, 2]}
  screws: {times: [hinges, 4]}
  seal_left: {difference: [seal, both]}
steps:
  - ask: {id: how-wide, fact: width}
  - ask: {id: top, fact: gap_top}
  - ask: {id: how-many, fact: hinges}
  - ask: {id: how-far, fact: drop}
  - check:
      id: bottom
      fact: gap_bottom
      limit: "<= drop - 1/16 in"
      otherwise: {steps: [{end: {id: uncovered, outcome: not-started, text: Fetch a longer seal.}}]}
  - work: {id: leaning, fact: lean, why: A leaf that leans rubs.}
  - work: {id: the-screws, fact: screws, why: Each hinge takes four.}
  - by_case:
      id: by-lean
      cases:
        - {id: unknown, when: {lean: none}, steps: [{do: {id: ask-foreman, text: Ask the foreman about the top.}}]}
        - {id: top-heavy, when: {lean: "> 0 in"}, steps: [{do: {id: raise, text: Raise the latch side.}}]}
        - {id: even, when: {lean: "-1/16 in to 0 in"}, steps: []}
        - {id: low, when: {lean: "< -1/16 in"}, steps: [{do: {id: lower, text: Lower the latch side.}}]}
  - hold: {id: read, reads_back: [seal, seal_left]}
  - do: {id: saw, cuts: true, text: "Saw the seal to {seal}.", reads: [seal_left], hazards: [drilling]}
  - end: {id: done, outcome: finished}
"""


def begin(folder: Path, text: str = COLD_STORE, units: str = "inch") -> Session:
    path = folder / "cold-store.yaml"
    path.write_text(text)
    report = check(path, replay=replay)
    assert report.graph is not None, report.findings
    unsaid = {"limit-unsaid", "threshold-unsaid", "cut-basis-short"}
    assert {f.code for f in report.findings} <= unsaid, report.findings
    assert report.proved
    return Session.begin(
        MemoryJournal(), report.graph, device="bench", units=units, clock=lambda: NOON
    )


def known(state: State, name: str) -> str:
    value = state.known(name)
    assert value is not None
    return writing(value)


def stands(state: State) -> str:
    return label(state.graph, state.at)


DOOR = ("36 1/16 in", "1/8 in", "3", "3/8 in", "5/16 in")
"""A seal of 36 1/16 - 1/8 = 35 15/16 in; the top gap less the bottom gap is 1/8 - 5/16 = -3/16 in."""


def test_sums_differences_and_multiples_are_exact(tmp_path: Path) -> None:
    session = begin(tmp_path)
    state = give(session, *DOOR)
    assert known(state, "lean") == "-3/16 in"
    assert list(prompt(state).working) == ["1/8 in less 5/16 in: -3/16 in, below zero."]
    state = give(session, "done")
    assert known(state, "screws") == "12"
    state = give(session, "done", "done")
    assert replies.pass_hold(state)[1]["values"] == {
        "seal": "35 15/16 in",
        "seal_left": "35 5/16 in",
    }


def test_a_sum_of_inches_and_millimetres_is_exact_in_the_unit_of_its_first_fact(
    tmp_path: Path,
) -> None:
    """916 mm less 1/8 in is 916 - 3.175 = 912.825 mm."""
    session = begin(tmp_path)
    state = give(session, "916 mm", *DOOR[1:], "done", "done", "done")
    assert replies.pass_hold(state)[1]["values"]["seal"] == "912.825 mm"


def test_what_is_computed_from_an_unknown_fact_has_no_answer(tmp_path: Path) -> None:
    session = begin(tmp_path)
    state = give(session, "36 in", "unsure", *DOOR[2:])
    assert known(state, "lean") == "none"
    assert "gap top is not known" in prompt(state).text + " ".join(prompt(state).working)
    assert stands(give(session, "done", "done")) == "ask-foreman"


@pytest.mark.parametrize(
    ("top", "bottom", "way"),
    [("1/4 in", "3/16 in", "raise"), ("1/4 in", "5/16 in", "read"), ("1/8 in", "5/16 in", "lower")],
)
def test_a_branch_goes_by_a_difference_below_zero(
    tmp_path: Path, top: str, bottom: str, way: str
) -> None:
    state = give(begin(tmp_path), "36 in", top, "3", "1/2 in", bottom, "done", "done")
    assert stands(state) == way


@pytest.mark.parametrize(("drop", "met"), [("3/8 in", True), ("5/16 in", False)])
def test_one_fact_is_checked_against_another_with_an_offset(
    tmp_path: Path, drop: str, met: bool
) -> None:
    """A bottom gap of 5/16 in wants a drop of 3/8 in."""
    state = give(begin(tmp_path), *DOOR[:-2], drop, DOOR[-1])
    assert (stands(state) != "uncovered") is met


def test_the_limit_is_shown_as_the_number_it_comes_to(tmp_path: Path) -> None:
    state = give(begin(tmp_path), *DOOR[:-1])
    assert stands(state) == "bottom"
    assert prompt(state).limit == "at most 5/16 in (3/8 in less 1/16 in)"


def test_a_revised_input_asks_for_the_hold_again_and_only_where_the_result_changes(
    tmp_path: Path,
) -> None:
    session = begin(tmp_path)
    state = give(session, *DOOR, "done", "done", "done", "hold")
    assert stands(state) == "saw"
    state = give(session, "how-far = 1/2 in")
    assert stands(state) == "saw", "no seal is cut by its drop"
    state = give(session, "how-wide = 36 in")
    assert stands(state) == "read"
    assert replies.pass_hold(state)[1]["values"]["seal"] == "35 7/8 in"
    assert stands(give(session, "how-wide = 36 1/16 in")) == "saw"


def test_a_seal_that_was_cut_on_another_sum_stops_the_run(tmp_path: Path) -> None:
    session = begin(tmp_path)
    give(session, *DOOR, "done", "done", "done", "hold", "begin", "done")
    state = give(session, "how-wide = 36 in")
    assert state.status == STOPPED
    assert "it was 35 15/16 in, now it is 35 7/8 in" in state.why


def test_a_work_block_is_shown_again_when_its_difference_changes(tmp_path: Path) -> None:
    session = begin(tmp_path)
    give(session, *DOOR, "done", "done")
    assert stands(give(session, "bottom = 1/4 in")) == "leaning"


def test_the_same_answers_give_the_same_run_after_it_is_opened_again(tmp_path: Path) -> None:
    session = begin(tmp_path)
    state = give(session, *DOOR, "done", "done", "done", "hold")
    again = begin(tmp_path)
    give(again, "40 in", *DOOR[1:], "done", "done", "done", "hold", "how-wide = 36 1/16 in", "hold")
    assert again.state.route() == state.route()
    assert {n: known(again.state, n) for n in ("seal", "seal_left", "lean", "screws")} == {
        n: known(state, n) for n in ("seal", "seal_left", "lean", "screws")
    }


@pytest.mark.parametrize(
    ("units", "said"),
    [("inch", "minus three sixteenths"), ("metric", "about minus five millim")],
)
def test_a_difference_below_zero_is_shown_and_said_with_its_sign(
    tmp_path: Path, units: str, said: str
) -> None:
    """-3/16 in are -4.76 mm."""
    text = COLD_STORE.replace("fact: lean, why", "fact: lean, text: 'It leans {lean}.', why")
    session = begin(tmp_path, text, units)
    state = give(session, *DOOR)
    assert "-3/16 in" in prompt(state).text or "about -5 mm" in prompt(state).text
    assert said in step_aloud(state, prompt(state), language("english"))
