"""How many tests the adviser needs, on a thousand random doors a set, beside one who knows the door.

Run by hand: nice -n 10 python -m tests.campaigns.tuning 1000 > tests/campaigns/tuning.txt (twenty minutes)
The first test and the confirming one are counted. A tester who at first lets the leaf go from 90 deg alone is asked to
let it go from 45 and 10 deg too, and does so from his second test on.
The doors and the adviser's first guess share the equations of `guide.trade.swing.model`, except where
the set "mismatch" differs; no real closer was measured.
"""

import random
import sys
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from typing import Protocol

from guide.trade.swing.model import SwingingDoor
from guide.trade.tuning.adviser import Adviser
from guide.trade.tuning.nominal_door import NominalLeaf
from guide.trade.tuning.readings import (
    LONGEST,
    MOST_TESTS,
    SHORTEST,
    Advice,
    Caps,
    Move,
    SwingReading,
)
from tests.campaigns.tuning_doors import SETS, Hidden, fault, is_possible, make, read, turned
from tests.campaigns.tuning_oracle import fewest_tests

FRESH_SEED = 91127
PROCESSES = 2
SEEDS = """\
The rules were chosen among some 25 variants on doors of seeds 71 and 72 (1000 a set each); the seed above then judged
them once, and nothing was changed for its result. A door may take 10 tests, where it was 8; one whose last four tests
were alike is still given up at the eighth. The rules before them, on the very same doors and with 8 tests, had median,
95th percentile, given up and accepted wrong: ordinary 4, 6, 0.5 %, 0.1 %; hard 4, 8, 2.0 %, 0.0 %; mismatch 4, 7,
1.6 %, 2.2 %. More than 6 tests took 47 of the 931 ordinary doors, where 46 would do; 29 of 932 of seed 73, on which no
variant was tried. The mismatch doors of seeds 73 and 74 were looked at too, for the margins of a time: of those 2000
the rules accept 18 wrong, and the rules before them 45."""
TARGETS = {"ordinary": (4, 6), "hard": (4, 8), "mismatch": (4, 8)}
"""Median and 95th percentile of the tests, at most."""


class Rule(Protocol):
    """Says what to turn next."""

    def next(self, reading: SwingReading) -> Advice:
        """Take one test."""


class PlainRule:
    """A quarter turn of whatever looks worst, one thing at a time."""

    def __init__(self, size: float, limit: float | None) -> None:
        self.size, self.limit = size, limit
        self.tests = 0
        self.failed_at = 0.0

    def next(self, reading: SwingReading) -> Advice:
        """Force first, then latch, slam, and time."""
        self.tests += 1
        heavy = self.limit is not None and (reading.force or 0.0) > self.limit
        time = reading.s_90_12
        if not heavy and reading.latched and not reading.slammed and time is not None:
            if SHORTEST + 0.2 <= time <= LONGEST - 0.2:
                return Advice((), "finished", "")
            if self.tests < MOST_TESTS:
                return _one("sweep", "slower" if time < SHORTEST + 0.2 else "faster")
        if self.tests >= MOST_TESTS or (heavy and self.size - 0.5 <= self.failed_at):
            return Advice((), "impossible", "")
        if heavy:
            if self.size <= 1:
                return Advice((), "impossible", "")
            self.size -= 0.5
            return _one("spring", "weaker")
        if not reading.latched:
            return _one("latch", "faster")
        return _one("latch", "slower")


def _one(part: str, direction: str) -> Advice:
    return Advice((Move(part, direction, 1),), "", "")


@dataclass
class Result:
    """What came of one set under one rule."""

    doors: int = 0
    possible: int = 0
    tests: list[int] = field(default_factory=list)
    """Of each possible door; one that was given up counts as one test more than is allowed."""
    given_up: int = 0
    """Possible doors declared impossible, or left with a force over the limit."""
    out_of_tests: int = 0
    """Of these, those that no test was left for."""
    left: int = 0
    """Impossible doors that ended with the force alone left to do."""
    named: int = 0
    """Impossible doors declared so, or left with what they lack told."""
    within_gauge: int = 0
    """Doors too heavy by the letter that ended within the error of the gauge, all else right."""
    accepted_wrong: Counter[str] = field(default_factory=Counter)
    """Doors accepted though out of tolerance, by what is out."""
    furthest: Counter[str] = field(default_factory=Counter)
    """Most quarter turns or half sizes advised at one go."""

    @property
    def impossible(self) -> int:
        """Doors that should have been named."""
        return self.doors - self.possible - self.within_gauge

    def at(self, share: float) -> int:
        """That quantile of the tests."""
        return sorted(self.tests)[min(len(self.tests) - 1, int(share * len(self.tests)))]

    def bound_row(self) -> str:
        """The part of `row` that makes sense where nothing is advised."""
        p95 = self.at(0.95)
        four = sum(tests <= 4 for tests in self.tests) / len(self.tests)
        return (
            f"{self.possible:5} {self.at(0.5):4} {self.at(0.9):4}"
            f" {p95 if p95 <= MOST_TESTS else 'more':>5} {four:7.1%}"
            f" {self.given_up:5} ({self.given_up / self.possible:.1%})"
        )

    def row(self) -> str:
        """One line of the table."""
        wrong = sum(self.accepted_wrong.values())
        detail = ", ".join(f"{what} {count}" for what, count in self.accepted_wrong.most_common())
        return (
            self.bound_row() + f" {self.named:4} of {self.impossible:<4}"
            f" {self.left:4}     {wrong:4} ({wrong / self.doors:.1%}){'  ' + detail if detail else ''}"
        )


Doors = list[tuple[Hidden, bool]]
Start = Callable[[Hidden], Rule]


def doors_of(kind: str, count: int, seed: int) -> Doors:
    """The doors of a set, each with whether it can be tuned at all."""
    rng = random.Random(f"{kind} {seed}")
    found = [make(kind, rng) for _ in range(count)]
    return [(hidden, is_possible(hidden)) for hidden in found]


def adviser(hidden: Hidden) -> Rule:
    """Starts the adviser on a door."""
    door = hidden.door
    leaf = NominalLeaf(door.width, hidden.told_mount, door.height, door.mass)
    return Adviser(leaf, door.size, hidden.limit)


def plain(hidden: Hidden) -> Rule:
    """Starts the plain rule on a door."""
    return PlainRule(hidden.door.size, hidden.limit)


def campaign(doors: Doors, start: Start, seed: int, *, part_way: bool) -> Result:
    """Tune every door; `part_way` says whether the first test also lets the leaf go from 45 and 10 deg, as all
    others do."""
    result = Result(doors=len(doors))
    for number, (hidden, possible) in enumerate(doors):
        rng = random.Random(f"{seed} {number}")
        rule, door, tests, near = start(hidden), hidden.door, 0, part_way
        result.possible += possible
        while True:
            tests += 1
            advice = rule.next(read(hidden, door, rng, part_way=near))
            near = True
            for move in advice.moves:
                result.furthest[move.part] = max(
                    result.furthest[move.part], round(move.steps + 0.49)
                )
            if advice.outcome:
                break
            door = turned(door, advice.moves)
        wrong = _wrong(hidden, door, advice)
        if wrong:
            result.accepted_wrong[wrong] += 1
        if possible:
            result.tests.append(tests if advice.done else MOST_TESTS + 1)
            result.given_up += advice.impossible
            result.out_of_tests += advice.impossible and tests == MOST_TESTS
        else:
            result.named += advice.impossible
            result.left += advice.outcome == "left-to-do"
            result.within_gauge += advice.done and not wrong
    return result


def _wrong(hidden: Hidden, door: SwingingDoor, advice: Advice) -> str:
    """What is out of tolerance on a door that was handed over; where the force is left to do, besides that."""
    if advice.done:
        return fault(door, hidden.limit)
    return fault(door, None) if advice.outcome == "left-to-do" else ""


FROM_90 = "adviser, first test from 90 deg"
JUDGED = ("adviser", FROM_90)

ROWS: tuple[tuple[str, Start, bool], ...] = (
    ("adviser", adviser, True),
    (FROM_90, adviser, False),
    ("plain rule", plain, True),
)


ORACLE = "one who knows the door, each 4th"
EACH = 4
"""Of so many doors one who knows the door tunes one: it takes him long."""


def bound(doors: Doors) -> Result:
    """The possible doors by one who knows all that is hidden; the others are not counted."""
    result = Result(doors=len(doors))
    for hidden, possible in doors:
        if possible:
            tests = fewest_tests(hidden, Caps())
            result.possible += 1
            result.tests.append(tests)
            result.given_up += tests > MOST_TESTS
    return result


def paired(doors: Doors, ours: Result, known: Result) -> str:
    """The adviser beside one who knows the door, on the very doors that he tuned."""
    numbers = [number for number, (_, possible) in enumerate(doors) if possible]
    by_door = dict(zip(numbers, ours.tests, strict=True))
    pairs = list(
        zip((by_door[number] for number in numbers if number % EACH == 0), known.tests, strict=True)
    )
    more = sum(mine - his for mine, his in pairs) / len(pairs)
    as_few = sum(mine <= his for mine, his in pairs)
    one_more = sum(mine == his + 1 for mine, his in pairs)
    given_up = [his for mine, his in pairs if mine > MOST_TESTS]
    both = sum(his > MOST_TESTS for his in given_up)
    return (
        f"on the same {len(pairs)} doors the adviser needs {more:.2f} tests more in the mean; as few for {as_few},"
        f" one more for {one_more}; {len(given_up)} given up, of them {both} by both"
    )


def rows(job: tuple[str, Doors]) -> dict[str, Result]:
    """All rules on the same doors, in a process of its own; or one who knows the door."""
    name, doors = job
    if name == ORACLE:
        return {ORACLE: bound(doors[::EACH])}
    return {
        name: campaign(doors, start, FRESH_SEED, part_way=part_way)
        for name, start, part_way in ROWS
    }


def main() -> int:
    """Print the table; 1 where the adviser misses a target."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    missed, furthest = [], Counter[str]()
    print(f"{count} random doors a set, seed {FRESH_SEED}; at most {MOST_TESTS} tests")
    print(SEEDS)
    print("stopwatch off by 0.2 s (mismatch 0.4 s) as a standard deviation, force gauge by 1.5 %")
    with ProcessPoolExecutor(PROCESSES) as pool:
        made = pool.map(doors_of, SETS, [count] * len(SETS), [FRESH_SEED] * len(SETS))
        sets = dict(zip(SETS, made, strict=True))
        jobs = [(kind, name) for kind in SETS for name in ("rules", ORACLE)]
        results = pool.map(rows, [(name, sets[kind]) for kind, name in jobs])
        found = {
            (kind, name): result
            for (kind, _), these in zip(jobs, results, strict=True)
            for name, result in these.items()
        }
    for kind in SETS:
        print(
            f"\n{kind:<34} poss.  med  p90   p95  <=4    given up    named      left  accepted wrong"
        )
        known = found[kind, ORACLE]
        for name, _, _ in ROWS:
            result = found[kind, name]
            print(f"{name:<33} {result.row()}")
            if name in JUDGED:
                missed += [f"{kind}, {name}: {one}" for one in _missed(kind, result, known)]
                furthest |= result.furthest
        print(f"{ORACLE:<33} {known.bound_row()}")
        print(paired(sets[kind], found[kind, "adviser"], known))
    turns = ", ".join(f"{part} {most}" for part, most in furthest.items())
    print(f"\nmost advised at one go, quarter turns or half sizes: {turns}")
    print("\ntargets not reached by the adviser:", *(missed or ["none"]), sep="\n  ")
    return 1 if missed else 0


def _missed(kind: str, result: Result, known: Result) -> list[str]:
    """Each target that was not reached, beside what one who knows the door reaches within the same caps."""
    median, p95 = TARGETS[kind]
    possible, impossible = result.possible, result.impossible
    wrong = sum(result.accepted_wrong.values())
    same = (
        f"where one who knows the door has median {known.at(0.5)}, 95th percentile {known.at(0.95)}"
        f" and gives up {known.given_up / known.possible:.1%}"
    )
    checks = {
        f"median {result.at(0.5)} over {median}, {same}": result.at(0.5) > median,
        f"95th percentile {result.at(0.95)} over {p95}, {same}": result.at(0.95) > p95,
        f"{result.given_up} of {possible} given up, over 1 %, {result.out_of_tests} of them out of the"
        f" {MOST_TESTS} tests, {same}": result.given_up > 0.01 * possible,
        f"{result.named} of {impossible} named, under 95 %": result.named < 0.95 * impossible,
        f"{wrong} accepted wrong, over 1 %": wrong > 0.01 * result.doors,
    }
    return [words for words, failed in checks.items() if failed]


if __name__ == "__main__":
    raise SystemExit(main())
