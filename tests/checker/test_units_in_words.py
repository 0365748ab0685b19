"""Measures in the words of a file: those that only one system of units understands are reported."""

from pathlib import Path

import pytest

from guide.checker.check import check

LIBRARY = """\
procedure: library-door
title: The library's door
facts:
  force: {{force: {{from: 0 lbf, to: 60 lbf}}, ask: {ask}, say: {say}}}
steps:
  - check:
      id: light
      fact: force
      limit: "<= 5 lbf"
      why: "{why}"
      otherwise: {{steps: [{{end: {{id: heavy, outcome: not-started, text: Fetch the foreman.}}}}]}}
  - end: {{id: done, outcome: finished}}
"""


def found(folder: Path, **words: str) -> list[tuple[str, str]]:
    usual = {
        "ask": "What force opens it?",
        "say": "Force to open?",
        "why": "A child opens it with {limit}.",
    }
    path = folder / "library-door.yaml"
    path.write_text(LIBRARY.format(**usual | words))
    return [(finding.code, finding.message) for finding in check(path).findings]


def test_the_limit_in_braces_names_the_limit(tmp_path: Path) -> None:
    assert found(tmp_path) == []


@pytest.mark.parametrize(
    "why",
    [
        "Opens with {limit} at most.",
        "Opens with {at most 5 lbf}.",
        "Opens with 5 lbf, which is 22 N.",
        "Opens within {limit}, in 90 in harder weather.",
        "Opens with {limit}; one in three does not.",
        "At most {limit}; No. 14 screws, 1/4-20 thread.",
    ],
)
def test_what_both_systems_understand_is_not_reported(tmp_path: Path, why: str) -> None:
    assert found(tmp_path, why=why) == []


@pytest.mark.parametrize(
    ("why", "said"),
    [
        ("Opens with 5 lbf at most.", "“5 lbf”"),
        ("{limit} at most; keep 1/16 in clear.", "“1/16 in”"),
        ("{limit} at most, five pounds to a child.", "“5 pounds”"),
        ("{limit} at most, 20 mm from the edge.", "“20 mm”"),
    ],
)
def test_a_bare_measure_is_reported_with_what_to_write(tmp_path: Path, why: str, said: str) -> None:
    ((code, message),) = found(tmp_path, why=why)
    assert code == "unit-of-one-system"
    assert said in message
    assert "{at most" in message


def test_a_question_does_not_ask_for_pounds(tmp_path: Path) -> None:
    ((code, message),) = found(tmp_path, say="Pounds to open?")
    assert code == "question-of-one-system"
    assert "asks for “Pounds”" in message


def test_a_limit_in_braces_that_says_the_other_side_is_reported(tmp_path: Path) -> None:
    assert [code for code, _ in found(tmp_path, why="At least {limit} opens it.")] == [
        "words-against-limit"
    ]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ({"why": "At most {limit}, not {5 furlongs}."}, "unit-wrong"),
        ({"why": "At most {limit}, not {7}."}, "unit-wrong"),
        ({"ask": '"Is it {limit}?"', "say": "Force?"}, "brace-stray"),
    ],
)
def test_braces_that_cannot_be_filled_are_errors(
    tmp_path: Path, words: dict[str, str], code: str
) -> None:
    assert code in [one for one, _ in found(tmp_path, **words)]


def test_the_limit_stands_only_in_a_check_with_a_number(tmp_path: Path) -> None:
    path = tmp_path / "library-door.yaml"
    path.write_text(
        "procedure: library-door\ntitle: The library's door\nsteps:\n"
        "  - do: {id: open, text: 'Open it with {limit}.'}\n"
        "  - end: {id: done, outcome: finished}\n"
    )
    assert [finding.code for finding in check(path).findings] == ["brace-stray"]
