"""A sample of the campaign in strangers.py; its whole result is kept in strangers.txt."""

import sys
from pathlib import Path

import pytest

from tests.campaigns.strangers import campaign
from tests.campaigns.test_kept_results import figures


@pytest.mark.skipif(sys.platform != "linux", reason="it bounds memory and time as Linux does")
def test_six_runs_from_strangers_are_told_in_a_sentence(own_home: Path) -> None:
    result = campaign(7, runs=6, home=own_home)
    assert result.said.total() == result.calls == 30
    assert result.said["refused"] > 7
    assert result.clean, result.text()


def test_the_kept_result_is_of_a_hundred_and_none_raised() -> None:
    found = figures("strangers.txt")
    assert found["hostile runs"] >= 100
    wrong = ("tracebacks", "slower than 2 s", "ended by the system")
    more = ("not one sentence", "signs that steer a terminal")
    assert [found[one] for one in (*wrong, *more)] == [0] * 5
