"""A sample of the campaign in kills.py, and the whole results that are kept: line by line and in the app."""

from pathlib import Path

import pytest

from tests.campaigns.kills import campaign


def test_five_kills_lose_nothing(tmp_path: Path) -> None:
    result = campaign(seed=11, kills=5, home=tmp_path)
    assert (result.kills, result.lost, result.damaged, result.faults) == (5, 0, 0, [])


@pytest.mark.parametrize(("kept", "kills"), [("kills.txt", 700), ("kills_app.txt", 300)])
def test_the_kept_results_are_of_a_thousand_kills_and_none_lost(kept: str, kills: int) -> None:
    lines = (Path(__file__).parent / kept).read_text("utf-8").splitlines()
    figures = dict(line.rsplit(" ", 1) for line in lines)
    assert int(figures["kills"]) == kills
    assert int(figures["acknowledged"]) > 3 * kills
    assert (figures["lost"], figures["chains broken"]) == ("0", "0")
