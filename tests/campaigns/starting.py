"""Where the spring of a new closer begins: as the leaf needs, or by `starting-size`, on the very same doors.

Run by hand: python -m tests.campaigns.starting > tests/campaigns/starting.txt. Every door of the sets of `tuning` gets
the limit of an inside door on an accessible route; all else, and the rules of the tests, is theirs.
"""

import random
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from fractions import Fraction

from guide.measures import Quantity
from guide.trade import registry
from tests.campaigns.tuning import PROCESSES, Doors, adviser, campaign
from tests.campaigns.tuning_doors import LIMITS, SETS, Hidden, en_size, is_possible, make

SEED = 130363
DOORS = 600
FELT_AIR = 8.0
"""Air that a strip of paper shows at the gap of a leaf [Pa]; ours."""
HEAVY = 40.0
"""A leaf heavier than this for its surface is called heavy [kg/m²]; ours."""


def as_needed(hidden: Hidden) -> int:
    """The size by the width, and one up for a parallel arm."""
    return en_size(hidden.door.width) + (hidden.told_mount == "parallel")


def is_harder(hidden: Hidden) -> bool:
    """Whether a person who was asked would say that air pushes on the leaf, or that it is heavy."""
    door = hidden.door
    return -door.pressure > FELT_AIR or door.mass > HEAVY * door.width * door.height


def by_the_limit(hidden: Hidden) -> int:
    """What `starting-size` says of that leaf."""
    size = registry.run(
        "starting-size",
        {
            "size": as_needed(hidden),
            "width": Quantity(Fraction(hidden.door.width).limit_denominator(10_000), "m"),
            "mount": hidden.told_mount,
            "rules": "us",
            "fire": False,
            "exterior": False,
            "harder": is_harder(hidden),
        },
    ).value
    assert isinstance(size, int)
    return size


STARTS: dict[str, Callable[[Hidden], int]] = {
    "as the leaf needs": as_needed,
    "by the opening limit": by_the_limit,
}


def doors_of(kind: str, count: int, seed: int) -> Doors:
    """The doors of a set, all inside and on an accessible route, each with whether it can be tuned at all."""
    rng = random.Random(f"starting {kind} {seed}")
    found = [replace(make(kind, rng), limit=LIMITS[0]) for _ in range(count)]
    return [(hidden, is_possible(hidden)) for hidden in found]


def rows(kind: str, count: int = DOORS, seed: int = SEED) -> list[str]:
    """A line for each way to begin."""
    doors, lines = doors_of(kind, count, seed), []
    for name, size in STARTS.items():
        begun = [
            (replace(one, door=replace(one.door, size=float(size(one)))), possible)
            for one, possible in doors
        ]
        result = campaign(begun, adviser, seed, part_way=True)
        mean = sum(result.tests) / len(result.tests)
        lines.append(f"{f'{kind}, {name}':<33} {result.row()}  mean {mean:.2f}")
    return lines


def main() -> None:
    """Print the lines of every set."""
    print(
        f"{'set and beginning':<33} poss.  med  p90   p95  <=4    given up    named      left  accepted wrong"
    )
    with ProcessPoolExecutor(PROCESSES) as pool:
        for lines in pool.map(rows, SETS):
            print(*lines, sep="\n")


if __name__ == "__main__":
    main()
