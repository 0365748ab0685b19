"""Every measure that a step can ask for, written and read, said and understood: none may come back otherwise.

Run by hand: python -m tests.campaigns.round_trips; it writes round_trips.txt beside itself. 1 where one did. Beside
the whole scales, fractions drawn by lot go through every unit. The gate tries one in eight of the scales.
"""

import random
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from fractions import Fraction
from pathlib import Path

from guide.measures import Quantity
from guide.words.spoken import grammar_for, say
from tests.measures.round_trips import (
    UNITS,
    comes_back,
    comes_back_from_a_rule,
    comes_back_through_every_unit,
)
from tests.words.said_measures import (
    ENGLISH,
    SCALES,
    misunderstood,
    rule,
    steps_of,
    understood,
)

HERE = Path(__file__).parent
SEED = 21
DRAWN = 1000
"""Fractions for each unit."""
WORKERS = 2
Count = tuple[str, int, list[str]]
"""What was tried, how many, and those that came back otherwise."""


def said(scale: str) -> Count:
    values = steps_of(scale)
    return f"said: {scale}", len(values), [str(one) for one in misunderstood(values)]


def said_otherwise(way: str) -> Count:
    """In feet and inches, digit by digit, or without a unit."""
    if way == "feet and inches":
        values = rule(16)
        return f"said: {way}", len(values), [str(one) for one in misunderstood(values, feet=True)]
    if way == "digits":
        values = rule(8) + [Quantity(Fraction(count), "mm") for count in range(3001)]
        return f"said: {way}", len(values), [str(one) for one in misunderstood(values, digits=True)]
    numbers = [Fraction(n, 10) for n in range(1001)] if way == "number" else range(10_000)
    ear = grammar_for(way)
    wrong = [str(n) for n in numbers if understood(ear, say(n, ENGLISH)) != n]
    return f"said: every {way}", len(numbers), wrong


def written(unit: tuple[str, str]) -> Count:
    """Fractions by lot in one unit, as it stands and through every other."""
    pick = random.Random(f"{SEED} {unit}")
    drawn = [Fraction(pick.randrange(10**9), pick.randint(1, 10**6)) for _ in range(DRAWN)]
    wrong = [
        str(one)
        for one in drawn
        if not (comes_back(*unit, one) and comes_back_through_every_unit(*unit, one))
    ]
    return f"written: {unit[1]}", DRAWN, wrong


def on_a_rule() -> Count:
    """Every 64th of an inch to ten feet."""
    every = range(120 * 64 + 1)
    wrong = [f"{count}/64 in" for count in every if not comes_back_from_a_rule(count)]
    return "written: every 64th of an inch to 120 in", len(every), wrong


def counts() -> Iterator[Count]:
    with ProcessPoolExecutor(WORKERS) as pool:
        yield from pool.map(said, SCALES)
        yield from pool.map(said_otherwise, ("feet and inches", "digits", "count", "number"))
        yield on_a_rule()
        yield from pool.map(written, UNITS)


def main() -> int:
    """Print and keep the figures."""
    found = list(counts())
    total = sum(tried for _, tried, _ in found)
    wrong = sum(len(otherwise) for _, _, otherwise in found)
    lines = [f"seed {SEED}", f"tried {total}", f"came back otherwise {wrong}", ""]
    for what, tried, otherwise in found:
        lines.append(f"{what}: {tried}, {len(otherwise)} otherwise")
        lines += [f"  {one}" for one in otherwise[:20]]
    text = "\n".join(lines) + "\n"
    (HERE / "round_trips.txt").write_text(text, "utf-8")
    sys.stdout.write(text)
    return int(wrong > 0)


if __name__ == "__main__":
    raise SystemExit(main())
