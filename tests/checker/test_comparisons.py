"""One fact against another: what the ranges decide is found, and everything else counts as one yes or no."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.run.replay import replay

SEAL = """
procedure: gym-seal
title: The gym's drop seal
facts:
  gap: {length: {from: 0 in, to: 1 in, step: 1/16 in}, ask: How wide is the gap below the leaf?}
  drop: {length: {from: 1/4 in, to: 5/8 in, step: 1/16 in}, ask: How far does the seal drop?}
  width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
  spare: {difference: [drop, gap]}
steps:
  - ask: {id: how-wide, fact: width}
  - ask: {id: below, fact: gap}
  - ask: {id: how-far, fact: drop}
CASES
  - end: {id: done, outcome: finished}
"""
UNSAID = {"threshold-unsaid", "fact-unused"}


def found(folder: Path, cases: str) -> list[tuple[str, str]]:
    path = folder / "gym-seal.yaml"
    path.write_text(SEAL.replace("CASES", cases.strip("\n")))
    report = check(path, replay=replay)
    return [(f.code, f.example) for f in report.findings if f.code not in UNSAID]


def by_case(*tests: str) -> str:
    ways = [
        f"        - {{id: way-{n}, when: {test}, steps: [{{do: {{id: do-{n}, text: Do it.}}}}]}}"
        for n, test in enumerate(tests)
    ]
    return "\n".join(["  - by_case:", "      id: seals", "      cases:", *ways])


@pytest.mark.parametrize(
    "tests",
    [
        ('{gap: "<= drop"}', '{gap: "> drop"}'),
        ('{gap: "< drop"}', '{gap: "= drop"}', '{drop: "< gap"}'),
        ('{gap: "<= drop - 1/16 in"}', '{gap: "> drop - 1/16 in"}'),
        ('{gap: "<= drop - 1/16 in"}', '{drop: "< gap + 1/16 in"}'),
        (
            '{gap: "< drop - 1/16 in"}',
            '{all: [{gap: ">= drop - 1/16 in"}, {gap: "<= drop + 1/16 in"}]}',
            '{gap: "> drop + 1/16 in"}',
        ),
        ('{spare: "< 0 in"}', '{spare: ">= 0 in"}'),
    ],
)
def test_cases_that_part_a_comparison_are_proved(tmp_path: Path, tests: tuple[str, ...]) -> None:
    assert found(tmp_path, by_case(*tests)) == []


@pytest.mark.parametrize(
    ("tests", "code", "example"),
    [
        (('{gap: "< drop"}', '{gap: "> drop"}'), "case-missing", "gap equal to drop: no case"),
        (('{gap: "<= drop"}', '{gap: ">= drop"}'), "case-overlap", "gap equal to drop: "),
        (('{gap: "<= drop"}', '{gap: "> drop - 1/16 in"}'), "case-overlap", ""),
        (('{gap: "<= drop - 1/16 in"}', '{gap: "> drop"}'), "case-missing", ""),
    ],
)
def test_a_gap_or_an_overlap_of_comparisons_is_found_with_a_door_that_has_it(
    tmp_path: Path, tests: tuple[str, ...], code: str, example: str
) -> None:
    (one,) = found(tmp_path, by_case(*tests))
    assert one[0] == code
    assert example in one[1]


@pytest.mark.parametrize(
    ("test", "code"),
    [
        # a gap of 1 in at most never comes near a leaf of 24 in
        ('{gap: "< width"}', "condition-constant"),
        ('{width: "<= gap + 22 in"}', "condition-constant"),
        ('{width: "<= gap + 23 in"}', ""),
        ('{gap: "> drop"}', ""),
        ('{gap: "> drop + 3/4 in"}', "condition-constant"),  # 1 in is no more than 1/4 + 3/4
        ('{gap: ">= drop + 3/4 in"}', ""),
        ('{spare: "> 5/8 in"}', "condition-constant"),
        ('{spare: "= 5/8 in"}', ""),
        ('{spare: "< -3/4 in"}', "condition-constant"),
    ],
)
def test_what_the_ranges_decide_is_always_or_never_so(tmp_path: Path, test: str, code: str) -> None:
    steps = f"  - do: {{id: look, when: {test}, text: Look.}}"
    assert [one for one, _ in found(tmp_path, steps)] == ([code] if code else [])


def test_a_branch_that_settled_a_comparison_settles_it_later_too(tmp_path: Path) -> None:
    steps = """
  - end: {id: open, when: {gap: "> drop"}, outcome: not-started, text: Fetch a longer seal.}
  - do: {id: look, when: {drop: ">= gap"}, text: Look.}
"""
    assert [one for one, _ in found(tmp_path, steps)] == ["condition-constant"]
    again = steps.replace("  - do:", "  - ask: {id: once-more, fact: gap}\n  - do:")
    assert found(tmp_path, again) == []
