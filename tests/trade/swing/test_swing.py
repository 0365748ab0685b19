"""The moving door: reference swings worked once by another program, and what a fitter would expect."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from guide.measures import Quantity, parse
from guide.trade.answer import OutOfDomain
from guide.trade.arm.geometry import Geometry
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.registry import find, read_inputs, run
from guide.trade.swing.model import CAUTION, SwingingDoor, close, opening_force, push_open
from guide.trade.swing.valves import LEAF_PORTS, Ports, Valves

# The invented arms the references were worked with; butt hinge, 1-3/4 in leaf.
REGULAR = Geometry("regular", 7.0, 1.125, 11.875, 0.75, 9.5, 8.5, 1.75, 1 / 16, -5 / 16)
TOP_JAMB = Geometry("top-jamb", 6.25, 1.125, 10.625, 0.75, 9.5, 10.3125, 1.75, 1 / 16, -5 / 16, 1.5)
PARALLEL = Geometry("parallel", 9.5, 1.125, 8.5, 3.25, 9.5, 10.0, 1.75, 1 / 16, -5 / 16)
WIDE_PARALLEL = Geometry("parallel", 9.0, 1.125, 7.25, 3.25, 9.5, 10.75, 1.75, 1 / 16, -5 / 16)

CLINIC = SwingingDoor(
    width=0.914,
    height=2.134,
    mass=50.0,
    geometry=REGULAR,
    size=3,
    seal=1.0,
    latch_force=12.0,
    ports=LEAF_PORTS,
)
"""A 36 in clinic door on a regular arm, EN size 3, valves as they leave the works."""


def with_valves(**turns: float) -> SwingingDoor:
    """The clinic door with some valves turned."""
    return replace(CLINIC, valves=replace(Valves(), **turns))


# Seconds from 90 to 12 deg, seconds to shut, m/s at the latch edge: an independent integration of the same
# equations, to four decimals.
@pytest.mark.parametrize(
    ("door", "first", "last", "edge"),
    [
        pytest.param(CLINIC, 5.9266, 1.5007, 0.0931, id="as it leaves the works"),
        pytest.param(with_valves(sweep=1.0), 7.1070, 1.5007, 0.0931, id="sweep a quarter slower"),
        pytest.param(with_valves(sweep=1.5), 5.1324, 1.5007, 0.0931, id="sweep a quarter faster"),
        pytest.param(with_valves(latch=1.0), 6.1073, 1.8720, 0.0765, id="latch a quarter slower"),
        pytest.param(with_valves(latch=1.5), 5.8104, 1.2495, 0.1127, id="latch a quarter faster"),
        pytest.param(with_valves(latch=3.25), 5.5549, 0.5671, 0.2847, id="latch wide open, a slam"),
        pytest.param(replace(CLINIC, pressure=-8.0), 5.9459, 1.6909, 0.0596, id="8 Pa against it"),
        pytest.param(with_valves(delay=0.5), 14.8591, 1.5007, 0.0931, id="delayed action on"),
        pytest.param(replace(CLINIC, geometry=TOP_JAMB), 5.3917, 1.3684, 0.0940, id="top jamb"),
        pytest.param(replace(CLINIC, geometry=PARALLEL), 4.7693, 0.9547, 0.1212, id="parallel"),
        pytest.param(
            replace(CLINIC, geometry=WIDE_PARALLEL, size=4, width=1.067, mass=70.0),
            4.0165,
            0.7607,
            0.2035,
            id="wide leaf on a parallel arm",
        ),
    ],
)
def test_reference_closings(door: SwingingDoor, first: float, last: float, edge: float) -> None:
    swing = close(door)
    assert swing.latched
    assert swing.s_90_12 == pytest.approx(first, rel=1e-3)
    assert swing.s_12_0 == pytest.approx(last, rel=1e-3)
    assert swing.edge_speed == pytest.approx(edge, abs=2e-4)


@pytest.mark.parametrize(
    ("door", "stops"),
    [
        (replace(CLINIC, size=2, pressure=-8.0, latch_force=20.0, seal=3.0), 0.64),
        (replace(CLINIC, size=1, mass=25.0, width=0.762), 0.54),
    ],
)
def test_reference_doors_that_stop_at_the_latch(door: SwingingDoor, stops: float) -> None:
    swing = close(door)
    assert not swing.latched
    assert swing.s_12_0 is None
    assert swing.stopped_at == pytest.approx(stops, abs=0.01)


@pytest.mark.parametrize(
    ("push", "until", "back", "peak"),
    [(60, 60, 1.0, 85.364), (60, 60, 0.5, 76.940), (80, 90, 1.0, 102.705), (120, 60, 2.0, 123.359)],
)
def test_reference_openings(push: float, until: float, back: float, peak: float) -> None:
    """The widest opening, pushed at the handle to an angle and let go."""
    assert push_open(with_valves(back=back), push, until).peak == pytest.approx(peak, abs=0.01)


def test_backcheck_open_too_far_lets_it_hit_the_stop() -> None:
    opened = push_open(with_valves(back=2.0), 80, 90)
    assert opened.peak == 125
    assert opened.stop_speed * CLINIC.width == pytest.approx(0.4932, abs=1e-3)


def test_reference_opening_forces() -> None:
    """N at the handle, 2 3/4 in from the latch edge."""
    assert opening_force(CLINIC) == pytest.approx(35.15, abs=0.02)
    assert opening_force(replace(CLINIC, pressure=-8.0)) == pytest.approx(33.42, abs=0.02)
    assert opening_force(replace(CLINIC, geometry=PARALLEL)) == pytest.approx(25.28, abs=0.02)


def test_valve_zones_turn_with_the_pinion() -> None:
    """On the regular arm both ways of counting agree; on a parallel arm the sweep hands over later."""
    by_pinion = replace(CLINIC, ports=Ports())
    assert close(by_pinion).s_90_12 == pytest.approx(close(CLINIC).s_90_12, rel=2e-3)
    slow_latch = replace(CLINIC, geometry=PARALLEL, valves=Valves(latch=0.5))
    handed_early = close(replace(slow_latch, ports=Ports())).s_90_12
    handed_late = close(slow_latch).s_90_12
    assert handed_early is not None
    assert handed_late is not None
    assert handed_early > handed_late * 1.1


def test_from_ten_degrees_a_door_may_stop_that_latches_from_ninety() -> None:
    """Air of a lift lobby against a light spring: only the run-up carries it over the strike."""
    lobby = replace(
        CLINIC,
        width=1.219,
        mass=90.0,
        geometry=usual_geometry("top-jamb"),
        size=2,
        pressure=-15.0,
        valves=Valves(latch=3.0),
        ports=Ports(),
    )
    assert close(lobby).latched
    assert not close(lobby, 10.0).latched


def test_swing_is_asked_in_any_unit_and_says_that_it_is_a_model() -> None:
    texts = {
        "width": "914 mm",
        "mass": "50 kg",
        "height": "2134 mm",
        "mount": "regular",
        "size": "3",
        "sweep": "1.25",
        "latch": "3.25",
        "latch_force": "12 N",
        "seal": "1 N m",
    }
    answer = run("swing", read_inputs(find("swing"), texts))
    assert isinstance(answer.value, Mapping)
    value = answer.value
    assert value["latched"] is True
    assert value["s_12_0"] == pytest.approx(0.567, abs=0.002)
    assert isinstance(value["open_force"], Quantity)
    assert value["open_force"] > parse("35 N")
    assert answer.cautions[0] == CAUTION
    assert any("slams" in caution for caution in answer.cautions)
    inches = {**texts, "width": "36 in", "mass": "110 lb", "height": "84 in"}
    in_pounds = run("swing", read_inputs(find("swing"), inches)).value
    assert isinstance(in_pounds, Mapping)
    assert str(in_pounds["open_force"]).endswith("lbf")


@pytest.mark.parametrize(
    ("key", "typed", "says"),
    [
        ("latch", "4.5", "latch 4.5 is outside what is worked here: 0 to 4 turns open"),
        ("size", "2.3", "size 2.3 is outside what is worked here: EN sizes 1 to 7, whole or half"),
        ("pressure", "300 Pa", "pressure 300 Pa is outside"),
    ],
)
def test_what_no_closer_has_is_refused(key: str, typed: str, says: str) -> None:
    texts = {
        "width": "36 in",
        "mass": "110 lb",
        "height": "84 in",
        "mount": "parallel",
        "size": "3",
        "sweep": "1",
        "latch": "1",
        key: typed,
    }
    with pytest.raises(OutOfDomain, match=says):
        run("swing", read_inputs(find("swing"), texts))


def test_the_valves_set_the_closing_time_as_widely_as_en_1154_wants() -> None:
    """EN 1154 5.2.6: from 90 degrees 3 s or less and 20 s or more, by the valves alone."""
    quick, slow = (
        close(with_valves(sweep=3.5, latch=3.5)),
        close(with_valves(sweep=0.25, latch=0.25)),
    )
    assert (quick.s_90_12 or 0) + (quick.s_12_0 or 99) <= 3
    assert (slow.s_90_12 or 0) >= 20
