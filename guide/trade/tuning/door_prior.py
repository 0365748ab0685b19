"""The prior of the particle filter (`possible_doors`): what a door is likely to be before it is tested.

What presses on a leaf near shut is hidden from a fitter: air, seal, latch, hinges, and how far the latch valve was
open. Each is drawn from a uniform distribution over its range, the gain of the valve from a log-normal one. The ranges
are ours; no real closer was measured.
"""

import math
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from guide.trade.mounts import MOUNTS
from guide.trade.swing.valves import MOST_TURNS
from guide.trade.tuning.last_degrees import ClosingEnd, Loads, air_by_force, last_degrees
from guide.trade.tuning.nominal_door import NominalLeaf

HINGE, AIR, SEAL, LATCH = (0.0, 1.2), (-14.0, 27.0), (0.0, 6.5), (2.0, 32.0)
"""Ranges [N m, Pa, N m, N]."""

OPEN = (0.3, 3.2)
"""Turns a latch valve is found open."""

GAIN_SPREAD = 0.3
"""Of the logarithm of how much wider than usual it opens for each turn."""

CURVE = (0.65, 1.55)
"""How it opens: above 1 late, below early."""

FORCE_ERROR = 0.02
"""Of the gauge and of the assumed spring together, as a share."""

FROM_90_ALONE = 0.5
"""Chance, before any test, that the tester lets the leaf go from 90 deg alone."""

TOLD_RIGHT = 0.85
"""Chance that the mount is the one that was entered."""

_TRIES = 12
"""Draws until the force fits."""

_STEP = 0.5
"""Standard deviation of a Metropolis proposal, as a share of that of the resampled doors."""


class PossibleDoor(NamedTuple):
    """One particle: a door that the one being tuned may be."""

    leaf: NominalLeaf
    """With the mount it may be on: the one that was entered may be wrong."""
    part_way: bool
    """Whether the tester lets it go from part way too."""
    acts: Loads
    open: float
    """Turns the latch valve stood open at first."""
    gain: float
    """Logarithm of how much wider than usual it opens for each turn."""
    curve: float

    def shut(self, size: float, at: float) -> ClosingEnd:
        """How it closes at that EN size, the latch valve `at` turns from where it stood at first."""
        turns = min(MOST_TURNS, max(0.0, self.open + at))
        area = 0.04 + 0.96 * math.exp(self.gain) * math.pow(turns / 1.25, self.curve)
        return last_degrees(self.leaf, size, area).shut(self.acts)

    def log_met(self) -> float:
        """Logarithm of the prior density, but for a constant; the uniform parts are constant."""
        return -(self.gain**2) / (2 * GAIN_SPREAD**2)


@dataclass(frozen=True, slots=True)
class MeasuredForce:
    """A force that opened the door."""

    size: float
    """EN size of the spring."""
    force: float
    """[N]"""


def draw_doors(
    count: int,
    leaf: NominalLeaf,
    measured: MeasuredForce | None,
    part_way: bool | None,
    rng: random.Random,
) -> list[PossibleDoor]:
    """`count` doors from the prior, their air conditioned on the first force measured.

    `part_way` is None if nobody said how it is tested.
    """
    leaves = {mount: replace(leaf, mount=mount) for mount in MOUNTS}
    return [_draw_door(leaves, leaf.mount, measured, part_way, rng) for _ in range(count)]


def _draw_door(
    leaves: Mapping[str, NominalLeaf],
    told: str,
    measured: MeasuredForce | None,
    part_way: bool | None,
    rng: random.Random,
) -> PossibleDoor:
    """One door, on the mount that was `told` or on another."""
    for _ in range(_TRIES):
        mounted = leaves[told if rng.random() < TOLD_RIGHT else rng.choice(MOUNTS)]
        hinge, seal = rng.uniform(*HINGE), rng.uniform(*SEAL)
        if measured is None:
            air = rng.uniform(*AIR)
            break
        wanted = measured.force * (1 + rng.gauss(0, FORCE_ERROR))
        air = air_by_force(mounted, measured.size, wanted, hinge, seal)
        if AIR[0] <= air <= AIR[1]:
            break
    return PossibleDoor(
        mounted,
        rng.random() >= FROM_90_ALONE if part_way is None else part_way,
        Loads(hinge, min(max(air, AIR[0]), AIR[1]), seal, rng.uniform(*LATCH)),
        rng.uniform(*OPEN),
        rng.gauss(0, GAIN_SPREAD),
        rng.uniform(*CURVE),
    )


def jittered(
    door: PossibleDoor, spread: Sequence[float], rng: random.Random
) -> PossibleDoor | None:
    """A Metropolis proposal: each part moved by a normal step; None if that leaves the prior's ranges."""
    hinge, air, seal, latch, opened, gain, curve = (
        part + rng.gauss(0, _STEP * wide + 1e-3)
        for part, wide in zip(_parts(door), spread, strict=True)
    )
    held = (
        (hinge, HINGE),
        (air, AIR),
        (seal, SEAL),
        (latch, LATCH),
        (opened, OPEN),
        (curve, CURVE),
    )
    if not all(low <= part <= high for part, (low, high) in held):
        return None
    return door._replace(acts=Loads(hinge, air, seal, latch), open=opened, gain=gain, curve=curve)


def spread_of(doors: Sequence[PossibleDoor]) -> tuple[float, ...]:
    """How far the parts of these doors lie apart, as standard deviations."""
    columns = list(zip(*map(_parts, doors), strict=True))
    means = [sum(column) / len(column) for column in columns]
    return tuple(
        math.sqrt(sum((part - mean) ** 2 for part in column) / len(column))
        for column, mean in zip(columns, means, strict=True)
    )


def _parts(door: PossibleDoor) -> tuple[float, ...]:
    return (*door.acts, door.open, door.gain, door.curve)
