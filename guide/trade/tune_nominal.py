"""What an ordinary door of that leaf, mount and size would do: the adviser's guess before any reading."""

from dataclasses import dataclass
from functools import lru_cache

from guide.trade.swing import Door, close, opening_force
from guide.trade.swing_valves import Valves
from guide.trade.usual_arm import usual_geometry

USUAL_HEIGHT = 2.1
"""[m]"""

USUAL_MASS = 30.0
"""Of a leaf, for each square metre [kg]; common practice."""

_TURNS = 1.25
"""Turns from closed at which the times are taken."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """What is told of the door before the first reading."""

    width: float
    """[m]"""
    mount: str
    height: float = USUAL_HEIGHT
    """[m]"""
    mass: float | None = None
    """[kg]; None for a leaf of usual make."""


@dataclass(frozen=True, slots=True)
class Nominal:
    """The ordinary door at one size."""

    sweep: float
    """Seconds times turns of the part of 90 to 12 deg that the sweep valve has to itself."""
    latch: float
    """Seconds times turns of the last 12 deg."""
    shared: float
    """Seconds that the latch valve takes of 90 to 12 deg for each second it takes of the rest."""
    force: float
    """At the handle [N]."""


@lru_cache(maxsize=256)
def nominal(leaf: Leaf, size: float) -> Nominal:
    """The ordinary door at that EN size: a light latch, a light seal, no air."""
    mass = leaf.width * leaf.height * USUAL_MASS if leaf.mass is None else leaf.mass
    geometry = usual_geometry(leaf.mount)

    def door(latch: float) -> Door:
        valves = Valves(sweep=_TURNS, latch=latch)
        return Door(leaf.width, leaf.height, mass, geometry, size, valves, 0.0, 0.5, 4.0, 0.5)

    one, other = close(door(_TURNS)), close(door(_TURNS / 2))
    if one.s_90_12 is None or other.s_90_12 is None:
        raise ValueError(f"An ordinary door {leaf.width:.2f} m wide does not swing at size {size}.")
    shared = (other.s_90_12 - one.s_90_12) / (other.s_till_stop - one.s_till_stop)
    return Nominal(
        sweep=_TURNS * (one.s_90_12 - shared * one.s_till_stop),
        latch=_TURNS * one.s_till_stop,
        shared=shared,
        force=opening_force(door(_TURNS)),
    )
