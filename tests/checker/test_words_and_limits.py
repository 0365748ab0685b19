"""What a file says in words beside its limits, and what the check makes of it."""

from pathlib import Path

import pytest

from guide.checker.bounds import LOWER, UPPER, names, said_in
from guide.checker.check import check
from guide.measures import parse

FORCE = """\
procedure: library-door
title: The library's door
facts:
  force: {{force: {{from: 0 lbf, to: 60 lbf}}, ask: What force opens it at the handle?}}
steps:
  - check:
      id: light
      fact: force
      limit: "{limit}"
      why: {why}
      otherwise: {{steps: [{{end: {{id: heavy, outcome: not-started, text: Fetch the foreman.}}}}]}}
  - end: {{id: done, outcome: finished}}
"""


def codes(folder: Path, text: str) -> list[str]:
    path = folder / "library-door.yaml"
    path.write_text(text)
    return [finding.code for finding in check(path).findings]


@pytest.mark.parametrize(
    ("words", "side"),
    [
        ("at most 5 lbf", UPPER),
        ("5 lbf at most", UPPER),
        ("no more than 5 lbf", UPPER),
        ("within 5 lbf of the handle", UPPER),
        ("5 lbf or less", UPPER),
        ("5 lbf (22.2 N) is the most", UPPER),
        ("15 lbf is the usual most", UPPER),
        ("at least 5 lbf", LOWER),
        ("no less than 5 lbf", LOWER),
        ("5 lbf or more", LOWER),
        ("a push of 5 lbf", ""),
        ("more than 5 lbf", ""),
    ],
)
def test_what_is_wanted_of_a_reading(words: str, side: str) -> None:
    assert said_in(words, "force")[0].wanted == side


@pytest.mark.parametrize(
    ("words", "side"),
    [
        ("past 140 degrees", LOWER),
        ("more than 140 degrees", LOWER),
        ("wider than 140 degrees", LOWER),
        ("under 140 degrees", UPPER),
        ("no more than 140 degrees", ""),
        ("near 140 degrees", ""),
    ],
)
def test_what_case_is_told_of(words: str, side: str) -> None:
    assert [one.case for one in said_in(words, "angle")] == [side]


def test_a_number_is_named_with_its_unit_in_another_unit_or_bare_in_a_range() -> None:
    assert names("Aim for 5 to 7 s.", parse("5 s"), "time")
    assert names("A gap of 19.05 mm at most.", parse("3/4 in"), "length")
    assert names("1 3/8 in thick", parse("1 3/8 in"), "length")
    assert not names("1 3/8 in thick", parse("3/8 in"), "length")
    assert not names("The 15 lbf of an exit.", parse("5 lbf"), "force")


@pytest.mark.parametrize(
    ("limit", "why", "found"),
    [
        ("<= 5 lbf", "Indoors {5 lbf} is the most (ADA 404.2.9).", []),
        ("> 5 lbf", "Indoors {5 lbf} is the most (ADA 404.2.9).", ["words-against-limit"]),
        ("<= 6 lbf", "Indoors {5 lbf} is the most (ADA 404.2.9).", ["limit-unsaid"]),
        ("<= 5 lbf", "More than {5 lbf} keeps out whoever sits in a chair.", []),
        ("<= 5 lbf", "Most people manage it.", ["limit-unsaid"]),
    ],
)
def test_a_limit_and_its_words(tmp_path: Path, limit: str, why: str, found: list[str]) -> None:
    assert codes(tmp_path, FORCE.format(limit=limit, why=why)) == found


OPENING = """\
procedure: library-door
title: The library's door
facts:
  opening: {{angle: {{from: 60 deg, to: 180 deg, step: 1 deg}}, ask: How far does the leaf open?}}
steps:
  - ask: {{id: how-far, fact: opening}}
  - do: {{id: hold-it-up, when: {{opening: "{when}"}}, text: Look at the wall., why: {why}}}
  - end: {{id: done, outcome: finished}}
"""


@pytest.mark.parametrize(
    ("when", "why", "found"),
    [
        ("> 140 deg", "Past 140 degrees the body comes near the wall.", []),
        ("<= 140 deg", "Past 140 degrees the body comes near the wall.", ["words-against-when"]),
        ("> 141 deg", "Past 140 degrees the body comes near the wall.", ["threshold-unsaid"]),
        ("> 140 deg", "Under 140 degrees it never does; past 140 degrees it may.", []),
        ("<= 140 deg", "The wall is at 140 degrees.", []),
    ],
)
def test_a_condition_and_its_words(tmp_path: Path, when: str, why: str, found: list[str]) -> None:
    assert codes(tmp_path, OPENING.format(when=when, why=why)) == found
