"""What stands side by side: holds of one choice, inputs of one computation, and the parts of a folder."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.checker.manual import page_of

HEAD = "procedure: example\ntitle: An example\n"


def codes(folder: Path, text: str) -> list[str]:
    path = folder / "example.yaml"
    path.write_text(HEAD + text, "utf-8")
    return [one.code for one in check(path).findings if one.level != "advice"]


def test_a_hold_that_lacks_what_is_not_known_on_its_way_is_whole(tmp_path: Path) -> None:
    passes = page_of("hold-short").passes
    more = passes.replace(
        "            - hold: {id: before-numbers, reads_back: [mount, leaf, hinge, paper]}",
        "            - ask: {id: how-wide, fact: width}\n"
        "            - hold: {id: before-numbers, reads_back: [mount, leaf, hinge, paper, width]}",
    )
    assert more != passes
    facts = "  width: {length: {from: 24 in, to: 48 in}, ask: How wide?}\nsteps:"
    assert codes(tmp_path, more.replace("steps:", facts, 1)) == []


@pytest.mark.parametrize("few", ["[paper, mount]", "[paper]"])
def test_a_hold_that_shares_little_is_another_hold(tmp_path: Path, few: str) -> None:
    passes = page_of("hold-short").passes
    lists = "reads_back: [mount, leaf, hinge, paper]"
    first, rest = passes.split(lists, 1)
    other = first + f"reads_back: {few}" + rest
    assert "hold-short" not in codes(tmp_path, other)


CROSSED = page_of("input-crossed").passes


@pytest.mark.parametrize(
    ("wrong", "found"),
    [
        ("width: height", ["input-crossed"]),
        ("width: leaf_width", []),
        ('width: "= 36 in"', []),
    ],
)
def test_inputs_filled_by_each_others_facts(tmp_path: Path, wrong: str, found: list[str]) -> None:
    key = wrong.partition(":")[0]
    text = CROSSED.replace(f"      {key}: {key}\n", f"      {wrong}\n").replace(
        "{width} on", "{width}, {height} on"
    )
    if "leaf_width" in wrong:
        fact = "  leaf_width: {length: {from: 24 in, to: 48 in}, ask: How wide is it?}\n  mass:"
        text = text.replace("  mass:", fact, 1)
        text = text.replace("steps:", "steps:\n  - ask: {id: wide, fact: leaf_width}", 1)
    assert codes(tmp_path, text) == found


def test_a_sheets_number_for_another_fact_is_found(tmp_path: Path) -> None:
    text = (
        "facts:\n"
        "  mount: {choice: {regular: Regular arm, parallel: Parallel arm}, ask: Which mount?}\n"
        "  opening: {angle: {from: 60 deg, to: 180 deg}, ask: How far?}\n"
        "  body_along:\n    length: {from: 1 in, to: 30 in}\n    ask: How far along is the body?\n"
        "    sheet: {computation: sheet-body-along, using: {mount: mount, opening: opening}}\n"
        "  shoe_along: {length: {from: 1 in, to: 30 in}, ask: How far along is the shoe?}\n"
        "steps:\n"
        + "".join(
            f"  - ask: {{id: ask-{name.replace('_', '-')}, fact: {name}}}\n"
            for name in ("mount", "opening", "body_along", "shoe_along")
        )
        + '  - do: {id: mark, text: "{mount}, {opening}."}\n'
        "  - end: {id: done, outcome: finished}\n"
    )
    assert codes(tmp_path, text) == []
    wrong = text.replace("sheet-body-along", "sheet-shoe-along")
    assert codes(tmp_path, wrong) == ["input-crossed"]


PART = "counts_on: []\nsteps:\n  - do: {id: cover, text: Fit the cover.}\n"


def test_a_part_in_a_folder_without_includes_is_no_orphan(tmp_path: Path) -> None:
    assert codes(tmp_path, PART) == []
    (tmp_path / "other.yaml").write_text(
        "procedure: other\ntitle: O\nsteps:\n  - end: {id: done, outcome: finished}\n"
    )
    assert codes(tmp_path, PART) == []


def test_a_part_that_the_others_no_longer_include_is_one(tmp_path: Path) -> None:
    (tmp_path / "other.yaml").write_text(
        "procedure: other\ntitle: O\nsteps:\n  - include: {id: a, file: lost.yaml}\n"
    )
    assert codes(tmp_path, PART) == ["part-unused"]
    (tmp_path / "other.yaml").write_text(
        "procedure: other\ntitle: O\nsteps:\n  - include: {id: a, file: example.yaml}\n"
    )
    assert codes(tmp_path, PART) == []


LEFT_OUT = page_of("input-left-out")


def test_an_input_that_two_others_give_is_missed(tmp_path: Path) -> None:
    assert codes(tmp_path, LEFT_OUT.fails) == ["input-left-out"]


@pytest.mark.parametrize(
    ("given", "instead"),
    [
        (
            "part: said, using: {fire: fire, latches: latched}",
            "part: said, using: {latches: latched}",
        ),
        (
            "part: said, using: {fire: fire, latches: latched}",
            'part: said, using: {latches: "= yes"}',
        ),
    ],
)
def test_two_kinds_of_use_are_nobodys_slip(tmp_path: Path, given: str, instead: str) -> None:
    assert codes(tmp_path, LEFT_OUT.fails.replace(given, instead)) == []


LACKING = page_of("option-lacking")


def test_a_mount_that_the_computation_knows_is_missed(tmp_path: Path) -> None:
    assert codes(tmp_path, LACKING.fails) == ["option-lacking"]


def test_a_fact_that_lacks_two_of_three_is_a_choice_of_its_own(tmp_path: Path) -> None:
    text = LACKING.passes.replace(
        "{regular: Regular arm, top-jamb: Top jamb, parallel", "{parallel"
    )
    assert "option-lacking" not in codes(tmp_path, text)
