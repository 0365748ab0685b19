"""What `hingeside check` prints of a finding: for a person, for a script, for an editor; and the manual."""

import json
from pathlib import Path
from typing import Any

import pytest

from guide.checker.check import check
from guide.checker.manual import all_codes, page_of
from guide.cli.main import main
from guide.files.findings import Finding, parted, written
from guide.files.library import find

NO_BRANCH = """\
procedure: bakery
title: The bakery's back door
facts:
  mount:
    choice: {regular: Regular arm, top-jamb: Top jamb, parallel: Parallel arm}
    ask: Which mount?
  width: {length: {from: 24 in, to: 54 in, step: 1/16 in}, ask: How wide is the leaf?}
steps:
  - ask: {id: which-mount, fact: mount}
  - ask: {id: how-wide, fact: width}
  - by_case:
      id: by-mount
      cases:
        - {id: pull, when: {mount: regular}, steps: []}
        - {id: push, when: {mount: parallel}, steps: []}
        - {id: frame, when: {mount: top-jamb, width: "<= 48 in"}, steps: []}
  - end: {id: done, outcome: finished}
"""


@pytest.fixture
def bakery(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A procedure with one case that no branch covers, in the folder the person stands in."""
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "bakery.yaml"
    path.write_text(NO_BRANCH)
    return path


def test_a_finding_reads_like_a_good_compilers(
    bakery: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "bakery.yaml"]) == 1
    assert capsys.readouterr().out == (
        "bakery.yaml:12:7: error [case-missing] No case of “by-mount” covers these answers.\n"
        "          id: by-mount\n"
        "          ^\n"
        "    for example: mount top-jamb, width over 48 in: no case\n"
        "    do: add one, or widen one.\n"
        "bakery.yaml: 4 blocks, 1 finding, proved.\n"
    )


def test_json_keeps_the_keys_that_scripts_rely_on(
    bakery: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", "bakery.yaml", "--json"]) == 1
    (line,) = capsys.readouterr().out.splitlines()
    data = json.loads(line)
    assert list(data) == ["file", "findings", "nodes", "proved"]
    (finding,) = data["findings"]
    assert list(finding) == ["file", "line", "column", "code", "level", "message", "example"]
    assert (finding["line"], finding["column"], finding["code"]) == (12, 7, "case-missing")
    assert finding["example"] == "mount top-jamb, width over 48 in: no case"


def sarif(capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    log: dict[str, Any] = json.loads(capsys.readouterr().out)
    return log


def test_sarif_is_a_log_of_its_version(bakery: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """SARIF 2.1.0 (OASIS), from memory: a log of runs; a driver with rules; results that name a rule, with
    a level, a message, and a region counted from 1."""
    assert main(["check", "bakery.yaml", "--format", "sarif"]) == 1
    log = sarif(capsys)
    assert set(log) == {"$schema", "version", "runs"}
    assert log["version"] == "2.1.0"
    assert log["$schema"].startswith("https://")
    assert log["$schema"].endswith("sarif-2.1.0.json")
    (run,) = log["runs"]
    driver = run["tool"]["driver"]
    assert driver["name"] == "hingeside"
    assert [rule["id"] for rule in driver["rules"]] == list(all_codes())
    for rule in driver["rules"]:
        assert rule["defaultConfiguration"]["level"] in ("error", "warning", "note")
        assert all(rule[key]["text"] for key in ("shortDescription", "fullDescription", "help"))
    (result,) = run["results"]
    assert result["ruleId"] == driver["rules"][result["ruleIndex"]]["id"] == "case-missing"
    assert result["level"] == "error"
    assert "width over 48 in" in result["message"]["text"]
    (location,) = result["locations"]
    place = location["physicalLocation"]
    assert place["artifactLocation"] == {"uri": "bakery.yaml"}
    assert place["region"] == {"startLine": 12, "startColumn": 7}


def test_sarif_of_several_files_is_one_log(
    bakery: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = bakery.with_name("clinic door.yaml")
    other.write_text(NO_BRANCH.replace("title:", "titel:"))
    assert main(["check", "bakery.yaml", "clinic door.yaml", "--format", "sarif"]) == 1
    results = sarif(capsys)["runs"][0]["results"]
    places = [one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for one in results]
    assert places == ["bakery.yaml", "clinic%20door.yaml"]


def test_sarif_without_findings_is_still_a_log(
    bakery: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bakery.write_text(NO_BRANCH.replace(', width: "<= 48 in"', ""))
    assert main(["check", "bakery.yaml", "--format", "sarif"]) == 0
    assert sarif(capsys)["runs"][0]["results"] == []


@pytest.mark.parametrize(
    ("message", "wrong", "do"),
    [
        (
            "“end” is not known; take it out.",
            "“end” is not known.",
            "take it out.",
        ),
        (
            "There is no fact “widht”; did you mean “width”?",
            "There is no fact “widht”.",
            "write “width”, if that is what you meant.",
        ),
        (
            "“one; two” is empty; write it; or take it out.",
            "“one; two” is empty; write it.",
            "or take it out.",
        ),
        ("“one; two” is empty.", "“one; two” is empty.", ""),
    ],
)
def test_a_message_parts_into_what_is_wrong_and_what_to_do(
    message: str, wrong: str, do: str
) -> None:
    assert parted(message) == (wrong, do)


def test_of_a_long_line_the_part_around_the_place_is_shown() -> None:
    line = "steps: [" + ", ".join(f"step {number}" for number in range(60)) + "]"
    finding = Finding("school.yaml", 1, line.index("step 30") + 1, "shape", "error", "It is wrong.")
    _, shown, caret = written(finding, line).splitlines()
    assert len(shown) < 140
    assert shown[caret.index("^") :].startswith("step 30")


def test_explain_prints_the_page(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--explain", "cut-without-hold"]) == 0
    page = page_of("cut-without-hold")
    out = capsys.readouterr().out
    assert out.startswith("cut-without-hold (error; cannot be accepted)\n\n" + page.title)
    assert f"Do: {page.do}" in out
    assert out.index("Fails:") < out.index("Passes:")


def test_explain_without_a_code_lists_every_rule(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--explain"]) == 0
    assert [line.split()[0] for line in capsys.readouterr().out.splitlines()] == list(all_codes())


def test_explain_as_json_gives_a_page_an_object(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--explain", "no-end", "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert (data["code"], data["level"], data["acceptable"]) == ("no-end", "error", False)


def test_explain_of_an_unknown_code_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--explain", "cut-withot-hold"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert "did you mean “cut-without-hold”?" in shown.err


def test_check_of_nothing_is_no_call(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check"]) == 2
    assert "Name a file" in capsys.readouterr().err


def test_an_answer_that_is_not_covered_is_named_before_the_case_that_it_was_not_asked(
    tmp_path: Path,
) -> None:
    """With the branch for “nothing out of place” taken out of the first cures."""
    text = find("procedure", "first-cures").read_text("utf-8")
    branch = (
        "        - {id: in-place, when: {not: {first_look: [oil, loose, blocked]}}, steps: []}\n"
    )
    assert branch in text
    shared = find("procedure", "closer-facts").read_text("utf-8")
    (tmp_path / "closer-facts.yaml").write_text(shared, "utf-8")
    path = tmp_path / "first-cures.yaml"
    path.write_text(text.replace(branch, ""), "utf-8")
    (finding,) = (one for one in check(path).findings if one.code == "case-missing")
    assert finding.example == "first look another, or not asked: no case"
