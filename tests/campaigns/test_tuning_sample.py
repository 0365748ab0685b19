"""A sample of the campaign in tuning.py; its whole result is kept in tuning.txt."""

from functools import cache
from pathlib import Path

import pytest

from guide.trade.tuning.readings import MOST_TESTS
from tests.campaigns.tuning import Result, adviser, campaign, doors_of, plain

SEED = 404


@cache
def advised(kind: str) -> Result:
    """Forty doors of a kind, tuned as the program advises."""
    return campaign(doors_of(kind, 40, SEED), adviser, SEED, part_way=True)


@pytest.mark.parametrize("kind", ["ordinary", "hard", "mismatch"])
def test_forty_doors_are_tuned_within_the_caps_and_in_fewer_tests_than_by_the_plain_rule(
    kind: str,
) -> None:
    ours = advised(kind)
    theirs = campaign(doors_of(kind, 40, SEED), plain, SEED, part_way=True)
    assert ours.furthest["sweep"] <= 2
    assert ours.furthest["latch"] <= 2
    assert ours.furthest["spring"] <= 2
    # Forty doors leave the median a test either way; the targets are held on a thousand.
    assert ours.at(0.5) <= 5
    assert ours.at(0.9) <= MOST_TESTS
    assert sum(ours.tests) < sum(theirs.tests)
    assert sum(ours.accepted_wrong.values()) <= 2


def test_a_tester_who_begins_from_90_deg_alone_is_asked_for_more_and_loses_little() -> None:
    told = advised("hard")
    asked = campaign(doors_of("hard", 40, SEED), adviser, SEED, part_way=False)
    assert sum(asked.accepted_wrong.values()) <= 1
    assert sum(asked.tests) <= 1.15 * sum(told.tests)


def test_the_kept_result_is_of_a_thousand_doors_a_set() -> None:
    kept = (Path(__file__).parent / "tuning.txt").read_text("utf-8")
    assert kept.startswith("1000 random doors a set")
    assert all(kind in kept for kind in ("ordinary", "hard", "mismatch"))
