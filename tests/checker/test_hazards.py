"""Hazards and cautions: what a step's own words must say for each hazard."""

import json
from pathlib import Path

import pytest

from guide.checker.check import check
from guide.procedure.graph import Graph
from guide.procedure.hazards import GRAVITY, USUAL
from guide.run.journal import MemoryJournal
from guide.run.prompt import prompt
from guide.run.session import Session

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


MILDER = ("fire-door", "hearing", "oil", "alone")
"""Hazards that a caution is grave enough for."""


@pytest.mark.parametrize("hazard", USUAL)
@pytest.mark.parametrize("word", GRAVITY)
def test_a_caution_is_as_grave_as_its_hazard(tmp_path: Path, hazard: str, word: str) -> None:
    least = "caution" if hazard in MILDER else "warning"
    enough = GRAVITY.index(word) >= GRAVITY.index(least)
    found = codes(tmp_path, STEP.format(hazard=hazard, word=word))
    assert found == ([] if enough else ["caution-weak"])


def test_the_signal_words_stand_in_their_order() -> None:
    """ANSI Z535.4 and Z535.6 (public text of 4.14): a notice is of property, the others are of people."""
    assert GRAVITY == ("notice", "caution", "warning", "danger")
    assert not [word for one in USUAL.values() for word, _ in one.cautions if word == "notice"]


def test_the_gravest_of_several_hazards_decides(tmp_path: Path) -> None:
    assert codes(tmp_path, STEP.format(hazard="fire-door, ladder", word="caution")) == [
        "caution-weak"
    ]


@pytest.mark.parametrize("hazard", USUAL)
def test_the_usual_caution_that_the_run_shows_is_grave_enough(hazard: str) -> None:
    usual = USUAL[hazard]
    assert all(GRAVITY.index(word) >= GRAVITY.index(usual.least) for word, _ in usual.cautions)


def test_a_step_without_a_caution_of_its_own_is_given_the_usual_one(tmp_path: Path) -> None:
    text = STEP.format(hazard="ladder", word="notice").replace("      caution:", "      # ")
    assert codes(tmp_path, text) == []


OWN = """\
procedure: clinic
title: The clinic's corridor door
hazards:
  live-cable:
    caution:
      - {danger: A live cable runs behind this head. Switch it off first.}
      - {notice: "The ceiling tiles chip."}
steps:
  - do: {id: at-work, text: Pull the cable clear., hazards: [live-cable, ladder]}
  - end: {id: done, outcome: finished}
"""


def test_a_step_with_a_hazard_of_the_file_is_given_the_files_caution(tmp_path: Path) -> None:
    path = tmp_path / "clinic.yaml"
    path.write_text(OWN)
    report = check(path)
    assert report.findings == []
    assert report.graph is not None
    again = Graph.from_json(json.loads(json.dumps(report.graph.to_json())))
    assert again == report.graph
    session = Session.begin(MemoryJournal(), again, device="bench")
    assert prompt(session.state).cautions == [
        ("danger", "A live cable runs behind this head. Switch it off first."),
        ("warning", "Three points of contact while you climb; keep off the top step."),
        ("notice", "The ceiling tiles chip."),
    ]


@pytest.mark.parametrize("word", GRAVITY)
def test_a_caution_is_as_grave_as_the_files_own_hazard(tmp_path: Path, word: str) -> None:
    text = OWN.replace("ladder]", f"ladder], caution: {{{word}: Mind the cable.}}")
    assert codes(tmp_path, text) == ([] if word == "danger" else ["caution-weak"])


@pytest.mark.parametrize(
    ("was", "now", "code"),
    [
        ("[live-cable, ladder]", "[live-cabel, ladder]", "hazard-unknown"),
        ("  live-cable:\n", "  ladder:\n", "name-reserved"),
        ("ceiling tiles", "{tiles}", "brace-stray"),
        (
            '      - {notice: "The ceiling tiles chip."}',
            "      - {shout: The tiles chip.}",
            "key-unknown",
        ),
    ],
)
def test_what_is_wrong_with_a_hazard_is_told(tmp_path: Path, was: str, now: str, code: str) -> None:
    assert code in codes(tmp_path, OWN.replace(was, now))


def test_a_shared_file_gives_its_hazards_to_every_file_that_names_it(tmp_path: Path) -> None:
    shared = OWN[OWN.index("hazards:") : OWN.index("steps:")]
    (tmp_path / "shared.yaml").write_text(f"facts: {{}}\n{shared}")
    assert codes(tmp_path, OWN.replace(shared, "facts_in: [shared.yaml]\n")) == []


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


TELLING = [
    ("Wedge the leaf, then set up the ladder.", "ladder"),
    ("Set the spring to size 3.", "spring"),
    ("Shut the leaf, and join the arms.", "spring"),
    ("Deburr every hole.", "dust"),
    ("Hang an impairment notice on it.", "fire-door"),
]
QUIET = [
    "Take the ladder away.",
    "Climb down, and swing it by hand.",
    "Look at the spring hinges, and set the date.",
    "Lay out the screws of the body.",
    "Screw the shoe to the frame face.",
]


def bare(text: str, more: str = "") -> str:
    """A step without hazards, in a file of its own."""
    return (
        "procedure: clinic\ntitle: The clinic's corridor door\nsteps:\n"
        f'{more}  - do: {{id: at-work, text: "{text}"}}\n  - end: {{id: done, outcome: finished}}\n'
    )


@pytest.mark.parametrize(("text", "hazard"), TELLING)
def test_words_of_danger_want_a_hazard(tmp_path: Path, text: str, hazard: str) -> None:
    assert codes(tmp_path, bare(text)) == ["hazard-unnamed"]
    named = bare(text).replace("id: at-work,", f"id: at-work, hazards: [{hazard}],")
    assert codes(tmp_path, named) == []


@pytest.mark.parametrize("text", QUIET)
def test_words_that_only_name_what_can_hurt_want_none(tmp_path: Path, text: str) -> None:
    assert codes(tmp_path, bare(text)) == []


@pytest.mark.parametrize(("warned", "found"), [(1, []), (2, ["hazard-unnamed"])])
def test_work_above_the_head_wants_a_hazard_where_most_of_it_has_one(
    tmp_path: Path, warned: int, found: list[str]
) -> None:
    others = ("Turn the sweep valve an eighth.", "Tighten the shoe by hand.")[:warned]
    more = "".join(
        f"  - do: {{id: other-{n}, text: {text}, hazards: [ladder]}}\n"
        for n, text in enumerate(others)
    )
    assert codes(tmp_path, bare("Screw the shoe to the frame face.", more)) == found
