"""Twelve closers worked out once by another program, to six decimals: positions, angles, ratio, lock.

Main arm 9 1/2 in, pinion 1 1/8 in out, leaf 1 3/4 in thick, frame in line with the leaf. The closers are
invented; the numbers come from an independent numerical solution, not from this code.
"""

import pytest

from guide.trade.arm.geometry import Arm, Geometry
from guide.trade.door.hinges import pivot_offset


def closer(
    mount: str,
    places: tuple[float, float, float],
    forearm: float,
    stop_depth: float = 0.0,
    hinge: str = "butt",
) -> Geometry:
    """A closer by pinion along, shoe along, shoe out, all in inches."""
    pinion, shoe, out = places
    offset = pivot_offset(hinge)
    return Geometry(
        mount=mount,
        pinion_along=pinion,
        pinion_out=1.125,
        shoe_along=shoe,
        shoe_out=out,
        main_arm=9.5,
        forearm=forearm,
        thickness=1.75,
        edge_offset=float(offset.edge),
        face_offset=float(offset.face),
        stop_depth=stop_depth,
    )


CLOSERS = {
    "regular to 100": closer("regular", (7.5, 13, 0.75), 8.125),
    "regular to 130": closer("regular", (7, 11.875, 0.75), 8.5),
    "regular to 180": closer("regular", (5.5, 9.5, 0.75), 9),
    "top jamb to 100": closer("top-jamb", (7, 12, 0.75), 8.4375),
    "top jamb to 130, stop 1 1/2": closer("top-jamb", (6.25, 10.625, 0.75), 10.3125, 1.5),
    "top jamb to 180, stop 3": closer("top-jamb", (5, 8.75, 0.75), 12.125, 3),
    "parallel to 100": closer("parallel", (9.5, 9.5, 3.25), 9),
    "parallel to 130": closer("parallel", (9.5, 8.5, 3.25), 10),
    "parallel to 180": closer("parallel", (9, 7.25, 3.25), 10.75),
    "regular on offset pivots": closer("regular", (7, 11.875, 0.75), 8.5, hinge="offset-pivot"),
    "parallel on centre pivots": closer("parallel", (9.5, 8.5, 3.25), 10, hinge="centre-pivot"),
}

EXPECTED = [
    ("regular to 100", 0, 12.994318, 8.562498, 54.665477, 0.000000, 2.363805),
    ("regular to 100", 45, 13.854703, 8.517420, -28.867947, 83.533425, 1.464242),
    ("regular to 100", 90, 8.685842, 7.322532, -91.070395, 145.735872, 1.414077),
    ("regular to 130", 0, 11.923066, 8.937364, 58.787238, 0.000000, 2.434331),
    ("regular to 130", 45, 13.285346, 8.819679, -24.703096, 83.490334, 1.412384),
    ("regular to 130", 90, 8.600666, 8.281526, -82.247312, 141.034549, 1.212051),
    ("regular to 180", 0, 9.482420, 9.437483, 65.215775, 0.000000, 2.375649),
    ("regular to 180", 45, 11.548983, 9.201156, -15.086704, 80.302479, 1.318651),
    ("regular to 180", 90, 7.897173, 9.293625, -66.463767, 131.679542, 1.019467),
    ("top jamb to 100", 0, 12.024607, -11.249964, -58.068435, 0.000000, 2.397835),
    ("top jamb to 100", 45, 15.928121, 0.058828, 19.981626, 78.050061, 1.368158),
    ("top jamb to 100", 90, 8.870116, 6.126611, 78.646933, 136.715368, 1.323492),
    ("top jamb to 130, stop 1 1/2", 0, 10.615623, -13.124996, -62.642618, 0.000000, 2.430103),
    ("top jamb to 130, stop 1 1/2", 45, 15.564239, -2.818021, 11.349148, 73.991766, 1.266425),
    ("top jamb to 130, stop 1 1/2", 90, 10.535455, 3.790995, 63.185687, 125.828304, 1.068708),
    ("top jamb to 180, stop 3", 0, 8.699907, -14.937397, -67.078855, 0.000000, 2.345152),
    ("top jamb to 180, stop 3", 45, 14.499913, -6.146735, 0.245863, 67.324718, 1.127833),
    ("top jamb to 180, stop 3", 90, 11.721838, 0.525688, 44.963107, 112.041963, 0.878316),
    ("parallel to 100", 0, 18.430793, -6.426471, -19.934415, 0.000000, 1.942367),
    ("parallel to 100", 45, 17.088078, -0.472968, -76.308103, 56.373688, 1.124410),
    ("parallel to 100", 90, 10.644697, 3.614407, -128.282267, 108.347852, 1.239812),
    ("parallel to 130", 0, 18.440841, -6.398631, -19.755910, 0.000000, 1.962079),
    ("parallel to 130", 45, 17.171816, -0.332580, -75.322211, 55.566301, 1.072418),
    ("parallel to 130", 90, 11.156366, 4.328232, -122.983438, 103.227528, 1.060668),
    ("parallel to 180", 0, 17.946616, -6.382507, -19.652615, 0.000000, 1.994414),
    ("parallel to 180", 45, 16.891638, -0.558417, -74.433851, 54.781236, 1.015915),
    ("parallel to 180", 90, 11.570690, 4.530982, -118.061755, 98.409140, 0.926248),
    ("regular on offset pivots", 0, 11.923066, 8.499864, 58.787238, 0.000000, 2.434838),
    ("regular on offset pivots", 45, 13.666584, 8.309045, -25.992122, 84.779360, 1.428168),
    ("regular on offset pivots", 90, 9.069680, 8.023726, -83.813757, 142.600995, 1.211413),
    ("parallel on centre pivots", 0, 18.440841, -5.211131, -19.755910, 0.000000, 1.430583),
    ("parallel on centre pivots", 45, 16.809824, 1.437987, -69.008686, 49.252776, 1.014518),
    ("parallel on centre pivots", 90, 10.678188, 5.634892, -114.007325, 94.251416, 0.987403),
]

LOCKS = [
    ("regular to 100", 111.260872, "stretched"),
    ("regular to 130", 138.136778, "stretched"),
    ("top jamb to 100", 114.424593, "stretched"),
    ("top jamb to 180, stop 3", 311.193606, "folded"),
    ("parallel to 100", 113.774141, "stretched"),
    ("parallel to 130", 139.781851, "stretched"),
    ("parallel to 180", 336.353005, "folded"),
    ("regular on offset pivots", 140.439831, "stretched"),
    ("parallel on centre pivots", 343.447115, "folded"),
]


@pytest.mark.parametrize("row", EXPECTED, ids=lambda row: f"{row[0]} open {row[1]}")
def test_the_arm_at_three_openings(
    row: tuple[str, int, float, float, float, float, float],
) -> None:
    name, deg, *numbers = row
    at = Arm(CLOSERS[name]).at(deg)
    assert at is not None
    found = [*at.elbow, at.arm_deg, at.turn_deg, at.ratio]
    assert found == pytest.approx(numbers, abs=1e-6)


@pytest.mark.parametrize(("name", "deg", "how"), LOCKS)
def test_where_it_locks(name: str, deg: float, how: str) -> None:
    lock = Arm(CLOSERS[name]).lock()
    assert lock is not None
    assert lock.deg == pytest.approx(deg, abs=1e-6)
    assert lock.how == how


@pytest.mark.parametrize("name", ["regular to 180", "top jamb to 130, stop 1 1/2"])
def test_an_arm_that_never_locks(name: str) -> None:
    assert Arm(CLOSERS[name]).lock() is None


def test_swing_clear_hinges_turn_a_top_jamb_as_butts_do() -> None:
    """Their pins stand as far in front of the leaf; only the edge is elsewhere."""
    on_butts = CLOSERS["top jamb to 130, stop 1 1/2"]
    swing_clear = closer("top-jamb", (6.25, 10.625, 0.75), 10.3125, 1.5, "swing-clear")
    assert swing_clear.edge_offset == 2.1875
    assert Arm(swing_clear).at(73) == Arm(on_butts).at(73)


def test_the_ratio_of_a_square_forearm_is_the_lever_rule() -> None:
    """Forearm square to the frame: shoe from the hinge over shoe from the pinion, 9 1/2 over 4."""
    square = closer("regular", (5.5, 9.5, 0.75), (9.5**2 - 4**2) ** 0.5 + 1.125 - 0.75)
    at = Arm(square).at(0)
    assert at is not None
    assert at.ratio == pytest.approx(9.5 / 4, rel=1e-12)
