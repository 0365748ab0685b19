"""Where to turn the sweep valve, so that 90 to 12 degrees takes as long as it should."""

from collections.abc import Callable

from guide.trade.tuning.readings import GUARD, LONGEST, SHORTEST
from guide.trade.tuning.valve_times import ValveEstimate

AIM = (SHORTEST + GUARD + LONGEST) / 2
"""From 90 to 12 deg [s], the middle of what a watch in a hand lets pass."""

LIKELY = 0.25
"""Chance of the right time below which the sweep valve is turned towards it, not for it."""

WINDOW = 0.7
"""Half of what a turn of the sweep valve is aimed into [s]."""

FINER = ((2, 0.04),)
"""Parts of a quarter turn, and by what chance they must be likelier than coarser ones to be advised."""

_QUARTER = 0.25
"""[turns]"""


def sweep_aim(other: float) -> float:
    """What the sweep valve's own part should last [s], `other` of the whole not being its."""
    return max(0.3 * AIM, AIM - other)


def sweep_to(
    law: ValveEstimate, at: float, aim: float, most: int, has: Callable[[float], bool]
) -> float:
    """Where to turn the sweep valve from `at` for `aim` [s], by at most `most` quarter turns.

    By quarters; by an eighth or a sixteenth where that is likelier. Where no place is likely, to the one
    expected to miss by the least. Only to places that the valve `has`.
    """
    low, high = aim - WINDOW, aim + WINDOW
    best = law.nearest(aim, _places(at, most, 1, has))
    chance = law.chance(low, high, best)
    for parts, gains in FINER:
        likeliest = law.likeliest(low, high, _places(at, most, parts, has))
        likely = law.chance(low, high, likeliest)
        if likely >= max(LIKELY, chance + gains):
            best, chance = likeliest, likely
    return best


def _places(at: float, most: int, parts: int, has: Callable[[float], bool]) -> list[float]:
    """`at` first, so that it wins a tie, then both ways."""
    steps = [0, *(sign * step for step in range(1, parts * most + 1) for sign in (-1, 1))]
    places = (at + step * _QUARTER / parts for step in steps)
    return [place for place in places if place == at or has(place)]
