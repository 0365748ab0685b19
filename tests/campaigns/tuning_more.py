"""The adviser on three further thousands of doors a set, rules unchanged: how far one thousand differs from another.

Run by hand: python -m tests.campaigns.tuning_more > tests/campaigns/tuning_more.txt. Every seed is told, none chosen by
its result; the first test lets the leaf go from 90, 45 and 10 degrees.
"""

from collections import Counter
from concurrent.futures import ProcessPoolExecutor

from tests.campaigns.tuning import PROCESSES, Result, adviser, campaign, doors_of
from tests.campaigns.tuning_doors import SETS

SEEDS = (104729, 104743, 104759)
"""No rule was tried on these doors."""
DOORS = 1000
LONG = {"ordinary": 6, "hard": 8, "mismatch": 8}
"""The tests that 95 doors in 100 should need at most."""


def one(job: tuple[str, int]) -> Result:
    """The doors of one set and seed, each tuned."""
    kind, seed = job
    return campaign(doors_of(kind, DOORS, seed), adviser, seed, part_way=True)


def told(kind: str, results: list[Result]) -> str:
    """The sum over the seeds."""
    possible = sum(result.possible for result in results)
    longer = sum(tests > LONG[kind] for result in results for tests in result.tests)
    given_up = sum(result.given_up for result in results)
    wrong = sum((result.accepted_wrong for result in results), Counter[str]())
    doors = DOORS * len(results)
    return (
        f"{kind}: of {possible} doors that can be tuned {longer} ({longer / possible:.1%}) need more than {LONG[kind]}"
        f" tests, {given_up} ({given_up / possible:.2%}) are given up; of {doors}"
        f" {wrong.total()} ({wrong.total() / doors:.2%}) are accepted wrong"
    )


def main() -> None:
    """Print a row a set and seed, and the sums."""
    jobs = [(kind, seed) for kind in SETS for seed in SEEDS]
    with ProcessPoolExecutor(PROCESSES) as pool:
        results = dict(zip(jobs, pool.map(one, jobs), strict=True))
    print(
        f"{'set and seed':<33} poss.  med  p90   p95  <=4    given up    named      left  accepted wrong"
    )
    for (kind, seed), result in results.items():
        print(f"{f'{kind}, seed {seed}':<33} {result.row()}")
    print()
    for kind in SETS:
        print(told(kind, [results[kind, seed] for seed in SEEDS]))


if __name__ == "__main__":
    main()
