"""Kill the program at random moments and look for what was lost.

    python -m tests.campaigns.kills [--seed N] [--kills N] [-o FILE]

A run is carried on line by line through pipes and killed, again and again. After each kill the run file is
opened as the program would open it: its chain must be whole, and every line that was acknowledged must be
there, in order, and no line twice.
"""

import argparse
import os
import random
import select
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.run.events import Event
from guide.run.journal import JournalError
from guide.run.state import State
from guide.run.store import begin_run, read_run

DOOR = Path(__file__).parents[1] / "run" / "procedures" / "clinic-tuning.yaml"
SLOW_SWEEP = "4 s"
"""A sweep under 5 s (ADA 404.2.8.1) sends the fitter back to the valve, so the run never ends."""
AHEAD = 400
"""Lines that are waiting in the pipe; more than are read before the kill."""
A_RUN = 25
"""Kills of one run; then another is begun, so that reading it does not become the campaign."""
MARKS = ("--- ", "Noted.")
"""How an accepted line is acknowledged: the next step is shown, or the note is confirmed."""
BY_A_LINE = ("answered", "timed", "done", "noted")


@dataclass
class Result:
    """What a campaign found."""

    seed: int
    kills: int = 0
    acknowledged: int = 0
    unacknowledged: int = 0
    """Lines on the disk that had not been acknowledged yet; at most one a kill."""
    lost: int = 0
    damaged: int = 0
    before_first_step: int = 0
    """Kills that came before the program had shown its first step."""
    faults: list[str] = field(default_factory=list)

    def text(self) -> str:
        """The result, one figure a line."""
        return (
            f"seed {self.seed}\nkills {self.kills}\n"
            f"before the first step {self.before_first_step}\n"
            f"acknowledged {self.acknowledged}\nlost {self.lost}\n"
            f"on disk, not yet acknowledged {self.unacknowledged}\n"
            f"chains broken {self.damaged}\n" + "".join(f"fault: {one}\n" for one in self.faults)
        )

    def spoilt(self, error: JournalError) -> None:
        """A run that cannot be opened after a kill."""
        self.kills += 1
        self.damaged += 1
        self.faults.append(str(error))

    def judge(self, events: list[Event], given: list[tuple[str, str]], acknowledged: int) -> None:
        """Compare what a run holds of one start with what was given it then, and how much of that was acknowledged."""
        kept = [
            (event.kind, str(event.body.get("value", event.body.get("text", ""))))
            for event in events
            if event.kind in BY_A_LINE
        ]
        self.kills += 1
        self.acknowledged += acknowledged
        if kept != given[: len(kept)]:
            self.faults.append(f"kill {self.kills}: given {given[: len(kept)]}, kept {kept}")
        self.lost += max(0, acknowledged - len(kept))
        self.unacknowledged += max(0, len(kept) - acknowledged)


Given = tuple[str, tuple[str, str]]
"""A line, and the event it must become: its kind, and its value or words."""
ROUND: tuple[tuple[str, Given], ...] = (
    ("sweep-valve", ("", ("done", ""))),
    ("time-sweep", (SLOW_SWEEP, ("timed", SLOW_SWEEP))),
    ("sweep-right", (SLOW_SWEEP, ("answered", SLOW_SWEEP))),
)


def lines_from(state: State, count: int) -> list[Given]:
    """What a fitter enters from here on: three entries a round, and a note after each timing."""
    places = [place for place, _ in ROUND]
    here = state.node.id
    found: list[Given] = [("", ("done", ""))] if here not in places else []
    turn = places.index(here) if here in places else 0
    while len(found) < count:
        found.append(ROUND[turn][1])
        if turn == 1:
            words = f"quarter turn number {len(found)}"
            found.append((f"note {words}", ("noted", words)))
        turn = (turn + 1) % len(ROUND)
    return found


def run_and_kill(path: Path, lines: list[Given], pick: random.Random) -> tuple[int, bool]:
    """Carry the run on and kill it; how many lines were acknowledged, and whether it had begun."""
    command = [sys.executable, "-m", "guide.cli.main", "run", "--resume", str(path), "--plain"]
    early = pick.random() < 0.15
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write("".join(f"{line}\n" for line, _ in lines).encode())
        process.stdin.flush()
        said = b""
        deadline = time.monotonic() + (pick.uniform(0, 0.3) if early else 60)
        while (left := deadline - time.monotonic()) > 0:
            if not select.select([process.stdout], [], [], left)[0]:
                break
            block = os.read(process.stdout.fileno(), 4096)
            if not block:
                break
            if not said and not early:
                deadline = time.monotonic() + pick.uniform(0, 0.6)
            said += block
        process.send_signal(signal.SIGKILL)
        said += process.stdout.read()
        process.stdin.close()
    # A line of output that the kill cut off acknowledges nothing.
    whole = said.decode(errors="replace").split("\n")[:-1]
    shown = [line.removeprefix("Answer: ") for line in whole]
    marks = sum(line.startswith(MARKS) for line in shown)
    return max(0, marks - 1), marks > 0


def campaign(seed: int, kills: int, home: Path) -> Result:
    """Kill a run so many times. The home is a folder of its own."""
    os.environ["HINGESIDE_HOME"] = str(home)
    pick = random.Random(seed)
    result = Result(seed)
    for kill in range(kills):
        if kill % A_RUN == 0:
            before_it = set(home.glob("runs/*.run"))
            begin_run(graph_of(DOOR), units="inch").close()
            (path,) = set(home.glob("runs/*.run")) - before_it
            state, events = read_run(path)
        before = len(events)
        lines = lines_from(state, AHEAD)
        acknowledged, begun = run_and_kill(path, lines, pick)
        result.before_first_step += not begun
        try:
            state, events = read_run(path)
        except JournalError as error:
            result.spoilt(error)
            break
        result.judge(events[before:], [event for _, event in lines], acknowledged)
    return result


def main(campaign: Callable[[int, int, Path], Result], seed: int, kills: int) -> int:
    """Run a campaign, by these usual numbers, and print what it found; 1 where anything was lost."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--seed", type=int, default=seed)
    parser.add_argument("--kills", type=int, default=kills)
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="kills-") as home:
        result = campaign(options.seed, options.kills, Path(home))
    if options.output is not None:
        options.output.write_text(result.text(), "utf-8")
    sys.stdout.write(result.text())
    return 1 if result.lost or result.damaged or result.faults else 0


if __name__ == "__main__":
    raise SystemExit(main(campaign, 20_261_125, 80))
