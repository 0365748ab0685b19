"""What the check knows of questions that are answered blind, and of what a block depends on without showing it."""

from pathlib import Path

import pytest

from guide.checker.check import check

FACTS = """
procedure: marked
title: Mark a post
facts:
  hand: {choice: {left: Left hand, right: Right hand}, ask: Which hand is the door?}
  along: {length: {from: 1 in, to: 30 in}, ask: "By the sheet, how far along?"}
  along_read: {length: {from: 0 in, to: 60 in}, ask: "Measured again, how far along?"}
steps:
"""
HAND = "  - ask: {id: which-hand, fact: hand}\n"
ALONG = "  - ask: {id: how-far, fact: along}\n"
MARK = '  - do: {id: mark, text: "Mark it {along} along.", depends_on: [hand]}\n'
MEASURE = "  - ask: {id: measured, fact: along_read, depends_on: [hand], blind: [along]}\n"
END = "  - end: {id: done, outcome: finished}\n"


def codes(folder: Path, *steps: str) -> list[str]:
    """The codes found in a small procedure of these steps."""
    path = folder / "marked.yaml"
    path.write_text(FACTS + "".join(steps) + END, "utf-8")
    return [one.code for one in check(path).findings]


def test_a_fact_that_is_only_depended_on_is_used(tmp_path: Path) -> None:
    assert codes(tmp_path, HAND, ALONG, MARK, MEASURE) == []


@pytest.mark.parametrize(
    ("steps", "code"),
    [
        ((HAND, ALONG, MARK, MEASURE.replace("[along]", "[alogn]")), "fact-unknown"),
        ((HAND, ALONG, MARK.replace("[hand]", "[hnad]"), MEASURE), "fact-unknown"),
        ((ALONG, MARK, HAND, MEASURE), "fact-not-known"),
        ((ALONG, MEASURE, HAND, MARK), "fact-not-known"),
        ((HAND, MEASURE, ALONG, MARK), "fact-not-known"),
        ((HAND, ALONG, MARK, MEASURE.replace("[along]", "[along, along]")), "fact-repeated"),
        ((HAND, ALONG, MARK.replace("text:", "cuts: true, text:"), MEASURE), "shape"),
    ],
)
def test_what_is_hidden_or_depended_on_must_be_a_fact_that_is_known_by_then(
    tmp_path: Path, steps: tuple[str, ...], code: str
) -> None:
    assert code in codes(tmp_path, *steps)
