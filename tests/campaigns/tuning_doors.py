"""Random doors to tune, and what a person would read of them.

All invented. A door's own state, its air, seal and latch, and its valves are hidden from the adviser,
who is told width, height, mass, mount, size and the limit of the force.
"""

import math
import random
from dataclasses import dataclass, replace
from functools import lru_cache

from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.swing.model import SLAM_SPEED, SwingingDoor, opening_force
from guide.trade.swing.model import close as model_close
from guide.trade.swing.valves import MOST_TURNS, Ports, Valves
from guide.trade.tuning.readings import LONGEST, LONGEST_LAST, SHORTEST, Move, SwingReading

SETS = ("ordinary", "hard", "mismatch")
MOUNTS = ("regular", "top-jamb", "parallel")
WIDTHS = (0.762, 0.813, 0.864, 0.914, 0.914, 0.965, 1.067, 1.219)
"""30 to 48 in, 36 in the commonest [m]."""
HEIGHTS = (2.032, 2.134, 2.134, 2.438)
LBF = 4.4482216152605
LIMITS = (5 * LBF, 15 * LBF, 15 * LBF, None)
"""An accessible door, fire and exit doors, and one whose force nobody judges [N]."""
GAUGE_ERROR = 0.015
GAUGE = 1.03
"""A force above the limit by no more than this share counts as met: no gauge tells them apart."""
BLUR = 0.3
"""A time over a limit of our own by no more than this counts as met [s]: no watch in a hand tells them apart.
Of the 5 s that are the law's nothing is let off."""
SIZES = (2, 14)
"""Weakest and strongest spring, in half EN sizes."""

close = lru_cache(maxsize=200_000)(model_close)
"""All rules begin at the same doors: a swing is calculated once."""


@dataclass(frozen=True)
class Hidden:
    """A door, and how it is seen."""

    door: SwingingDoor
    told_mount: str
    limit: float | None
    """[N]"""
    watch: float
    """Standard deviation of a stopwatch reading [s]."""
    fuzz: float
    """Standard deviation of the share by which a slam is misjudged."""


def en_size(width: float) -> int:
    """EN 1154 table 1 by the leaf's width [m]."""
    return next(size for size, most in enumerate((0.75, 0.85, 0.95, 1.1, 1.25), 1) if width <= most)


def make(kind: str, rng: random.Random) -> Hidden:
    """One door of a set."""
    width, height, mount = rng.choice(WIDTHS), rng.choice(HEIGHTS), rng.choice(MOUNTS)
    size = en_size(width) + (mount == "parallel") + rng.choice((-1, -0.5, 0, 0, 0.5, 1))
    limit = rng.choice(LIMITS)
    hard = kind == "hard"
    latch_force = rng.uniform(8, 30) if hard else rng.uniform(3, 15)
    seal = rng.uniform(0, 6) if hard else rng.uniform(0, 2.5)
    pressure = rng.uniform(-12, 25) if hard else rng.uniform(-4, 8)
    power = {"ordinary": 1.0, "hard": rng.uniform(0.7, 1.5), "mismatch": rng.uniform(0.8, 1.25)}
    spread = 0.3 if hard else 0.15
    valves = Valves(
        sweep=rng.uniform(0.4, 3),
        latch=rng.uniform(0.4, 3),
        sweep_gain=math.exp(rng.gauss(0, spread)),
        latch_gain=math.exp(rng.gauss(0, spread)),
        power=power[kind],
    )
    door = SwingingDoor(
        width=width,
        height=height,
        mass=width * height * rng.uniform(18, 45),
        geometry=usual_geometry(mount),
        size=min(6.0, max(1.0, size)),
        valves=valves,
        pressure=-pressure,
        seal=seal,
        latch_force=latch_force,
        hinge_drag=rng.uniform(0, 1),
    )
    if kind != "mismatch":
        return Hidden(door, mount, limit, watch=0.2, fuzz=0.0)
    # The port of the latch valve lies anywhere from 14 to 28 deg of a leaf on a regular arm.
    middle = rng.uniform(31.5, 57.6)
    ports = Ports(latch=(middle - 3.75, middle + 3.75))
    door = replace(door, ports=ports, thick=rng.uniform(0, 0.5))
    return Hidden(door, rng.choice(MOUNTS), limit, watch=0.4, fuzz=0.1)


def fault(door: SwingingDoor, limit: float | None) -> str:
    """What is out of tolerance, in a word; empty where nothing is."""
    if limit is not None and opening_force(door) > limit * GAUGE:
        return "force"
    swing = close(door)
    if not (swing.latched and latches_from_part_way(door)):
        return "latch"
    if swing.s_90_12 is None or swing.s_90_12 < SHORTEST:
        return "too fast"
    if swing.s_90_12 > LONGEST + BLUR or (swing.s_12_0 or 0.0) > LONGEST_LAST + BLUR:
        return "too slow"
    return "slam" if swing.edge_speed > SLAM_SPEED else ""


def latches_from_part_way(door: SwingingDoor) -> bool:
    """Whether it latches, let go from 45 and from 10 deg."""
    return close(door, 45.0).latched and close(door, 10.0).latched


def is_possible(hidden: Hidden) -> bool:
    """Whether any spring, latch valve and sweep valve make it right, found by trying them all."""
    for halves in range(SIZES[0], SIZES[1] + 1):
        door = replace(hidden.door, size=halves / 2)
        if hidden.limit is not None and opening_force(door) > hidden.limit:
            return False
        for latch in (1.25, 0.75, 2.0, 3.0, 0.5, 2.5, 1.5, 1.0, 1.75, 3.5, 4.0, 0.25):
            tried = replace(door, valves=replace(door.valves, latch=latch))
            short = close(tried, 10.0)
            if short.latched and short.edge_speed <= SLAM_SPEED:
                timed = _with_sweep_for_six(tried)
                if timed is not None and not fault(timed, hidden.limit):
                    return True
    return False


def _with_sweep_for_six(door: SwingingDoor) -> SwingingDoor | None:
    """The sweep valve turned, by halving, for about 6 s from 90 to 12 deg."""
    low, high = 0.02, MOST_TURNS
    for _ in range(12):
        middle = math.sqrt(low * high)
        tried = replace(door, valves=replace(door.valves, sweep=middle))
        took = close(tried).s_90_12
        if took is not None and 5.2 <= took <= 6.8:
            return tried
        if took is None or took > 6:
            low = middle
        else:
            high = middle
    return None


def read(hidden: Hidden, door: SwingingDoor, rng: random.Random, *, part_way: bool) -> SwingReading:
    """One test by a person with a watch and a gauge; `part_way` says whether it is also let go from
    45 and 10 deg."""
    swing = close(door)

    def watched(seconds: float | None) -> float | None:
        return None if seconds is None else max(0.1, seconds + rng.gauss(0, hidden.watch))

    latched = swing.latched and (not part_way or latches_from_part_way(door))
    felt = swing.edge_speed * (1 + rng.gauss(0, hidden.fuzz))
    return SwingReading(
        watched(swing.s_90_12),
        watched(swing.s_12_0),
        latched,
        swing.latched and felt > SLAM_SPEED,
        opening_force(door) * (1 + rng.gauss(0, GAUGE_ERROR)),
        from_near=part_way,
    )


def turned(door: SwingingDoor, moves: tuple[Move, ...]) -> SwingingDoor:
    """The door after the moves, each as far as its stop lets it go."""
    valves, size = door.valves, door.size
    for move in moves:
        step = move.steps if move.direction in ("faster", "stronger") else -move.steps
        if move.part == "spring":
            size = min(SIZES[1] / 2, max(SIZES[0] / 2, size + step / 2))
        elif move.part == "sweep":
            valves = replace(valves, sweep=min(MOST_TURNS, max(0.0, valves.sweep + step / 4)))
        else:
            valves = replace(valves, latch=min(MOST_TURNS, max(0.0, valves.latch + step / 4)))
    return replace(door, size=size, valves=valves)
