"""Editions: words or blocks that changed since an edition was checked in need a new one."""

import json
import shutil
from pathlib import Path

import pytest

from guide.checker.check import check
from guide.checker.manual import page_of
from guide.cli.main import main
from guide.files.library import shipped_folder
from guide.procedure.editions import EDITIONS, kept_editions

BAKERY = """\
procedure: bakery
edition: 2
title: The bakery's back door
facts_in: [shared.yaml]
steps:
  - ask: {id: how-wide, fact: width}
  - include: {id: gaps, file: gaps.yaml}
  - do: {id: mark, text: "Mark for {width}."}
  - end: {id: done, outcome: finished}
"""
GAPS = """\
procedure: gaps
title: The gaps
counts_on: []
steps:
  - do: {id: look, text: Look at the gaps.}
"""
SHARED = "facts:\n  width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}\n"


@pytest.fixture
def bakery(tmp_path: Path) -> Path:
    (tmp_path / "gaps.yaml").write_text(GAPS)
    (tmp_path / "shared.yaml").write_text(SHARED)
    path = tmp_path / "bakery.yaml"
    path.write_text(BAKERY)
    return path


def accept(*paths: Path) -> int:
    return main(["check", "--accept-edition", *map(str, paths)])


def codes(path: Path) -> list[str]:
    return [finding.code for finding in check(path).findings]


def change(path: Path, was: str, now: str) -> None:
    assert was in path.read_text()
    path.write_text(path.read_text().replace(was, now))


def test_shipped_procedures_are_accepted_and_a_change_of_their_words_is_then_seen(
    tmp_path: Path,
) -> None:
    """In a copy, a job and two parts; what keeps a file from being accepted is an error, and
    `tests/procedure/test_shipped_files.py` looks at every shipped file for one."""
    folder = tmp_path / "procedures"
    shutil.copytree(shipped_folder() / "procedures", folder)
    procedures = [folder / f"{name}.yaml" for name in ("free-the-arm", "hand-over", "material")]
    (folder / EDITIONS).unlink()
    assert accept(*procedures) == 0
    assert [*kept_editions(folder)] == [path.name for path in procedures]
    path = folder / "free-the-arm.yaml"
    assert "edition-not-raised" not in codes(path)
    change(path, "text: ", "text: Now ")
    assert "edition-not-raised" in codes(path)


def test_nothing_is_said_where_no_edition_was_checked_in(bakery: Path) -> None:
    assert codes(bakery) == []


@pytest.mark.parametrize(
    ("file", "was", "now", "line"),
    [
        ("bakery.yaml", "Mark for", "Measure for", 2),
        ("bakery.yaml", "outcome: finished", "outcome: finished, text: Sweep up.", 2),
        (
            "bakery.yaml",
            "  - do: {id: mark",
            "  - do: {id: sweep, text: Sweep.}\n  - do: {id: mark",
            2,
        ),
        ("shared.yaml", "48 in", "60 in", 2),
        ("gaps.yaml", "Look at the gaps", "Tape the gaps", 1),
    ],
)
def test_changed_words_or_blocks_need_a_new_edition(
    bakery: Path, file: str, was: str, now: str, line: int
) -> None:
    assert accept(bakery, bakery.with_name("gaps.yaml")) == 0
    assert codes(bakery) == []
    change(bakery.with_name(file), was, now)
    (found,) = check(bakery).findings
    assert (found.code, found.level, found.line) == ("edition-not-raised", "advice", line)
    assert not page_of(found.code).acceptable


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("steps:\n", "# the baker opens at four\nsteps:\n"),
        ("{id: how-wide, fact: width}", "{fact: width, id: how-wide}"),
        ("edition: 2", "edition: 3"),
    ],
)
def test_what_a_fitter_never_reads_needs_none(bakery: Path, was: str, now: str) -> None:
    assert accept(bakery) == 0
    change(bakery, was, now)
    assert codes(bakery) == []


def test_a_raised_edition_is_accepted_and_then_stands(
    bakery: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    accept(bakery)
    change(bakery, "Mark for", "Measure for")
    assert accept(bakery) == 1
    assert "not accepted: words or blocks are not those of edition 2" in capsys.readouterr().out
    change(bakery, "edition: 2", "edition: 3")
    assert codes(bakery) == []
    assert accept(bakery) == 0
    assert kept_editions(bakery.parent)["bakery.yaml"].edition == 3
    change(bakery, "edition: 3", "edition: 2")
    assert codes(bakery) == ["edition-not-raised"]


def test_a_file_with_a_fault_and_a_file_of_facts_are_not_accepted(
    bakery: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert accept(bakery.with_name("shared.yaml")) == 1
    change(bakery, "fact: width", "fact: widht")
    assert accept(bakery) == 1
    out = capsys.readouterr().out
    assert "only a procedure has an edition" in out
    assert "something is wrong with it" in out
    assert not (bakery.parent / EDITIONS).exists()


@pytest.mark.parametrize(
    "kept",
    [
        "",
        "[" * 100_000,
        "[]",
        '{"form": 2, "files": {}}',
        '{"form": 1, "files": {"bakery.yaml": {"edition": "2", "digest": "00"}}}',
        '{"form": 1, "files": ["bakery.yaml"]}',
    ],
)
def test_editions_that_cannot_be_read_are_said_so(
    bakery: Path, kept: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (bakery.parent / EDITIONS).write_text(kept)
    (found,) = check(bakery).findings
    assert (found.code, found.level) == ("editions-unreadable", "advice")
    assert accept(bakery) == 3
    assert "cannot be read" in capsys.readouterr().err
    assert (bakery.parent / EDITIONS).read_text() == kept


def test_what_is_kept_is_the_same_whoever_accepts_it_first(bakery: Path) -> None:
    gaps = bakery.with_name("gaps.yaml")
    accept(bakery, gaps)
    first = (bakery.parent / EDITIONS).read_bytes()
    assert list(json.loads(first)["files"]) == ["bakery.yaml", "gaps.yaml"]
    (bakery.parent / EDITIONS).unlink()
    accept(gaps, bakery)
    assert (bakery.parent / EDITIONS).read_bytes() == first
    assert [path.name for path in bakery.parent.iterdir() if path.name.startswith(".")] == []


def test_a_folder_that_takes_no_files_is_one_sentence(
    bakery: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(*_: object, **__: object) -> tuple[int, str]:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("guide.procedure.editions.tempfile.mkstemp", full)
    assert accept(bakery) == 3
    assert "cannot be written" in capsys.readouterr().err
