"""Hazards and cautions: what a step's own words must say for each hazard."""

from pathlib import Path

import pytest

from guide.checker import check
from guide.checker.rules.cuts import GRAVITY, LEAST
from guide.procedure import schema
from guide.run.prompt import HAZARD_WORDS

STEP = """\
procedure: clinic
title: The clinic's corridor door
steps:
  - do:
      id: at-work
      text: Do the work.
      tools: [dust sheet]
      hazards: [{hazard}]
      caution: {{{word}: Mind what you do.}}
  - end: {{id: done, outcome: finished}}
"""


def codes(folder: Path, text: str) -> list[str]:
    path = folder / "clinic.yaml"
    path.write_text(text)
    return [finding.code for finding in check(path).findings]


@pytest.mark.parametrize("hazard", schema.HAZARDS)
@pytest.mark.parametrize("word", GRAVITY)
def test_a_caution_is_as_grave_as_its_hazard(tmp_path: Path, hazard: str, word: str) -> None:
    enough = GRAVITY.index(word) >= GRAVITY.index("caution" if hazard == "fire-door" else "warning")
    found = codes(tmp_path, STEP.format(hazard=hazard, word=word))
    assert found == ([] if enough else ["caution-weak"])


def test_the_gravest_of_several_hazards_decides(tmp_path: Path) -> None:
    assert codes(tmp_path, STEP.format(hazard="fire-door, ladder", word="caution")) == [
        "caution-weak"
    ]


@pytest.mark.parametrize("hazard", schema.HAZARDS)
def test_the_usual_caution_that_the_run_shows_is_grave_enough(hazard: str) -> None:
    word, _ = HAZARD_WORDS[hazard]
    assert GRAVITY.index(word) >= GRAVITY.index(LEAST[hazard])


def test_a_step_without_a_caution_of_its_own_is_given_the_usual_one(tmp_path: Path) -> None:
    text = STEP.format(hazard="ladder", word="notice").replace("      caution:", "      # ")
    assert codes(tmp_path, text) == []


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("text: Drill the pilot holes.", ["cuts-missing"]),
        ("text: Stop at the mark. Punch every cross.", ["cuts-missing"]),
        ("text: Tap each hole.", ["cuts-missing"]),
        ("text: Cut the plate to length.", ["cuts-missing"]),
        ("text: Do the work.\n      hazards: [drilling]", ["cuts-missing"]),
        (
            "text: Do the work.\n      tools: [drill, long bit]\n      hazards: [drilling]",
            ["cuts-missing"],
        ),
        ("text: Drill nothing by guess.", []),
        ("text: Tap along the head with a magnet in hand.", []),
        ("text: Cut the paper template along its line.", []),
        ("text: Look at the drill bits and the saw.", []),
        ("text: Set the drill down.", []),
        ("text: Mask up.\n      tools: [eye protection]\n      hazards: [drilling]", []),
    ],
)
def test_a_step_that_cuts_by_its_words_says_so(tmp_path: Path, said: str, found: list[str]) -> None:
    text = STEP.replace("      text: Do the work.\n      tools: [dust sheet]\n", f"      {said}\n")
    text = "\n".join(line for line in text.split("\n") if "{" not in line or "end" in line)
    assert codes(tmp_path, text.format()) == found
