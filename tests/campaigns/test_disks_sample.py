"""A sample of the campaign in disks.py; its whole result is kept in disks.txt."""

from tests.campaigns.disks import campaign
from tests.campaigns.test_kept_results import figures


def test_every_seventh_refusal_of_the_disk_is_told_with_its_cause_and_loses_nothing() -> None:
    result = campaign(5, every=7, rooms=2, windows=4, rivals=3, clocks=4)
    assert result.refusals >= 20
    assert result.acknowledged > 100
    assert result.clean, result.text()


def test_the_kept_result_is_of_every_call_and_none_lost() -> None:
    found = figures("disks.txt")
    assert found["calls of the disk refused"] >= 150
    assert found["starts at once"] == 20
    assert (found["jobs continued at once"], found["windows at them"]) == (1, 10)
    assert found["writers of them"] == 1
    wrong = ("lost", "kept twice or against its word", "another cause named", "tracebacks")
    assert [found[one] for one in (*wrong, "not brought to an end")] == [0] * 5
