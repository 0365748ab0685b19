"""SARIF is read by a reader that is not ours: the model of SARIF 2.1.0 (OASIS) of the package sarif-pydantic."""

from pathlib import Path

import pytest
from sarif_pydantic import Sarif

from guide.cli.main import main

BRANCH_MISSING = """\
procedure: fit-a-kick-plate
edition: 1
title: Fit a kick plate
facts:
  leaf: {choice: {wood: Wood, steel: Steel}, unsure: true, ask: What is the leaf?, say: Which leaf?, find_out: Knock.}
steps:
  - ask: {id: what-leaf, fact: leaf}
  - by_case:
      id: by-leaf
      cases:
        - {id: wood, when: {leaf: wood}, steps: [{do: {id: screw, text: Screw it on., say: Screw it on.}}]}
        - {id: steel, when: {leaf: steel}, steps: [{do: {id: tape, text: Tape it on., say: Tape it on.}}]}
  - end: {id: done, outcome: finished}
"""


def test_another_reader_finds_the_missing_branch_where_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "fit-a-kick-plate.yaml"
    file.write_text(BRANCH_MISSING)
    assert main(["check", str(file), "--format", "sarif"]) == 1
    log = Sarif.model_validate_json(capsys.readouterr().out)
    assert log.version == "2.1.0"
    (run,) = log.runs
    results = {result.rule_id: result for result in run.results or []}
    gap = results["case-missing"]
    assert gap.locations is not None
    place = gap.locations[0].physical_location
    assert place is not None
    assert place.region is not None
    assert place.artifact_location is not None
    assert place.region.start_line == 9
    assert str(place.artifact_location.uri).endswith("fit-a-kick-plate.yaml")
    rules = {rule.id for rule in run.tool.driver.rules or []}
    assert set(results) <= rules
