"""How long a push to a crew's server takes for 1,000, 10,000 and 100,000 events, and how it grows.

Run it by itself: `python -m tests.benchmarks.crew_push [-o FILE]`. Each job has 100 notes, a line each. The server is a
PostgreSQL of its own on this machine's disk, with its usual settings. Of each size are printed: the push of all, a
second push that finds nothing to send, and the pull on a device that has nothing, with the processor's seconds of
this program beside the clock's. Ten times the events must not take more than the target times as long.
"""

import argparse
import json
import os
import sys
import tempfile
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from guide.crew.pull import pull
from guide.crew.push import push
from guide.crew.server import Server
from guide.crew.taking_in import DataFolder
from tests.crew import postgres
from tests.run.kept_runs import chained_anew, kept_run, parsed

SIZES = (1_000, 10_000, 100_000)
PER_JOB = 100
TARGET = 15.0
FORGET = "DROP SCHEMA IF EXISTS hingeside CASCADE"


def device_with(events: int) -> Path:
    """A data folder with so many events, in jobs of a hundred notes."""
    home = Path(tempfile.mkdtemp(prefix=f"push-{events}-"))
    os.environ["HINGESIDE_HOME"] = str(home)
    begun = parsed(path := kept_run())
    path.unlink()
    for job in range(events // PER_JOB):
        mine = json.loads(json.dumps(begun))
        mine[0]["run"] = f"{job:032x}"
        for number in range(PER_JOB):
            note = {
                "at": "hold-timber",
                "text": f"Door {job}, note {number}: hinge side is packed.",
            }
            mine.append({**begun[-1], "events": [[f"{number:032x}", "noted", note]]})
        chained_anew(path.with_name(f"job-{job:04}.run"), mine)
    return home


class Took(NamedTuple):
    """How long something took [s]."""

    clock: float
    processor: float

    def __str__(self) -> str:
        return f"{self.clock:.2f} s (processor {self.processor:.2f} s)"


def seconds(work: Callable[[], object]) -> Took:
    """How long this takes."""
    began = time.perf_counter(), time.process_time()
    work()
    return Took(time.perf_counter() - began[0], time.process_time() - began[1])


def measured(url: str, events: int) -> tuple[Took, Took, Took]:
    """How long a push takes, a second push, and a pull on an empty device."""
    home = device_with(events)
    server = Server(url)
    server.do(lambda connection: connection.execute(FORGET))
    server.prepare()
    first = seconds(lambda: push(server, home / "runs"))
    again = seconds(lambda: push(server, home / "runs"))
    other = DataFolder(Path(tempfile.mkdtemp(prefix="pull-")), own=False)
    got = seconds(lambda: pull(server, other))
    server.close()
    assert len(other.outcome.added) == events // PER_JOB
    assert not other.outcome.left
    return first, again, got


def main() -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    lines, pushes = [], []
    with postgres.database(settings="") as folder:
        url = f"postgresql://{postgres.OWNER}@/postgres?host={folder}"
        for events in SIZES:
            first, again, got = measured(url, events)
            pushes.append(first.clock)
            lines.append(f"{events:,} events: push {first}, push again {again}, pull {got}")
    ratios = [later / earlier for earlier, later in pairwise(pushes)]
    grows = " and ".join(f"{ratio:.1f}" for ratio in ratios)
    lines.append(f"ten times the events take {grows} times as long, target {TARGET:g}")
    text = "\n".join(lines) + "\n"
    if options.output is not None:
        options.output.write_text(text, "utf-8")
    sys.stdout.write(text)
    return int(max(ratios) > TARGET)


if __name__ == "__main__":
    raise SystemExit(main())
