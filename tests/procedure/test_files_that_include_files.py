"""Files that name other files: which may be named, and what is said where one is missing or wrong."""

from pathlib import Path

import pytest

from guide.procedure import compiler
from tests.procedure.sample_procedure import CLOSET_DOOR, compiled, findings, graph_of_text

PART = """\
procedure: hang-check
title: Does the leaf hang well?
counts_on: []
facts:
  binds: {yesno: {}, ask: Does the leaf bind?}
steps:
  - ask: {id: binding, fact: binds}
"""
FACTS = """\
facts:
  gap: {length: {from: 0 in, to: 1 in}, ask: How wide is the gap at the latch edge?}
"""
STEPS = "\nsteps:\n"
ASK_GAP = "  - ask: {id: how-wide-a-gap, fact: gap}\n"


def including(*files: str) -> str:
    """The closet door, with these files included before anything else."""
    lines = "".join(f"  - include: {{id: part-{n}, file: {f}}}\n" for n, f in enumerate(files))
    return CLOSET_DOOR.replace(STEPS, STEPS + lines)


def with_facts_in(*files: str) -> str:
    """The closet door, with these files of facts, and a question for the gap."""
    return CLOSET_DOOR.replace(STEPS, f"\nfacts_in: [{', '.join(files)}]{STEPS}{ASK_GAP}")


def codes(folder: Path, text: str, **others: str) -> list[str]:
    return [one.code for one in findings(folder, text, **others)]


def test_a_part_and_a_file_of_facts_are_gathered(tmp_path: Path) -> None:
    graph = graph_of_text(tmp_path, including("hang.yaml"), hang=PART)
    assert graph.nodes[0].id == "part-0/binding"
    assert "binds" in graph.facts
    assert codes(tmp_path, with_facts_in("gaps.yaml"), gaps=FACTS) == []


def test_a_part_may_stand_in_a_folder_below_and_name_its_own_neighbours(tmp_path: Path) -> None:
    parts = tmp_path / "parts"
    parts.mkdir()
    (parts / "hang.yaml").write_text(
        PART.replace("counts_on: []", "counts_on: []\nfacts_in: [gaps.yaml]")
    )
    (parts / "gaps.yaml").write_text(FACTS)
    graph = graph_of_text(tmp_path, including("parts/hang.yaml"))
    assert "gap" in graph.facts


@pytest.mark.parametrize(
    "name",
    ["/etc/passwd", "../hang.yaml", "parts/../../hang.yaml", "'C:hang.yaml'", "'parts\\hang.yaml'"],
)
def test_a_file_outside_the_folder_is_refused_unread(tmp_path: Path, name: str) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "hang.yaml").write_text(PART)
    (one,) = findings(inner, including(name))
    assert (one.code, one.line) == ("file-outside", 21)
    assert "write its name alone" in one.message


def test_a_link_that_leads_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "hang.yaml").write_text(PART)
    (inner / "hang.yaml").symlink_to(tmp_path / "hang.yaml")
    assert codes(inner, including("hang.yaml")) == ["file-outside"]


def test_a_missing_file_is_told_where_it_is_named_with_the_nearest_name(tmp_path: Path) -> None:
    (one,) = findings(tmp_path, including("hnag.yaml"), hang=PART)
    assert (one.code, one.line, one.column) == ("file-unknown", 21, 33)
    assert "did you mean “hang.yaml”?" in one.message


@pytest.mark.parametrize("name", [".", "parts", "x" * 390])
def test_what_is_no_file_is_told_where_it_is_named(tmp_path: Path, name: str) -> None:
    (tmp_path / "parts").mkdir()
    assert codes(tmp_path, including(name)) == ["file-unknown"]


def test_a_file_that_names_itself_is_a_circle(tmp_path: Path) -> None:
    (one,) = findings(tmp_path, including("closet-door.yaml"))
    assert one.code == "include-circle"
    assert one.message == "“closet-door.yaml” includes itself; break the circle."


def test_a_circle_is_told_with_the_files_on_the_way(tmp_path: Path) -> None:
    def part(name: str, file: str) -> str:
        return PART.replace("hang-check", name).replace("binds", name) + (
            f"  - include: {{id: next, file: {file}}}\n"
        )

    (one,) = findings(
        tmp_path,
        including("a.yaml"),
        a=part("a", "b.yaml"),
        b=part("b", "c.yaml"),
        c=part("c", "b.yaml"),
    )
    assert one.file.endswith("c.yaml")
    assert one.message == "“b.yaml” includes itself, by way of c.yaml; break the circle."


def test_a_broken_part_is_told_in_its_own_file_and_nowhere_else(tmp_path: Path) -> None:
    text = including("hang.yaml").replace("{go: tune}", "{go: tuen}")
    found = findings(tmp_path, text, hang=PART.replace("fact: binds", "fcat: binds"))
    assert sorted((Path(one.file).name, one.code) for one in found) == [
        ("closet-door.yaml", "block-unknown"),
        ("hang.yaml", "key-unknown"),
    ]


@pytest.mark.parametrize(
    "broken",
    ["facts:\n  gap: {length: {from: 0 in, too: 1 in}, ask: x}\n", "facts: [", "", "a: b\n"],
)
def test_a_broken_file_of_facts_is_not_held_against_what_asks_for_them(
    tmp_path: Path, broken: str
) -> None:
    found = findings(tmp_path, with_facts_in("gaps.yaml"), gaps=broken)
    assert found
    assert {Path(one.file).name for one in found} == {"gaps.yaml"}


def test_a_missing_file_of_facts_is_told_alone(tmp_path: Path) -> None:
    assert codes(tmp_path, with_facts_in("gaps.yaml")) == ["file-unknown"]


def test_a_procedure_is_no_file_of_facts_and_the_other_way_round(tmp_path: Path) -> None:
    (one,) = findings(tmp_path, with_facts_in("hang.yaml"), hang=PART)
    assert one.code == "file-wrong"
    assert "include it among the steps" in one.message
    (one,) = findings(tmp_path, including("gaps.yaml"), gaps=FACTS)
    assert one.code == "file-wrong"
    assert "facts_in" in one.message


def test_a_file_cannot_be_both_a_part_and_a_file_of_facts(tmp_path: Path) -> None:
    text = including("gaps.yaml").replace(STEPS, f"\nfacts_in: [gaps.yaml]{STEPS}", 1)
    assert codes(tmp_path, text, gaps=FACTS) == ["file-wrong"]
    assert codes(tmp_path, with_facts_in("closet-door.yaml")) == ["file-wrong"]


def test_a_fact_declared_in_two_files_is_told_with_both_places(tmp_path: Path) -> None:
    again = PART.replace("  binds:", "  width: {yesno: {}, ask: Is it wide?}\n  binds:")
    (one,) = findings(tmp_path, including("hang.yaml"), hang=again)
    assert (Path(one.file).name, one.code, one.line) == ("hang.yaml", "fact-twice", 5)
    assert "closet-door.yaml on line 12" in one.message


def test_facts_named_by_two_parts_are_declared_once(tmp_path: Path) -> None:
    part = PART.replace("counts_on: []", "counts_on: []\nfacts_in: [gaps.yaml]")
    other = part.replace("hang-check", "other").replace("binds", "drags")
    found = codes(tmp_path, including("hang.yaml", "o.yaml"), hang=part, o=other, gaps=FACTS)
    assert found == []


def test_what_an_included_part_is_given_must_be_declared(tmp_path: Path) -> None:
    (one,) = findings(tmp_path, including("hang.yaml"), hang=PART.replace("[]", "[widht]"))
    assert (Path(one.file).name, one.code, one.line) == ("hang.yaml", "fact-unknown", 3)


def test_three_hundred_files_are_too_many_and_that_is_told_once(tmp_path: Path) -> None:
    parts = {f"p{n}": PART.replace("binds", f"binds_{n}") for n in range(300)}
    (one,) = findings(tmp_path, including(*(f"{name}.yaml" for name in parts)), **parts)
    assert one.code == "too-large"
    assert "200 files" in one.message


@pytest.mark.parametrize(
    ("last", "most"),
    [
        (PART, compiler.MOST_BLOCKS),
        (PART.replace("fact: binds", "fcat: binds"), 2_000),
        (None, 2_000),
    ],
)
def test_parts_that_double_at_every_level_are_stopped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, last: str | None, most: int
) -> None:
    monkeypatch.setattr(compiler, "MOST_BLOCKS", most)

    def level(n: int) -> str:
        name = f"p{n + 1}.yaml"
        return (
            f"procedure: p{n}\ntitle: Level {n}\ncounts_on: []\nsteps:\n"
            f"  - include: {{id: a, file: {name}}}\n  - include: {{id: b, file: {name}}}\n"
            f"  - include: {{id: c, file: {name}}}\n"
        )

    parts = {f"p{n}": level(n) for n in range(30)}
    if last is not None:
        parts["p30"] = last
    graph, found = compiled(tmp_path, including("p0.yaml"), **parts)
    assert graph is None
    assert "too-large" in {one.code for one in found}


def test_parts_within_parts_a_hundred_deep_are_told_not_cut_short(tmp_path: Path) -> None:
    def level(n: int) -> str:
        return (
            f"procedure: p{n}\ntitle: Level {n}\ncounts_on: []\nsteps:\n"
            f"  - include: {{id: a, file: p{n + 1}.yaml}}\n"
        )

    parts = {f"p{n}": level(n) for n in range(100)}
    (one,) = findings(tmp_path, including("p0.yaml"), **parts, p100=PART)
    assert one.code == "too-deep"


def test_each_file_includes_that_of_its_own_folder(tmp_path: Path) -> None:
    """Two floors, each with a file of the same name beside it."""
    for floor in ("ground", "upper"):
        (tmp_path / floor).mkdir()
        top = f"procedure: {floor}\ntitle: The {floor} floor\ncounts_on: []\nsteps:\n"
        (tmp_path / floor / "floor.yaml").write_text(
            top + "  - include: {id: a, file: door.yaml}\n"
        )
        door = f"  - do: {{id: look, text: Look at the {floor} door.}}\n"
        (tmp_path / floor / "door.yaml").write_text(
            "procedure: door\ntitle: A door\ncounts_on: []\nsteps:\n" + door
        )
    graph, found = compiled(tmp_path, including("ground/floor.yaml", "upper/floor.yaml"))
    assert graph is not None, found
    texts = [str(node.body.get("text")) for node in graph.nodes]
    assert [one for one in texts if "door." in one and "Look at the" in one] == [
        "Look at the ground door.",
        "Look at the upper door.",
    ]
