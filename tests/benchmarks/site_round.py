"""What a site of 200 doors costs with its round of 200 inspections, beside a site of 10.

Run it by itself: `python -m tests.benchmarks.site_round [-o FILE]`. Every second door has a closer fitted and every one
an inspection; one of ten has a fault. Processor time of whole processes, the median of some rounds, by turns: the list
of the doors, the round, and its summary as JSON. The catalogue is as the last call left it; the first call, which reads
every log, is printed beside. Ends with 1 where the round of 200 is above the target.
"""

import argparse
import os
import statistics
import sys
import tempfile
from pathlib import Path

from guide.site.site import Round, Site, SiteDoor
from guide.site.site_files import keep_new
from tests.benchmarks.work_ratios import HINGESIDE, processor_ms
from tests.site.site_jobs import CLASSROOM, GAP, SOUND, job

FEW, MANY = 10, 200
ROUNDS = 7
TARGET = 3.0
"""The round of 200 beside that of 10."""
CALLS = {
    "list": ("site", "mill"),
    "round": ("site", "mill", "round"),
    "summary": ("site", "mill", "round", "--format", "json"),
}


def home_of(doors: int) -> Path:
    """A home with a site of so many doors, and their jobs."""
    home = Path(tempfile.mkdtemp(prefix=f"site-{doors}-"))
    os.environ["HINGESIDE_HOME"] = str(home)
    numbers = tuple(str(number + 1) for number in range(doors))
    check = Round("2027", "inspect-a-closing-door", numbers, "2027-01-01T00:00:00.000Z")
    listed = tuple(SiteDoor(number, f"Stair {number}") for number in numbers)
    keep_new(Site("Mill", "2026-11-30T08:00:00.000Z", doors=listed, rounds=(check,)))
    for place, number in enumerate(numbers):
        if place % 2:
            job("Mill", number, "2026-12-01T09:00", CLASSROOM)
        job("Mill", number, f"2027-03-{place % 28 + 1:02}T09:00", GAP if place % 10 == 0 else SOUND)
    (home / "catalogue.sqlite").unlink(missing_ok=True)
    return home


def took(home: Path, *words: str) -> float:
    """Processor time of one call [ms]."""
    os.environ["HINGESIDE_HOME"] = str(home)
    return processor_ms([sys.executable, "-c", HINGESIDE, *words])


def main() -> int:
    """Measure by turns and print."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    homes = {doors: home_of(doors) for doors in (FEW, MANY)}
    lines = [
        f"{doors} doors, every log read: {took(home, *CALLS['round']):.0f} ms"
        for doors, home in homes.items()
    ]
    ratio = 0.0
    for name, words in CALLS.items():
        all_of: dict[int, list[float]] = {doors: [] for doors in homes}
        for _ in range(ROUNDS):
            for doors, home in homes.items():
                all_of[doors].append(took(home, *words))
        few, many = (statistics.median(all_of[doors]) for doors in (FEW, MANY))
        lines.append(
            f"{name:<8} {FEW} doors {few:.0f} ms, {MANY} doors {many:.0f} ms: {many / few:.2f}"
        )
        ratio = many / few if name == "round" else ratio
    lines.append(f"target for the round: {TARGET}; {'met' if ratio <= TARGET else 'missed'}")
    text = "\n".join(lines) + "\n"
    if options.output is not None:
        options.output.write_text(text, "utf-8")
    sys.stdout.write(text)
    return int(ratio > TARGET)


if __name__ == "__main__":
    sys.exit(main())
