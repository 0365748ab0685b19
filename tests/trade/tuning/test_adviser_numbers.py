"""Each number of the tuning adviser, by a door whose advice would be another with the number 30 % off.

The doors and readings are invented, as a person with a watch and a gauge would read them. "larger" and "smaller" say
which way the number must be off for that door to notice; without either, both ways. Where an advice here changes, ask
first whether the new one is what a foreman would turn.
"""

import pytest

from guide.trade.answer import BadInput
from guide.trade.registry import find, read_inputs
from guide.trade.tuning.nominal_door import NominalLeaf
from guide.trade.tuning.opening_force import Forces
from guide.trade.tuning.readings import Advice
from guide.trade.tuning.sweep_aim import sweep_aim
from guide.trade.tuning.tune import begin, read_line


def last_advice(door: dict[str, str], lines: list[str]) -> Advice:
    """What comes of the last of these tests, each written as `tune` reads it."""
    adviser = begin(read_inputs(find("tune"), door))
    return [adviser.next(read_line(line)) for line in lines][-1]


def in_short(advice: Advice) -> str:
    """Part, way and quarter turns or half sizes of each move; without any, the end or what to test again."""
    moves = (f"{move.part} {move.direction} {move.steps:g}" for move in advice.moves)
    return ", ".join(moves) or advice.outcome or f"{advice.again} again"


@pytest.mark.parametrize(
    ("door", "lines", "told"),
    [
        pytest.param(
            {
                "width": "48 in",
                "mount": "parallel",
                "size": "3",
                "limit": "5 lbf",
                "height": "84 in",
            },
            ["5.4,-,no,no,5.2 lbf,yes"],
            "spring weaker 1",
            id="GAUGE larger",
        ),
        pytest.param(
            {
                "width": "32 in",
                "mount": "top-jamb",
                "size": "1",
                "limit": "5 lbf",
                "height": "80 in",
            },
            ["6.4,-,no,no,5.1 lbf,yes", "6.9,1.6,yes,no,5.1 lbf,yes"],
            "force again",
            id="GAUGE smaller",
        ),
        pytest.param(
            {"width": "38 in", "mount": "parallel", "size": "1", "limit": "5 lbf"},
            [
                "3.7,-,no,no,2.7 lbf,yes",
                "4.3,-,no,no,2.8 lbf,yes",
                "3.4,-,no,no,4.0 lbf,yes",
                "4.5,0.5,no,no,4.0 lbf,yes",
            ],
            "sweep slower 1.5, latch faster 2",
            id="_SHARE_SPREAD larger",
        ),
        pytest.param(
            {
                "width": "30 in",
                "mount": "top-jamb",
                "size": "3",
                "limit": "5 lbf",
                "height": "80 in",
            },
            ["3.9,-,no,no,8.2 lbf,yes", "4.9,-,no,no,5.9 lbf,yes"],
            "spring weaker 2",
            id="_SHARE_SPREAD smaller",
        ),
        pytest.param(
            {
                "width": "30 in",
                "mount": "top-jamb",
                "size": "3",
                "limit": "5 lbf",
                "height": "80 in",
            },
            ["3.9,-,no,no,8.2 lbf,yes", "4.9,-,no,no,5.9 lbf,yes"],
            "spring weaker 2",
            id="_ADDED_SPREAD larger",
        ),
        pytest.param(
            {
                "width": "34 in",
                "mount": "regular",
                "size": "2",
                "limit": "5 lbf",
                "height": "84 in",
                "mass": "42 kg",
            },
            ["8.4,-,no,no,5.8 lbf,no"],
            "spring weaker 1",
            id="_ADDED_SPREAD smaller",
        ),
        pytest.param(
            {"width": "48 in", "mount": "regular", "size": "5", "limit": "5 lbf"},
            [
                "3.4,0.7,yes,yes,10.8 lbf,no",
                "3.9,1.3,yes,no,8.1 lbf,yes",
                "5.1,1.7,yes,no,5.6 lbf,yes",
            ],
            "spring weaker 2",
            id="_GAUGE_ERROR larger",
        ),
        pytest.param(
            {"width": "38 in", "mount": "regular", "size": "4", "limit": "5 lbf"},
            [
                "4.7,0.7,yes,no,11.5 lbf,yes",
                "5.2,1.4,yes,no,8.1 lbf,yes",
                "7.1,0.5,yes,no,5.7 lbf,yes",
            ],
            "spring weaker 2",
            id="_GAUGE_ERROR smaller",
        ),
    ],
)
def test_the_advice_that_each_number_gives(
    door: dict[str, str], lines: list[str], told: str
) -> None:
    assert in_short(last_advice(door, lines)) == told


def test_ten_minutes_are_the_longest_a_watch_is_believed() -> None:
    """A leaf left to creep home in the cold may take minutes; more than ten is a slip of the pen."""
    assert read_line("600,1.5,yes,no").s_90_12 == 600.0
    with pytest.raises(BadInput, match="601 s is not the time of a swing"):
        read_line("601,1.5,yes,no")


def test_a_leaf_that_any_finger_opens_does_not_stop_the_estimate() -> None:
    """A gauge that reads nothing leaves the error of the gauge above nothing."""
    forces = Forces(NominalLeaf(width=0.914, mount="regular"), 22.24, (1.0, 6.0))
    forces.add(1.0, 0.0)
    assert forces.expect(1.0) < 1.0


def test_where_the_rest_takes_all_the_time_the_sweep_valve_still_gets_some() -> None:
    """Three tenths of the 6 s [s]."""
    assert sweep_aim(4.3) == pytest.approx(1.8)
    assert sweep_aim(20.0) == pytest.approx(1.8)
    assert sweep_aim(4.1) == pytest.approx(1.9)
