"""What the plan of a schedule costs beyond the start of the interpreter, by the number of its doors.

Run it by itself: `python -m tests.benchmarks.plan_doors`. Processor time of whole processes, from compiled bytecode and
with procedure and sheet in the cache; the median of some rounds, by turns. The doors are invented from a seed, and most
differ from each other in width, material, fire rating or hand. Beside the times stand two ratios that do not depend on
the machine: to the bare interpreter, and what a door costs among 500 to what it costs among 5,000. Ends with 1 where
500 doors are above the target.
"""

import csv
import os
import random
import statistics
import sys
import tempfile
from pathlib import Path

from tests.benchmarks.work_ratios import HINGESIDE, processor_ms

ROUNDS = 5
TARGET = 2_000.0
"""For 500 doors [ms], start included."""
SIZES = (10, 50, 500, 5_000)
JUDGED = 500
_HEADINGS = ("Mark", "Location", "Size", "Thickness", "Hand", "Door material", "Core")
_MORE = ("Frame", "Fire rating", "Hinge type", "Closer", "Int/Ext", "Prep", "Remarks")
_LEAVES = (("HM", "Honeycomb"), ("HM", "Mineral"), ("WD", "Lumber core"), ("SCWD", "Particleboard"))


def schedule(path: Path, doors: int) -> None:
    """Write a schedule of so many invented doors."""
    rng = random.Random(4711)
    with path.open("w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow((*_HEADINGS, *_MORE))
        for number in range(doors):
            leaf, core = rng.choice(_LEAVES)
            feet, inches = rng.choice((2, 3)), rng.randrange(0, 12)
            size = f"{feet}'-{inches}\" x {rng.choice((6, 7, 8))}'-{rng.choice((0, 8, 10))}\""
            rows.writerow(
                (
                    *(f"D{number + 1:04}", f"Room {number + 1}", size, '1 3/4"'),
                    *(rng.choice(("LH", "RH", "LHR", "RHR")), leaf, core),
                    *(rng.choice(("HM", "WD")), rng.choice(("90 MIN", "20 MIN", "NR", "-"))),
                    *(rng.choice(("Butt", "Continuous")), rng.choice(("Y", "Y", "PA", "TJ"))),
                    *(rng.choice(("INT", "INT", "EXT")), rng.choice(("Reinforced", "None"))),
                    rng.choice(("", "", "", "Coordinator", "Overhead stop", "Kick plate")),
                )
            )


def main() -> int:
    """Measure by turns and print."""
    os.environ["HINGESIDE_HOME"] = home = tempfile.mkdtemp(prefix="plan-doors-")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    commands: dict[str, list[str]] = {"the interpreter": [sys.executable, "-c", "pass"]}
    for doors in SIZES:
        path = Path(home) / f"{doors}.csv"
        schedule(path, doors)
        arguments = ["plan", str(path), "--sheet", "generic-a"]
        commands[f"{doors} doors"] = [sys.executable, "-c", HINGESIDE, *arguments]
    for command in commands.values():
        processor_ms(command)  # bytecode and cache
    took: dict[str, list[float]] = {name: [] for name in commands}
    for _ in range(ROUNDS):
        for name, command in commands.items():
            took[name].append(processor_ms(command))
    median = {name: statistics.median(all_of) for name, all_of in took.items()}
    start = median["the interpreter"]
    print(f"{'':<18}{'median ms':>10}{'to start':>10}{'ms a door':>11}")
    for name, ms in median.items():
        doors = int(name.split()[0]) if name[0].isdigit() else 0
        each = f"{(ms - median['10 doors']) / doors:>11.2f}" if doors > 10 else ""
        print(f"{name:<18}{ms:>10.0f}{ms / start:>10.1f}{each}")
    small, large = median[f"{JUDGED} doors"], median[f"{SIZES[-1]} doors"]
    base = median["10 doors"]
    grows = (large - base) / (SIZES[-1] - 10) / ((small - base) / (JUDGED - 10))
    print(f"a door among {SIZES[-1]:,} to one among {JUDGED}: {grows:.2f}")
    print(f"target: {TARGET:.0f} ms for {JUDGED} doors; {'met' if small <= TARGET else 'missed'}")
    return int(small > TARGET)


if __name__ == "__main__":
    sys.exit(main())
