"""Where the sheet has a chart, the chart wins (common practice)."""

from dataclasses import replace

import pytest

from guide.measures import parse
from guide.trade.answer import Answer, NoAnswer
from guide.trade.computation import Given
from guide.trade.registry import run
from guide.trade.sheet.sheet import Sheet
from tests.trade.harbour_closer import CHART_BY_MOUNT, CHART_FOR_ALL


def worked(sheet: Sheet, width: str, **others: Given) -> Answer:
    return run("spring-size", {"sheet": sheet, "width": parse(width), **others})


@pytest.fixture
def by_mount(harbour: Sheet) -> Sheet:
    return replace(harbour, chart=CHART_BY_MOUNT)


def test_a_chart_by_mount_wins_and_nothing_is_added_for_the_mount(by_mount: Sheet) -> None:
    # EN 1154 alone: 36 in is size 3, one up for the parallel arm.
    answer = worked(by_mount, "34 in", mount="parallel")
    assert answer.value == 3
    assert answer.working == (
        "Leaf 34 in wide on a parallel arm: EN size 3 by the chart of harbour-school.",
    )
    assert worked(by_mount, "34 1/16 in", mount="parallel").value == 4
    assert worked(by_mount, "36 in", mount="regular").value == 3


def test_wind_still_adds_to_a_chart_by_mount(by_mount: Sheet) -> None:
    answer = worked(by_mount, "36 in", mount="parallel", exterior=True)
    assert answer.value == 5
    assert answer.working[1] == "One size up for an exterior door: EN size 5."


def test_a_chart_that_does_not_tell_mounts_apart_leaves_the_parallel_arm_to_be_added(
    harbour: Sheet,
) -> None:
    for_all = replace(harbour, chart=CHART_FOR_ALL)
    assert worked(for_all, "900 mm", mount="regular").value == 3
    assert worked(for_all, "900 mm", mount="parallel").value == 4


def test_a_chart_read_without_a_mount_says_so(by_mount: Sheet) -> None:
    answer = worked(by_mount, "36 in")
    assert answer.value == 3
    assert "No mount was given: the chart was read for a regular arm." in answer.cautions


@pytest.mark.parametrize(
    ("width", "mount", "says"),
    [
        ("48 1/16 in", "regular", "ends at a leaf of 48 in, and this one is 48 1/16 in"),
        ("42 in", "parallel", "ends at a leaf of 38 in"),
        ("30 in", "top-jamb", "has no line for a top jamb"),
    ],
)
def test_past_the_chart_there_is_no_answer(
    by_mount: Sheet, width: str, mount: str, says: str
) -> None:
    with pytest.raises(NoAnswer, match=says):
        worked(by_mount, width, mount=mount)


def test_a_heavy_leaf_is_questioned_and_not_worked_past_the_chart(by_mount: Sheet) -> None:
    answer = worked(by_mount, "36 in", mount="regular", mass=parse("95 kg"))
    assert answer.value == 3
    assert any("a leaf of 95 kg at EN size 5" in caution for caution in answer.cautions)


def test_a_sheet_without_a_chart_leaves_the_table_and_warns_past_its_own_sizes(
    harbour: Sheet,
) -> None:
    assert worked(harbour, "36 in").value == 3
    answer = worked(harbour, "54 in")
    assert answer.value == 6
    assert any("has EN sizes 2 to 5: it cannot be set to 6" in line for line in answer.cautions)
