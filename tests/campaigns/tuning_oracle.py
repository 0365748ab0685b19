"""The fewest tests in which a door can be tuned within the caps, by one who knows all that is hidden.

No adviser can do better: it bounds what the caps on turns leave possible within `MOST_TESTS`.
"""

import math
from collections.abc import Iterator
from dataclasses import replace

from guide.trade.swing.model import SLAM_SPEED, SwingingDoor, opening_force
from guide.trade.swing.valves import MOST_TURNS
from guide.trade.tuning.readings import LONGEST, MOST_TESTS, SHORTEST, Caps
from tests.campaigns.tuning_doors import SIZES, Hidden, close, fault

_EIGHTH = 0.125
"""What the latch valve is tried by [turns]."""


def fewest_tests(hidden: Hidden, caps: Caps) -> int:
    """Tests, the first and the confirming one counted; `MOST_TESTS` and one more where it takes more.

    The sweep valve is moved along with the spring or the latch valve, as far as `caps` lets it go at one go; the spring
    and the latch valve are not moved together. That the latch valve is turned by less where it nearly latches is left
    out, in the door's favour.
    """
    best = MOST_TESTS + 1
    sizes = (halves / 2 for halves in range(SIZES[0], SIZES[1] + 1))
    for size in sorted(sizes, key=lambda size: abs(size - hidden.door.size)):
        door = replace(hidden.door, size=size)
        if hidden.limit is not None and opening_force(door) > hidden.limit:
            continue
        spring = math.ceil(abs(size - hidden.door.size) * 2 / caps.spring)
        for latch, goes in _latch_places(door, caps):
            if 1 + spring + goes >= best:
                break
            tried = replace(door, valves=replace(door.valves, latch=latch))
            near = close(tried, 10.0)
            if near.latched and near.edge_speed <= SLAM_SPEED:
                sweep = _goes_of_sweep(tried, hidden.limit, caps)
                if sweep is not None:
                    best = min(best, 1 + max(spring + goes, sweep))
    return best


def _latch_places(door: SwingingDoor, caps: Caps) -> Iterator[tuple[float, int]]:
    """Where the latch valve may stand, and after how many goes; the nearest first."""
    start, at_once = door.valves.latch, caps.latch * 0.25
    yield start, 0
    for step in range(1, round(MOST_TURNS / _EIGHTH) + 1):
        for place in (start - step * _EIGHTH, start + step * _EIGHTH):
            if 0 <= place <= MOST_TURNS:
                yield place, math.ceil(step * _EIGHTH / at_once)


def _goes_of_sweep(door: SwingingDoor, limit: float | None, caps: Caps) -> int | None:
    """Goes of the sweep valve until the time is right; None where no place of it makes the door right."""
    start, at_once = door.valves.sweep, caps.sweep * 0.25
    took = close(door).s_90_12
    if took is not None and SHORTEST <= took <= LONGEST:
        place = start
    else:
        slower = took is not None and took < SHORTEST
        place = _where_it_takes(door, SHORTEST + 0.02 if slower else LONGEST - 0.02)
    if fault(replace(door, valves=replace(door.valves, sweep=place)), limit):
        return None
    return math.ceil(abs(place - start) / at_once)


def _where_it_takes(door: SwingingDoor, seconds: float) -> float:
    """The sweep valve's turns at which 90 to 12 deg takes that long, by halving."""
    low, high = 0.0, MOST_TURNS
    for _ in range(14):
        middle = (low + high) / 2
        took = close(replace(door, valves=replace(door.valves, sweep=middle))).s_90_12
        if took is None or took > seconds:
            low = middle
        else:
            high = middle
    return (low + high) / 2
