"""Whose rules hold is the run's own, as its sheet is: no proof reckons with those of one country alone."""

from pathlib import Path

from guide.checker.check import check
from guide.run.replay import replay

BANK = """\
procedure: bank-counter-door
title: The counter door of the Osk Lane bank
facts:
  fire: {yesno: {"yes": Fire door, "no": No fire door}, ask: Is it a fire door?}
  verdict: {worked: access-and-fire, part: verdict, using: {fire: fire}}
steps:
  - ask: {id: fire-door, fact: fire}
  - by_case:
      id: held
      cases:
        - {id: fails, when: {verdict: fail}, steps: []}
        - {id: left-open, when: {verdict: decide}, steps: []}
  - end: {id: done, outcome: finished}
"""


def test_a_verdict_that_only_another_countrys_rules_give_needs_its_branch(tmp_path: Path) -> None:
    """Under the usual rules some reading is always open; Europe's let this door pass, and no branch is taken."""
    path = tmp_path / "bank-counter-door.yaml"
    path.write_text(BANK)
    assert "not-proved" in {found.code for found in check(path, replay=replay).findings}
    path.write_text(BANK.replace("verdict: decide", "verdict: [decide, pass, none]"))
    assert "not-proved" not in {found.code for found in check(path, replay=replay).findings}
