"""The last degrees as a sum, held against the swing itself."""

import random
from statistics import median

import pytest

from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SwingingDoor, close, opening_force
from guide.trade.swing.valves import Valves
from guide.trade.tuning.last_degrees import (
    ClosingEnd,
    Loads,
    air_by_force,
    force_with,
    last_degrees,
)
from guide.trade.tuning.nominal_door import NominalLeaf

LOBBY = NominalLeaf(width=0.914, mount="regular", height=2.134, mass=60.0)
"""A 36 in leaf to a lift lobby."""


def lobby_door(valves: Valves, acts: Loads, size: float = 2.0) -> SwingingDoor:
    assert LOBBY.mass is not None
    geometry = usual_geometry(LOBBY.mount)
    return SwingingDoor(
        LOBBY.width,
        LOBBY.height,
        LOBBY.mass,
        geometry,
        size,
        valves,
        pressure=-acts.air,
        seal=acts.seal,
        latch_force=acts.latch,
        hinge_drag=acts.hinge,
    )


def test_it_says_as_the_swing_does_whether_a_door_latches_from_wide_and_from_near() -> None:
    rng = random.Random(5)
    differ, seconds = 0, []
    for _ in range(150):
        acts = Loads(rng.uniform(0, 1), rng.uniform(-12, 25), rng.uniform(0, 6), rng.uniform(4, 30))
        valves, size = Valves(latch=rng.uniform(0.4, 3)), rng.choice((1.0, 2.0, 3.5))
        door = lobby_door(valves, acts, size)
        wide, near = close(door), close(door, 10.0)
        seen = last_degrees(LOBBY, size, valves.latch_area()).shut(acts)
        both = wide.latched and near.latched
        differ += (seen.latches, seen.near) != (wide.latched, both)
        if seen.latches and wide.s_12_0 is not None:
            seconds.append(abs(seen.seconds / wide.s_12_0 - 1))
    # Only a door on the verge of stopping may be told differently.
    assert differ <= 3
    assert median(seconds) < 0.03


def test_a_leaf_may_latch_by_its_speed_from_wide_and_stop_short_from_near() -> None:
    """What a reading from 90 degrees alone does not tell."""
    acts = Loads(hinge=0.5, air=22.0, seal=0.1, latch=29.0)
    valves = Valves(latch=2.93, latch_gain=1.54)
    assert last_degrees(LOBBY, 2.0, valves.latch_area()).shut(acts)[:2] == (True, False)


def test_air_against_the_leaf_slows_it_and_a_little_more_stops_it() -> None:
    with_air = [
        last_degrees(LOBBY, 2.0, 1.0).shut(Loads(0.5, air, 1.0, 10.0)) for air in (-10.0, 0.0, 27.0)
    ]
    assert with_air[0].edge > with_air[1].edge > 0
    assert with_air[2] == ClosingEnd(False, False, with_air[2].seconds, 0.0)


def test_the_force_to_open_is_the_swings_and_tells_the_air() -> None:
    acts = Loads(hinge=0.5, air=14.0, seal=2.0, latch=20.0)
    force = force_with(LOBBY, 3.0, acts)
    assert force == pytest.approx(opening_force(lobby_door(Valves(), acts, 3.0)), rel=0.005)
    assert air_by_force(LOBBY, 3.0, force, hinge=0.5, seal=2.0) == pytest.approx(14.0, abs=0.01)
