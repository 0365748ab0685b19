"""How soon the first screen lists 2,000 jobs, beside 20.

Run it by itself: `python -m tests.benchmarks.home_list [-o FILE]`. The jobs are of the shipped procedure, each with
its graph; half have ended. The app runs in a pseudo-terminal, by turns in a home with few jobs and in one with many.
Of each are printed, as the median of some rounds: the first screen, and the moment when a search has found the one
job it is for.
The ratio of many to few, with the catalogue as the last start left it, must not be above its target. The first start,
which reads every log, is printed beside.
"""

import argparse
import json
import os
import statistics
import sys
import tempfile
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.run.store import begin_run
from tests.benchmarks.start_and_keys import Terminal
from tests.run.kept_runs import chained_anew, parsed, path_of

FEW, MANY = 20, 2_000
ROUNDS = 7
TARGET = 1.3
HOME = "from guide.cli.main import main; raise SystemExit(main([]))"


def home_of(count: int) -> Path:
    """A home with so many jobs, every second one ended."""
    home = Path(tempfile.mkdtemp(prefix=f"home-{count}-"))
    os.environ["HINGESIDE_HOME"] = str(home)
    session = begin_run(graph_of(find("procedure", "fit-surface-closer")), units="inch")
    session.send(("paused", {}))
    path = path_of(session)
    session.close()
    lines = parsed(path)
    path.unlink()
    for number in range(count):
        mine = json.loads(json.dumps(lines))
        mine[0]["run"] = f"{number:032x}"
        mine[1]["events"][0][2]["about"]["door"] = f"Door {number}" if number else "Oldest gate"
        mine[-1]["utc"] = f"2027-03-01T{number // 100 % 24:02}:{number % 60:02}:00.000Z"
        if number % 2:
            mine[-1]["events"] = [["0" * 32, "ended", {"outcome": "made-safe", "why": "Rain."}]]
        chained_anew(path.with_name(f"door-{number:04}.run"), mine)
    (home / "catalogue.sqlite").unlink(missing_ok=True)
    return home


def opened(home: Path) -> tuple[float, float]:
    """Seconds until the first screen, and until the oldest job is found on it."""
    window = Terminal(
        [sys.executable, "-c", HOME],
        {**os.environ, "HINGESIDE_HOME": str(home), "TERM": "xterm-256color"},
    )
    try:
        first = window.wait_for("Go on with which job?", 60) - window.began
        window.press("/")
        window.wait_for("Find a door", 120)
        window.press("oldest")
        found = window.wait_for("Oldest gate", 120) - window.began
    finally:
        window.close()
    return first, found


def main() -> int:
    """Measure by turns and print."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    homes = {count: home_of(count) for count in (FEW, MANY)}
    lines = []
    for count, home in homes.items():
        first, found = opened(home)
        lines.append(
            f"{count} jobs, every log read: first screen {first:.2f} s, found {found:.2f} s"
        )
    took: dict[int, list[tuple[float, float]]] = {count: [] for count in homes}
    for _ in range(ROUNDS):
        for count, home in homes.items():
            took[count].append(opened(home))
    median = {
        n: [statistics.median(one) for one in zip(*all_of, strict=True)]
        for n, all_of in took.items()
    }
    for count, (first, found) in median.items():
        lines.append(
            f"{count} jobs, from the catalogue: first screen {first:.2f} s, found {found:.2f} s"
        )
    ratio = median[MANY][1] / median[FEW][1]
    lines.append(f"ratio {ratio:.2f}, target {TARGET}")
    text = "\n".join(lines) + "\n"
    if options.output is not None:
        options.output.write_text(text, "utf-8")
    sys.stdout.write(text)
    return int(ratio > TARGET)


if __name__ == "__main__":
    raise SystemExit(main())
