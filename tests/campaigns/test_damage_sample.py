"""A sample of the campaign in damage.py; its whole result is kept in damage.txt."""

from pathlib import Path

import pytest

from tests.campaigns.damage import campaign


@pytest.mark.parametrize("seed", [3, 4])
def test_forty_damages_pass_for_nothing_that_was_written(own_home: Path, seed: int) -> None:
    result = campaign(seed, flips=30, cuts=10, home=own_home)
    assert result.said.total() == 40
    assert result.clean, result.text()


def test_the_kept_result_is_of_thousands_and_none_passed() -> None:
    kept = (Path(__file__).parent / "damage.txt").read_text("utf-8").splitlines()
    figures = dict(line.rsplit(" ", 1) for line in kept)
    assert int(figures["damages"]) >= 5_500
    assert int(figures["altered events passed"]) == 0
    assert int(figures["gone on with in silence"]) == 0
    assert int(figures["removed and not kept"]) == 0
    assert not any(line.startswith("fault") for line in kept)
