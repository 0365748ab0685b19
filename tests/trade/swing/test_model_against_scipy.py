"""The moving door against SciPy's integrator, on 60 random doors, closers and states."""

import random

import pytest

from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SwingingDoor, close
from guide.trade.swing.path import path
from guide.trade.swing.valves import LEAF_PORTS, Ports, Valves
from tests.trade.swing.moving_door import solve_closing

SEED = 7


def random_door(rng: random.Random) -> SwingingDoor:
    """A leaf from light to heavy, every mount, size and valve, with air, seal, latch and hinges."""
    width, height = rng.uniform(0.7, 1.25), rng.uniform(1.95, 2.6)
    return SwingingDoor(
        width=width,
        height=height,
        mass=width * height * rng.uniform(15, 50),
        geometry=usual_geometry(rng.choice(("regular", "top-jamb", "parallel"))),
        size=rng.randint(2, 12) / 2,
        valves=Valves(
            rng.uniform(0.3, 4), rng.uniform(0.3, 4), delay=rng.choice((None, None, 0.4, 1.5))
        ),
        pressure=-rng.uniform(-10, 15),
        seal=rng.uniform(0, 5),
        latch_force=rng.uniform(0, 25),
        hinge_drag=rng.uniform(0, 2),
        ports=rng.choice((Ports(), LEAF_PORTS)),
    )


def test_times_and_edge_speed_agree_within_one_percent() -> None:
    rng, stalled = random.Random(SEED), 0
    for _ in range(60):
        door = random_door(rng)
        ours, theirs = close(door), solve_closing(door)
        assert ours.latched == (theirs.s_12_0 is not None), door
        pairs = ((ours.s_90_12, theirs.s_90_12), (ours.s_12_0, theirs.s_12_0))
        for seconds, solved in pairs:
            assert (seconds is None) == (solved is None), door
            assert (seconds or 0.0) == pytest.approx(solved or 0.0, rel=0.01), door
        assert ours.edge_speed == pytest.approx(theirs.edge_speed, rel=0.01), door
        assert ours.stopped_at == pytest.approx(theirs.stopped_at, abs=0.02), door
        stalled += not ours.latched
    assert stalled > 3, "too few of the doors stop on the way to say anything about them"


def test_an_opening_and_a_closing_cross_a_few_hundred_pieces() -> None:
    """The work of a swing is bounded by its pieces, whatever the door and however slowly it moves."""
    door = random_door(random.Random(SEED))
    assert len(path(door.geometry, door.width, 90.0)) < 250
    assert len(path(door.geometry, door.width, 125.0)) < 320
