"""The proof held against every real run of small procedures made at random.

Run by hand: python -m tests.campaigns.soundness [turns | FILES [FIRST_SEED]]; it writes soundness.txt beside itself,
or soundness_turns.txt of files in which something is done in turn for each of two leaves. Ends with status 1
where the proof and the engine disagree. What is compared is told in tests/checker/held_against.py.
"""

import sys
import tempfile
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

from tests.checker.held_against import Verdict, held_against, totals
from tests.checker.small_files import written

HERE = Path(__file__).parent
SEED = 20_000
"""The first file's seed; each further file takes the next number."""
FILES = 3_100
"""How many are written; some are refused by the compiler or have too many runs to walk."""
WORKERS = 2


TURNS = 1_000
"""How many are written with turns in them."""


def one(seed: int, *, turns: bool = False) -> tuple[int, Verdict]:
    """Write, check, walk and compare one file."""
    with tempfile.TemporaryDirectory() as folder:
        return seed, held_against(Path(folder), written(seed, turns=turns))


def main() -> int:
    """Print and keep the figures."""
    turns = sys.argv[1:] == ["turns"]
    files = TURNS if turns else int(sys.argv[1]) if len(sys.argv) > 1 else FILES
    first = int(sys.argv[2]) if len(sys.argv) > 2 else SEED
    start = time.perf_counter()
    with ProcessPoolExecutor(WORKERS) as pool:
        results = list(
            pool.map(partial(one, turns=turns), range(first, first + files), chunksize=20)
        )
    seconds = time.perf_counter() - start
    lines = report(results, first)
    text = "\n".join(lines) + "\n"
    print(text, end="")
    print(f"{seconds:.0f} s")
    if len(sys.argv) == 1 or turns:
        (HERE / ("soundness_turns.txt" if turns else "soundness.txt")).write_text(text)
    return int(any(verdict.wrong for _, verdict in results))


def report(results: list[tuple[int, Verdict]], first: int) -> list[str]:
    """The figures in lines."""
    outcomes = Counter(verdict.outcome for _, verdict in results)
    compared = [verdict for _, verdict in results if verdict.outcome == "compared"]
    loose = sum(verdict.loose for verdict in compared)
    standings = sum(verdict.standings for verdict in compared)
    wrong = [(seed, line) for seed, verdict in results for line in verdict.wrong]
    lines = [
        f"seeds {first} to {first + len(results) - 1}: {len(results)} files",
        *(f"  {count:>6} {outcome}" for outcome, count in sorted(outcomes.items())),
        f"compared: {len(compared) - loose} exactly, {loose} with more cases in the sets than there are",
        f"standings of the real engine walked: {standings}",
        f"disagreements: {len(wrong)}",
        *(f"  seed {seed}: {line}" for seed, line in wrong[:60]),
        "",
        f"{'property':<22}{'files broken':>14}{'files whole':>13}{'blocks broken':>15}{'blocks whole':>14}",
    ]
    for code, (broken, clean, blocks, whole) in totals(compared).items():
        lines.append(f"{code:<22}{broken:>14}{clean:>13}{blocks:>15}{whole:>14}")
    doubts: Counter[str] = sum((verdict.abstained for verdict in compared), Counter())
    missed: Counter[str] = sum((verdict.missed for verdict in compared), Counter())
    lines += [
        "",
        f"“not proved” was said {sum(doubts.values())} times:",
        f"  {doubts['true']} of what was so, {doubts['false']} of what was not",
        "passed over where the sets hold more cases than there are: "
        + (", ".join(f"{code} {count}" for code, count in sorted(missed.items())) or "nothing"),
    ]
    return lines


if __name__ == "__main__":
    sys.exit(main())
