"""Findings that a file lets stand, with a reason: what counts, what is refused, and what is shown."""

import json
from pathlib import Path

import pytest

from guide.checker.check import Report, check
from guide.checker.manual import all_codes, page_of
from guide.cli.main import main

OVERLAP = """\
procedure: school
title: The school's classroom door
accepted:
  - {code: case-overlap, at: by-width, because: Either way serves at 36 in.}
facts:
  width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
steps:
  - ask: {id: how-wide, fact: width}
  - by_case:
      id: by-width
      cases:
        - {id: narrow, when: {width: "<= 36 in"}, steps: [{do: {id: alone, text: Lift it.}}]}
        - {id: wide, when: {width: ">= 36 in"}, steps: [{do: {id: help, text: Fetch a helper.}}]}
  - end: {id: done, outcome: finished}
"""
ENTRY = "{code: case-overlap, at: by-width, because: Either way serves at 36 in.}"


def checked(folder: Path, text: str, **others: str) -> Report:
    """The report of a file of this text, with others beside it."""
    for name, other in others.items():
        (folder / f"{name}.yaml").write_text(other)
    path = folder / "school.yaml"
    path.write_text(text)
    return check(path)


def codes(report: Report) -> list[str]:
    return [finding.code for finding in report.findings]


def test_what_is_accepted_counts_no_more(tmp_path: Path) -> None:
    report = checked(tmp_path, OVERLAP)
    assert codes(report) == []
    assert report.sound
    assert report.proved
    ((finding, because),) = report.accepted
    assert (finding.code, finding.line) == ("case-overlap", 10)
    assert because == "Either way serves at 36 in."


@pytest.mark.parametrize("reason", ["", ", because: Fine.", ", because: It is"])
def test_without_a_reason_of_a_few_words_nothing_is_accepted(tmp_path: Path, reason: str) -> None:
    text = OVERLAP.replace(", because: Either way serves at 36 in.", reason)
    report = checked(tmp_path, text)
    assert codes(report) == ["shape" if reason else "key-missing"]
    assert not report.sound


def test_an_entry_speaks_for_its_block_alone(tmp_path: Path) -> None:
    report = checked(tmp_path, OVERLAP.replace("at: by-width", "at: how-wide"))
    assert codes(report) == ["accepted-unused", "case-overlap"]


def test_an_entry_at_a_block_does_not_reach_into_the_blocks_inside(tmp_path: Path) -> None:
    inner = (
        "{by_case: {id: again, cases: [{id: low, when: {width: '<= 30 in'}, steps: []}, "
        "{id: high, when: {width: '>= 30 in'}, steps: []}]}}"
    )
    text = OVERLAP.replace("{do: {id: alone, text: Lift it.}}", inner)
    report = checked(tmp_path, text)
    assert codes(report) == ["case-overlap"]
    assert "“again”" in report.findings[0].message


def test_a_finding_at_a_fact_is_accepted_by_the_facts_name(tmp_path: Path) -> None:
    unsure = OVERLAP.replace("ask: How wide is the leaf?", "ask: How wide?, unsure: yes")
    unsure = unsure.replace('">= 36 in"}', '">= 36 in"}').replace(
        "{id: wide,",
        "{id: unknown, when: {width: unsure}, steps: []}\n        - {id: wide,",
    )
    assert codes(checked(tmp_path, unsure)) == ["find-out-missing"]
    more = "\n  - {code: find-out-missing, at: width, because: The tape is in every bag.}"
    assert codes(checked(tmp_path, unsure.replace(ENTRY, ENTRY + more))) == []


@pytest.mark.parametrize("code", ["cut-without-hold", "fact-not-known", "case-missing", "stranded"])
def test_what_strands_or_hurts_cannot_be_accepted(tmp_path: Path, code: str) -> None:
    assert not page_of(code).acceptable
    report = checked(tmp_path, OVERLAP.replace("code: case-overlap", f"code: {code}"))
    assert codes(report) == ["accepted-refused", "case-overlap"]
    assert not report.sound


def test_only_what_a_run_survives_can_be_accepted() -> None:
    pages = [page_of(code) for code in all_codes()]
    assert {page.code for page in pages if page.acceptable and page.level == "error"} == {
        "case-overlap",
        "case-never",
        "condition-constant",
        "input-out-of-domain",
        "limit-constant",
        "unreachable",
    }


def test_a_misspelt_code_or_block_is_told_with_the_nearest(tmp_path: Path) -> None:
    wrong = checked(tmp_path, OVERLAP.replace("code: case-overlap", "code: branch-overlapp"))
    assert "did you mean “case-overlap”?" in wrong.findings[0].message
    wrong = checked(tmp_path, OVERLAP.replace("at: by-width", "at: by-widht"))
    assert codes(wrong) == ["accepted-unknown", "case-overlap"]
    assert "did you mean “by-width”?" in wrong.findings[0].message


PART = OVERLAP.replace("procedure: school", "procedure: part\ncounts_on: []").replace(
    "  - end: {id: done, outcome: finished}\n", ""
)
WHOLE = """\
procedure: whole
title: The whole school
steps:
  - include: {id: door, file: part.yaml}
  - end: {id: done, outcome: finished}
"""


def test_an_included_part_keeps_what_it_accepts(tmp_path: Path) -> None:
    report = checked(tmp_path, WHOLE, part=PART)
    assert codes(report) == []
    assert len(report.accepted) == 1


def test_whether_a_parts_entry_is_needed_is_told_where_the_part_is_checked(tmp_path: Path) -> None:
    idle = PART.replace('">= 36 in"', '"> 36 in"')
    assert codes(checked(tmp_path, WHOLE, part=idle)) == []
    assert codes(checked(tmp_path, idle)) == ["accepted-unused"]


def test_all_shows_what_is_accepted_and_why(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    checked(tmp_path, OVERLAP)
    path = str(tmp_path / "school.yaml")
    assert main(["check", path]) == 0
    out = capsys.readouterr().out
    assert "case-overlap" not in out
    assert "nothing found, 1 accepted" in out
    assert main(["check", path, "--all"]) == 0
    assert "    accepted: Either way serves at 36 in." in capsys.readouterr().out
    assert main(["check", path, "--all", "--json"]) == 0
    (one,) = json.loads(capsys.readouterr().out)["accepted"]
    assert (one["code"], one["because"]) == ("case-overlap", "Either way serves at 36 in.")
    assert main(["check", path, "--all", "--format", "sarif"]) == 0
    (result,) = json.loads(capsys.readouterr().out)["runs"][0]["results"]
    assert result["suppressions"] == [
        {"kind": "inSource", "justification": "Either way serves at 36 in."}
    ]
