"""A sample of the campaign in every_call.py; its whole result is kept in every_call.txt."""

from pathlib import Path

from tests.campaigns.every_call import Result, cut_at_each, kill_at_each


def test_a_kill_at_every_seventh_call_of_the_disk_loses_nothing() -> None:
    result = Result()
    kill_at_each(result, every=7)
    assert result.kills >= 15
    assert result.clean, result.text()


def test_the_last_line_cut_off_at_every_byte_leaves_the_lines_before_it() -> None:
    result = Result()
    cut_at_each(result)
    assert result.cuts > 200
    assert result.clean, result.text()


def test_the_kept_result_is_of_every_call_and_none_lost() -> None:
    kept = (Path(__file__).parent / "every_call.txt").read_text("utf-8").splitlines()
    figures = dict(line.rsplit(" ", 1) for line in kept)
    assert int(figures["kills"]) >= 100
    wrong = ("lost", "not an earlier state", "not gone on with")
    assert [figures[one] for one in wrong] == ["0", "0", "0"]
