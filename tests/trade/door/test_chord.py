"""An opening angle on the tape measure."""

from fractions import Fraction

import pytest

from guide.measures import Quantity, parse
from guide.trade.answer import OutOfDomain
from guide.trade.registry import run


def chord(width: str, angle: str) -> object:
    return run("chord", {"width": parse(width), "angle": parse(angle)}).value


@pytest.mark.parametrize(
    ("width", "at_12_deg"),
    # The foreman's table for 12 degrees, chord = 2 W sin(angle/2): common practice. Unrounded
    # 6.690, 7.526, 8.780, 10.035 in; each is the sixteenth at or below.
    [("32 in", "6-11/16 in"), ("36 in", "7-1/2 in"), ("42 in", "8-3/4 in"), ("48 in", "10 in")],
)
def test_12_degrees(width: str, at_12_deg: str) -> None:
    assert chord(width, "12 deg") == parse(at_12_deg)


@pytest.mark.parametrize(
    ("angle", "inches"),
    # An equilateral triangle, and the leaf laid flat: both by hand.
    [("60 deg", 36), ("180 deg", 72)],
)
def test_angles_anyone_can_draw(angle: str, inches: int) -> None:
    assert chord("36 in", angle) == Quantity(Fraction(inches), "in")


@pytest.mark.parametrize(
    ("width", "at_12_deg"),
    # 2 x 915 x 0.104528 is 191.29; 813 and 1,000 mm by the same reckoning 169.96 and 209.06.
    [("915 mm", "191 mm"), ("813 mm", "169 mm"), ("1 m", "209 mm")],
)
def test_a_metric_leaf_gives_millimetres(width: str, at_12_deg: str) -> None:
    assert chord(width, "12 deg") == parse(at_12_deg)
    working = run("chord", {"width": parse(width), "angle": parse("12 deg")}).working[0]
    assert f": {at_12_deg} from the latch edge" in working


def test_a_door_does_not_open_past_flat() -> None:
    with pytest.raises(OutOfDomain, match="1 deg to 180 deg"):
        chord("36 in", "181 deg")
