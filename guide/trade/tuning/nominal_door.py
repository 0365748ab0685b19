"""What an ordinary door of that leaf, mount and size would do: the adviser's guess before any reading.

The sweep valve's law t = K / (x + leak) is fitted through two settings x [turns] of the swing model.
"""

from dataclasses import dataclass
from functools import lru_cache

from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SwingingDoor, close, opening_force
from guide.trade.swing.valves import Valves

USUAL_HEIGHT = 2.1
"""[m]"""

USUAL_MASS = 30.0
"""Of a leaf, for each square metre [kg]; common practice."""

_TURNS = 1.25
"""Turns from closed at which the times are calculated."""

_SLOW, _FAST = 0.6, 2.0
"""Turns of the sweep valve between which its law is drawn."""

_LEAK = 0.05
"""A closed valve leaks as if it were this far open [turns]."""


@dataclass(frozen=True, slots=True)
class NominalLeaf:
    """What is known of the leaf before the first reading."""

    width: float
    """[m]"""
    mount: str
    height: float = USUAL_HEIGHT
    """[m]"""
    mass: float | None = None
    """[kg]; None for a leaf of usual make."""


def leaf_mass(leaf: NominalLeaf) -> float:
    """As given, else that of a leaf of usual make [kg]."""
    return leaf.width * leaf.height * USUAL_MASS if leaf.mass is None else leaf.mass


@dataclass(frozen=True, slots=True)
class Nominal:
    """The ordinary door at one size."""

    sweep: float
    """Seconds times turns of the part of 90 to 12 deg that the sweep valve has to itself."""
    free: float
    """Seconds of 90 to 12 deg that no valve has a say in: setting the leaf going."""
    latch: float
    """Seconds times turns of the last 12 deg."""
    shared: float
    """The latch valve's part of 90 to 12 deg [s] for each second of the last 12 deg."""
    force: float
    """At the handle [N]."""


@lru_cache(maxsize=4096)
def nominal(leaf: NominalLeaf, size: float) -> Nominal:
    """The ordinary door at that EN size: a light latch, a light seal, no air."""

    def door(latch: float, sweep: float = _TURNS) -> SwingingDoor:
        return _ordinary(leaf, size, Valves(sweep=sweep, latch=latch))

    one, other = close(door(_TURNS)), close(door(_TURNS / 2))
    slow, fast = (close(door(_TURNS, turns)).s_90_12 for turns in (_SLOW, _FAST))
    if one.s_90_12 is None or other.s_90_12 is None or slow is None or fast is None:
        raise ValueError(f"An ordinary door {leaf.width:.2f} m wide does not swing at size {size}.")
    shared = (other.s_90_12 - one.s_90_12) / (other.s_till_stop - one.s_till_stop)
    sweep = (slow - fast) / (1 / (_SLOW + _LEAK) - 1 / (_FAST + _LEAK))
    return Nominal(
        sweep=sweep,
        free=max(0.0, slow - sweep / (_SLOW + _LEAK) - shared * one.s_till_stop),
        latch=_TURNS * one.s_till_stop,
        shared=shared,
        force=nominal_force(leaf, size),
    )


def nominal_force(leaf: NominalLeaf, size: float) -> float:
    """What the ordinary door takes to open at that EN size, at the handle [N]."""
    return opening_force(_ordinary(leaf, size, Valves(sweep=_TURNS, latch=_TURNS)))


def _ordinary(leaf: NominalLeaf, size: float, valves: Valves) -> SwingingDoor:
    return SwingingDoor(
        leaf.width,
        leaf.height,
        leaf_mass(leaf),
        usual_geometry(leaf.mount),
        size,
        valves,
        0.0,
        0.5,
        4.0,
        0.5,
    )
