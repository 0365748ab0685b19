"""Whether a long job grows: two thousand steps in the app, the time of a key and the memory at both ends.

Run by hand: python -m tests.benchmarks.many_steps. Ends with 1 where the last hundred keys take longer than the second
hundred by more than a half, or the memory grew by more than a twentieth.
"""

import asyncio
import resource
import statistics
import tempfile
import time
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.store import begin_run
from guide.screens.hingeside_app import HingesideApp
from tests.benchmarks.start_and_keys import procedure

STEPS, SAMPLE = 2_000, 100
MOST_SLOWER, MOST_MEMORY = 1.5, 1.05


class PatientClock:
    """Two seconds a look, so that no key counts as held."""

    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        self.now += 2
        return self.now


async def keys(session: Session) -> tuple[list[float], float]:
    """Seconds of each Enter, and how much the most memory grew after the second hundred."""
    app = HingesideApp(session, Settings(), clock=PatientClock())
    took, early = [], 0
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        for number in range(STEPS):
            began = time.perf_counter()
            await pilot.press("enter")
            took.append(time.perf_counter() - began)
            if number == 2 * SAMPLE:
                early = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / early


def main() -> int:
    """Measure, print, and give 0 where it does not grow."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "tighten-hinges.yaml"
        file.write_text(procedure(STEPS + 5), "utf-8")
        session = begin_run(graph_of(file), units="inch")
        took, memory = asyncio.run(keys(session))
    first, last = (statistics.median(one) for one in (took[SAMPLE : 2 * SAMPLE], took[-SAMPLE:]))
    print(f"steps {STEPS}, ended at {session.state.graph.nodes[session.state.at[0]].id}")
    print(f"key, last hundred to second hundred  {last / first:.2f}   (at most {MOST_SLOWER})")
    print(f"memory, end to step {2 * SAMPLE}             {memory:.3f}  (at most {MOST_MEMORY})")
    return 0 if last <= MOST_SLOWER * first and memory <= MOST_MEMORY else 1


if __name__ == "__main__":
    raise SystemExit(main())
