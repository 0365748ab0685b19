"""A practice door made from a seed, so that a whole class has the same one.

Rejection sampling: doors are drawn until one is fair. The adviser can put it right without its faults, or once its
faults are put right; while a fault lasts, the adviser cannot.
"""

import math
import random
from collections.abc import Callable

from guide.practice.door import AIR, HINGE, LEAK, SEAL, SIZE, STRIKE, HiddenCause, PracticeDoor
from guide.practice.experienced_fitter import Demonstration, by_screws_alone, tune
from guide.practice.practice import RIGHT, Practice
from guide.practice.score import past_limits
from guide.trade.arm.usual_arm import usual_geometry
from guide.trade.en_1154 import EN_1154_TABLE_1
from guide.trade.mounts import MOUNTS
from guide.trade.swing.model import SwingingDoor
from guide.trade.swing.valves import Valves

_INCH = 0.0254
_WIDTHS = (30, 32, 34, 36, 36, 36, 38, 42, 44)
_HEIGHTS = (80, 84, 84, 90)
"""Leaves [in]."""
_HEAVY = (20.0, 42.0)
"""Mass of a leaf for each square metre [kg]."""
_LBF = 4.4482216152605
_LIMITS = (
    (None, ""),
    (None, ""),
    (5 * _LBF, "2010 ADA Standards 404.2.9, an interior door that is not a fire door"),
    (15 * _LBF, "IBC 1010.1.3 and NFPA 101; edition and authority decide"),
)
_PLACES = ("Quarry canteen", "Tram office", "Weaving mill", "Seed store", "Town baths", "Map room")
_BACKCHECKS = (1.0, 1.0, 1.0, 1.0, 0.0, 3.5)
"""Turns by which the backcheck is open; the last two are too hard and too soft."""
_MOST_TESTS = 6
"""Doors without a fault are rejected if the adviser needs more tests."""
_MOST = 400
"""Doors drawn at most; a seed usually needs fewer than ten."""

_FAULTS: dict[str, Callable[[random.Random], HiddenCause]] = {
    AIR: lambda rng: HiddenCause(AIR, -rng.uniform(25, 60), rng.choice((-2.0, None))),
    SEAL: lambda rng: HiddenCause(SEAL, rng.uniform(25, 50), 0.8),
    HINGE: lambda rng: HiddenCause(HINGE, rng.uniform(9, 16), 0.3),
    STRIKE: lambda rng: HiddenCause(STRIKE, rng.uniform(90, 180), 6.0),
    LEAK: lambda rng: HiddenCause(LEAK, rng.uniform(4, 6), inside=rng.random() < 0.4),
    SIZE: lambda rng: HiddenCause(SIZE),
}
_OFTEN = (2, 3, 5, 3, 1, 1)
"""How often each is drawn. Causes that screws can often make up for are drawn more often, as more are rejected."""


def any_seed() -> int:
    """A seed if none was named; short enough to be called across a room."""
    return random.SystemRandom().randrange(1, 10_000)


def random_door(seed: int) -> PracticeDoor:
    """The door of that seed. RuntimeError if none of 400 was fair, which no seed tried has shown."""
    rng = random.Random(seed)
    for _ in range(_MOST):
        door = _drawn(rng, seed)
        if _is_fair(door):
            return door
    raise RuntimeError(f"Seed {seed} gives no fair door; use another seed.")


def _drawn(rng: random.Random, seed: int) -> PracticeDoor:
    width, height = rng.choice(_WIDTHS) * _INCH, rng.choice(_HEIGHTS) * _INCH
    mount = rng.choice(MOUNTS)
    fits = next(size for size, most, _ in EN_1154_TABLE_1 if width * 1000 <= most)
    size = float(fits + (mount == "parallel") + rng.choice((-1, -0.5, 0, 0, 0.5, 1)))
    low, high = rng.choice(((1, 6), (1, 4), (2, 6)))
    limit, limit_from = rng.choice(_LIMITS)
    faults: tuple[HiddenCause, ...] = ()
    if rng.random() < 0.5:
        (cause,) = rng.choices(list(_FAULTS), _OFTEN)
        faults = (_FAULTS[cause](rng),)
        if cause == SIZE:
            (low, high), (limit, limit_from) = (3, 6), _LIMITS[2]
    valves = Valves(_turns(rng), _turns(rng), rng.choice(_BACKCHECKS))
    door = SwingingDoor(
        width=width,
        height=height,
        mass=width * height * rng.uniform(*_HEAVY),
        geometry=usual_geometry(mount),
        size=min(float(high), max(float(low), size)),
        valves=valves,
        pressure=-rng.uniform(-3, 5),
        seal=rng.uniform(0, 2),
        latch_force=rng.uniform(3, 14),
        hinge_drag=rng.uniform(0.1, 0.8),
    )
    return PracticeDoor(
        name=f"seed-{seed}",
        title=f"{rng.choice(_PLACES)}, seed {seed}",
        about="People complain of it, each of something else.",
        grade=2 if not faults else 4,
        mount=mount,
        knuckles=rng.choice(("left", "right")),
        door=door,
        delay=rng.choice((None, None, 0.0, 0.5)),
        sizes=(low, high),
        limit=limit,
        limit_from=limit_from,
        faults=faults,
    )


def _turns(rng: random.Random) -> float:
    """How far a valve is open as found: to an eighth of a turn, seldom near either end."""
    return max(0.375, round(8 * math.exp(rng.gauss(0.3, 0.5))) / 8 if rng.random() < 0.9 else 3.25)


def _is_fair(door: PracticeDoor) -> bool:
    if not door.faults:
        alone = by_screws_alone(door)
        to_do = past_limits(Practice(door).door, door) or door.delay
        return bool(to_do) and alone.tests <= _MOST_TESTS and _ends_right(alone)
    if _ends_right(by_screws_alone(door)):
        return False
    if door.hopeless:
        return True
    done = Demonstration(Practice(door))
    for fault in door.faults:
        done.practice.put_right(fault.cause)
    tune(done)
    return _ends_right(done)


def _ends_right(done: Demonstration) -> bool:
    return done.verdict == RIGHT and not past_limits(done.practice.door, done.practice.at)
