"""An own procedure may include a shipped part by name, and name nothing outside the shipped folder."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.checker.graph_cache import graph_of
from guide.files.library import shipped_part

OWN = """\
procedure: clinic-visit
title: The clinic's yearly visit
facts_in: [shipped:closer-facts]
steps:
  - ask: {id: which-way, fact: way_out}
  - include: {id: arm, file: shipped:free-the-arm}
  - end: {id: done, outcome: finished, text: "Way out, {way_out}."}
"""


@pytest.fixture
def own(tmp_path: Path) -> Path:
    path = tmp_path / "clinic-visit.yaml"
    path.write_text(OWN, "utf-8")
    return path


def test_a_shipped_part_is_included_by_name(own: Path) -> None:
    report = check(own)
    assert report.findings == []
    assert report.proved
    assert report.graph is not None
    assert report.graph.index_of("arm/shut-and-wedge") is not None


def test_its_name_may_end_as_the_file_is_called(own: Path) -> None:
    own.write_text(OWN.replace("shipped:free-the-arm", "shipped:free-the-arm.yaml"), "utf-8")
    assert check(own).findings == []


def test_the_graph_is_kept_and_taken_from_the_cache(own: Path) -> None:
    assert graph_of(own) == graph_of(own)


def test_what_rules_say_of_a_shipped_part_is_left_to_its_own_check(own: Path) -> None:
    """A part that asks for what only other parts use is sound where it is, and nobody can change it from here."""
    own.write_text(OWN.replace("free-the-arm", "may-i-drill"), "utf-8")
    assert [one for one in check(own).findings if "may-i-drill" in one.file] == []


def test_a_misspelt_part_is_named_with_the_nearest(own: Path) -> None:
    own.write_text(OWN.replace("free-the-arm", "free-teh-arm"), "utf-8")
    (found,) = [one for one in check(own).findings if one.code == "file-unknown"]
    assert found.message == (
        "There is no file “shipped:free-teh-arm” among the shipped ones; "
        "did you mean “shipped:free-the-arm”?"
    )


OUTSIDE = [
    "shipped:../scenarios/demo",
    "shipped:/etc/hostname",
    "shipped:sheets/generic-a",
    "shipped:..",
    "shipped:",
    "shipped:a\\b",
    "shipped:shipped:holes",
]


@pytest.mark.parametrize("name", OUTSIDE)
def test_no_name_leaves_the_shipped_folder(own: Path, name: str) -> None:
    assert shipped_part(name) is None
    own.write_text(OWN.replace("shipped:free-the-arm", f"'{name}'"), "utf-8")
    codes = [one.code for one in check(own).findings]
    assert "file-outside" in codes
    assert shipped_part("free-the-arm") is None
