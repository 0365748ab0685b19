"""Branches on computed numbers: what the ranges of the inputs decide, and what is not proved.

The answers are worked out by hand: a chord at 90 degrees is the width times 1.4142, so 24 in to 34 in of leaf give
33.9 in to 48.1 in, and never 50 in.
"""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.run.replay import replay

CHORD = """
procedure: mark-the-floor
title: Mark the floor
facts:
  width: {length: {from: 24 in, to: 34 in, step: 1/16 in}, ask: How wide is the leaf?}
  reach: {worked: chord, using: {width: width, angle: "= 90 deg"}}
steps:
  - ask: {id: how-wide, fact: width}
  - work: {id: how-far, fact: reach}
  - by_case:
      id: by-reach
      cases:
        - {id: near, when: {reach: "<= LIMIT"}, steps: []}
        - {id: far, when: {reach: "> LIMIT"}, steps: [{do: {id: call, text: Call a second pair of hands.}}]}
  - end: {id: done, outcome: finished}
"""


def codes(folder: Path, text: str) -> list[str]:
    path = folder / "mark-the-floor.yaml"
    path.write_text(text)
    said = ("threshold-unsaid", "fact-unused")
    report = check(path, replay=replay)
    found = [finding.code for finding in report.findings if finding.code not in said]
    assert report.proved is not bool({"not-proved", "number-unbounded"} & set(found))
    return found


@pytest.mark.parametrize(
    ("limit", "expected"),
    [("50 in", ["case-never"]), ("48 in", []), ("34 in", []), ("33 in", ["case-never"])],
)
def test_a_chord_that_no_leaf_can_have_is_found(
    tmp_path: Path, limit: str, expected: list[str]
) -> None:
    assert codes(tmp_path, CHORD.replace("LIMIT", limit)) == expected


def test_a_branch_before_narrows_the_chord_after_it(tmp_path: Path) -> None:
    """Of leaves over 30 in, the chord is 42.4 in and more."""
    text = CHORD.replace(
        "  - work: {id: how-far, fact: reach}\n",
        "  - end: {id: small, when: {width: '<= 30 in'}, outcome: not-started, text: A small leaf.}\n",
    )
    assert codes(tmp_path, text.replace("LIMIT", "42 in")) == ["case-never"]
    assert codes(tmp_path, text.replace("LIMIT", "43 in")) == []


def test_a_mass_that_no_such_leaf_has_is_found(tmp_path: Path) -> None:
    """30 in x 80 in x 1 3/4 in of hardwood: 0.762 m x 2.032 m x 0.04445 m x 700 kg/m3 = 48.2 kg."""
    text = (
        CHORD.replace(
            'reach: {worked: chord, using: {width: width, angle: "= 90 deg"}}',
            "reach: {worked: door-mass, using: {width: width, height: '= 80 in', "
            "thickness: '= 1 3/4 in', construction: built}}\n"
            "  built: {choice: {softwood: Softwood, hardwood: Hardwood}, ask: What is it made of?}",
        )
        .replace("to: 34 in", "to: 30 in")
        .replace("steps:\n", "steps:\n  - ask: {id: which, fact: built}\n", 1)
    )
    assert codes(tmp_path, text.replace("LIMIT", "50 kg")) == ["case-never"]
    assert codes(tmp_path, text.replace("LIMIT", "45 kg")) == []


def test_a_clear_width_that_such_an_opening_always_leaves_is_found(tmp_path: Path) -> None:
    """At 90 degrees a leaf of 24 in leaves its width less 1 3/4 in of leaf and 5/8 in of stop, and somewhat less."""
    text = CHORD.replace(
        'worked: chord, using: {width: width, angle: "= 90 deg"}',
        "worked: clear-width, using: {width: width, opening: '= 90 deg', hinge: '= butt'}",
    )
    assert codes(tmp_path, text.replace("LIMIT", "20 in")) == ["case-never"]
    assert codes(tmp_path, text.replace("LIMIT", "28 in")) == []


def test_quarter_turns_from_one_size_to_the_next_are_never_none(tmp_path: Path) -> None:
    text = """
procedure: mark-the-floor
title: Turn the spring
facts:
  now: {count: {from: 1, to: 2}, ask: Which size does it stand at?}
  turns: {worked: spring-turns, part: quarter_turns, using: {from: now, to: "= 3"}}
steps:
  - ask: {id: which-size, fact: now}
  - work: {id: how-many, fact: turns}
  - by_case:
      id: by-turns
      cases:
        - {id: not-at-all, when: {turns: "= 0"}, steps: []}
        - {id: some, when: {any: [{turns: "> 0"}, {turns: none}]}, steps: []}
  - end: {id: done, outcome: finished}
"""
    assert codes(tmp_path, text) == ["case-never"]


def test_a_force_against_the_fans_has_a_least(tmp_path: Path) -> None:
    """At no pressure the handle still asks for the closer's 5 lbf."""
    text = CHORD.replace(
        'worked: chord, using: {width: width, angle: "= 90 deg"}',
        "worked: pressure-force, using: {width: width, height: '= 80 in', handle: '= 3 in', "
        "closer_force: '= 5 lbf', pressure: fans}",
    ).replace(
        "steps:\n",
        "  fans: {pressure: {from: 0 Pa, to: 50 Pa}, ask: How hard do the fans pull?}\n"
        "steps:\n  - ask: {id: how-hard, fact: fans}\n",
        1,
    )
    none = text.replace('{reach: "<= LIMIT"}', '{any: [{reach: "<= LIMIT"}, {reach: none}]}')
    assert "case-never" not in codes(tmp_path, none.replace("LIMIT", "10 lbf"))
    strict = none.replace('{any: [{reach: "<= LIMIT"}, {reach: none}]}', '{reach: "< 5 lbf"}')
    assert "case-never" in codes(tmp_path, strict.replace("> LIMIT", ">= 5 lbf"))


def test_what_rests_on_a_number_from_the_sheet_is_not_called_proved(tmp_path: Path) -> None:
    text = """
procedure: mark-the-floor
title: Mark the body
facts:
  mount: {choice: {regular: Regular, top-jamb: Top jamb, parallel: Parallel arm}, ask: Which mount?}
  opening: {angle: {from: 90 deg, to: 180 deg}, ask: How far does it open?}
  along: {worked: sheet-body-along, using: {mount: mount, opening: opening}}
  moved: {sum: [along, 1/8 in]}
steps:
  - ask: {id: which-mount, fact: mount}
  - ask: {id: how-far, fact: opening}
  - work: {id: where, fact: moved}
  - do: {id: far, when: {moved: "> 9 in"}, text: "Mark beyond {9 in} with the long rule."}
  - end: {id: done, outcome: finished}
"""
    assert codes(tmp_path, text) == ["number-unbounded"]
