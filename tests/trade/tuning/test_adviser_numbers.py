"""Doors whose advice turns on one number of the adviser: each becomes another if that number is 30 percent greater or
smaller."""

import pytest

from tests.trade.tuning.test_tune_next import asked, part

DONE = "Turn nothing more: all readings are within limits."
SHORT = "short,6 s,,4.2 lbf"

DOORS: tuple[tuple[str, tuple[str, ...], dict[str, str], str], ...] = (
    (
        "USUAL_COUNTS: two slams timed alike do not yet make a steady hand",
        ("slams,6.2 s,0.6 s,5.4 lbf", "slams,5.8 s,0.6 s,4.2 lbf"),
        {},
        (
            "Sweep valve: an eighth of a turn faster, as its label says. "
            "Latch valve: half a turn slower, as its label says."
        ),
    ),
    (
        "GUARD: 5.5 s after 6 s is far enough from the shortest time",
        ("latches,6 s,2.5 s,4.2 lbf", "latches,5.5 s,2.0 s,4.2 lbf"),
        {},
        DONE,
    ),
    (
        "GUARD and MIDDLE: 5.7 s, of which the last 12 degrees take 4, is not",
        ("latches,5.7 s,4.0 s,4.2 lbf",),
        {"size": "2"},
        (
            "Sweep valve: half a turn slower, as its label says. "
            "Latch valve: half a turn faster, as its label says."
        ),
    ),
    (
        "EDGE: 5.4 s is not at the edge",
        ("latches,5.9 s,3.7 s,", "latches,5.4 s,3.5 s,4.2 lbf"),
        {"size": "4"},
        DONE,
    ),
    (
        "EDGE: 6.7 s is at the edge of 7",
        ("latches,6.9 s,1.0 s,4.8 lbf", "latches,6.7 s,0.3 s,4.8 lbf"),
        {"size": "2", "width": "42 in"},
        "Sweep valve: an eighth of a turn faster, as its label says.",
    ),
    (
        "MIDDLE: 5.8 s is near enough to 6 whatever is expected",
        ("latches,5.8 s,1.5 s,4.2 lbf",),
        {"size": "2"},
        DONE,
    ),
    (
        "OTHER: of 5 s the latch valve may have had its share",
        ("latches,5.0 s,3.0 s,4.2 lbf",),
        {"size": "2"},
        "Sweep valve: half a turn slower, as its label says.",
    ),
    (
        "STUBBORN: short of the latch three times, it is still the valve",
        (SHORT,) * 3,
        {"size": "2", "exterior": "yes"},
        "Latch valve: half a turn faster, as its label says.",
    ),
    (
        "STUBBORN: and the fourth time the spring",
        (SHORT,) * 4,
        {"size": "2", "exterior": "yes"},
        "Spring screw: half an EN size stronger, as its label says.",
    ),
    (
        "SLOW_LATCH: a last 12 degrees of 3.2 s is quickened",
        ("latches,7.4 s,3.2 s,4.2 lbf",),
        {},
        (
            "Sweep valve: an eighth of a turn faster, as its label says. "
            "Latch valve: half a turn faster, as its label says."
        ),
    ),
    (
        "SLOW_LATCH: one of 2.4 s is left alone",
        ("latches,7.4 s,2.4 s,4.2 lbf",),
        {},
        "Sweep valve: three eighths of a turn faster, as its label says.",
    ),
    (
        "OPENED_LAST: the sweep valve is set for what the last 12 degrees will take",
        ("latches,7.4 s,3.3 s,4.2 lbf",),
        {},
        (
            "Sweep valve: an eighth of a turn faster, as its label says. "
            "Latch valve: half a turn faster, as its label says."
        ),
    ),
)


@pytest.mark.parametrize(
    ("lines", "door", "turn"), [row[1:] for row in DOORS], ids=[row[0] for row in DOORS]
)
def test_the_advice_at_a_number(lines: tuple[str, ...], door: dict[str, str], turn: str) -> None:
    assert part(asked(*lines, sheet=None, **door), "turn") == turn
