"""A sample of the campaign in kills.py; its whole result is kept in kills.txt."""

from pathlib import Path

from tests.campaigns.kills import campaign


def test_five_kills_lose_nothing(tmp_path: Path) -> None:
    result = campaign(seed=11, kills=5, home=tmp_path)
    assert (result.kills, result.lost, result.damaged, result.faults) == (5, 0, 0, [])


def test_the_kept_result_is_of_sixty_kills_and_none_lost() -> None:
    kept = (Path(__file__).parent / "kills.txt").read_text("utf-8").splitlines()
    figures = dict(line.rsplit(" ", 1) for line in kept)
    assert int(figures["kills"]) >= 60
    assert int(figures["acknowledged"]) > 1000
    assert (figures["lost"], figures["chains broken"]) == ("0", "0")
