"""How soon a run's first step is on the screen, and how soon the next one after a key, beside a bare app.

Run it by itself, on a machine that does nothing else: `python -m tests.benchmarks.start_and_keys`.
The programs run in pseudo-terminals, by turns, from compiled bytecode: a bare app, a run of small steps, and for the
start the shipped procedure for fitting too. The key is Enter: in the run it
sends `done`, which is on the disk (fdatasync) before the next step is painted; in the bare app it updates
one Static. A start is judged by its ratio to the bare app's, a key by one frame of a screen: nobody sees less.
Ends with 1 where one of the two is above its target.
"""

import fcntl
import os
import pty
import select
import statistics
import struct
import subprocess
import sys
import tempfile
import termios
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
STARTS, KEYS = 15, 120
WAIT = 0.30
"""Seconds between two keys: longer than a held key is ignored for."""
MOST_RATIO = 1.5
"""A start to the first step, in starts of the bare app."""
ONE_FRAME = 16.0
"""A key to the next step, at the 95th percentile [ms]."""
COLUMNS, ROWS = 80, 24
SHIPPED = ROOT / "procedures" / "fit-surface-closer.yaml"
SHIPPED_FIRST = "Is the leaf one of these"
"""What its first step asks."""

BARE = """
from textual.app import App
from textual.widgets import Static

class Bare(App):
    def compose(self):
        self.count = 1
        self.text = Static("Tighten hinge screw 1 of the leaf.")
        yield self.text
    def on_key(self, event):
        if event.key == "enter":
            self.count += 1
            self.text.update(f"Tighten hinge screw {self.count} of the leaf.")

Bare().run()
"""
RUN = """
import gc
import sys
from pathlib import Path

from guide.cli.main import CHECK_COLLECTS_AT
gc.set_threshold(CHECK_COLLECTS_AT)
from guide.checker.graph_cache import graph_of
from guide.run.settings import load_settings
from guide.run.store import begin_run
from guide.screens.app import run_app

session = begin_run(graph_of(Path(sys.argv[1])), units="inch")
raise SystemExit(run_app(session, load_settings()))
"""
"""The run as the program begins it, without the question for the door's name, which the app asks first."""


def procedure(steps: int) -> str:
    """A procedure of so many steps, each with a caution and a reason."""
    lines = ["procedure: tighten-hinges", "edition: 1", "title: Tighten the hinges", "steps:"]
    for number in range(1, steps + 1):
        lines += [
            f"  - do: {{id: screw-{number}, text: Tighten hinge screw {number} of the leaf.,",
            "         why: A loose hinge moves every other measure., looks_right: The leaf hangs plumb.,",
            "         caution: {caution: Mind the leaf; it is wedged, not held.}, minutes: 1}",
        ]
    return "\n".join([*lines, "  - end: {id: over, outcome: finished}", ""]).replace(
        "leaf; it is wedged, not held.", "leaf. It is only wedged."
    )


class Terminal:
    """A program in a pseudo-terminal."""

    def __init__(self, arguments: list[str], environment: dict[str, str]) -> None:
        self.began = time.perf_counter()
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        self.process = subprocess.Popen(
            arguments, stdin=theirs, stdout=theirs, stderr=theirs, env=environment, cwd=ROOT
        )
        os.close(theirs)
        self.file = ours
        self.seen = b""

    def wait_for(self, text: str, limit: float = 20.0) -> float:
        """Read until the text has come; the moment it came."""
        end = time.perf_counter() + limit
        while text.encode() not in self.seen:
            ready, _, _ = select.select([self.file], [], [], max(0.0, end - time.perf_counter()))
            if not ready:
                raise SystemExit(
                    f"“{text}” never came; the screen's last bytes: {self.seen[-400:]!r}"
                )
            self.seen += os.read(self.file, 65536)
        return time.perf_counter()

    def press(self, keys: str) -> None:
        """Press keys that have a character."""
        os.write(self.file, keys.encode())

    def press_enter(self, text: str) -> float:
        """Seconds from the key to the text."""
        self.rest()
        self.seen = b""
        began = time.perf_counter()
        os.write(self.file, b"\r")
        return self.wait_for(text) - began

    def rest(self) -> None:
        """Read what is left of the last painting."""
        while select.select([self.file], [], [], 0)[0]:
            os.read(self.file, 65536)

    def close(self) -> None:
        """End the program."""
        self.process.terminate()
        self.process.wait()
        os.close(self.file)


def main() -> int:
    """Measure, print, and give 0 where both targets are met."""
    with tempfile.TemporaryDirectory() as folder:
        return measure(Path(folder))


def measure(folder: Path) -> int:
    """Measure with everything kept in one folder."""
    file = folder / "tighten-hinges.yaml"
    file.write_text(procedure(KEYS + 10), "utf-8")
    environment = {
        key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"
    }
    environment |= {
        "HINGESIDE_HOME": str(folder / "home"),
        "PYTHONPYCACHEPREFIX": str(folder / "bytecode"),
        "PYTHONPATH": str(ROOT),
        "TERM": "xterm-256color",
        "LANG": "C.UTF-8",
    }
    programs = {
        "bare": [sys.executable, "-c", BARE],
        "run": [sys.executable, "-c", RUN, str(file)],
    }
    first = "hinge screw 1 of"
    started = programs | {"shipped": [sys.executable, "-c", RUN, str(SHIPPED)]}
    starts: dict[str, list[float]] = {name: [] for name in started}
    for number in range(STARTS + 1):
        for name, arguments in started.items():
            terminal = Terminal(arguments, environment)
            shows = SHIPPED_FIRST if name == "shipped" else first
            taken = terminal.wait_for(shows) - terminal.began
            terminal.close()
            if number:  # the first start compiles, and fills the cache of graphs
                starts[name].append(taken)
    keys: dict[str, list[float]] = {name: [] for name in programs}
    terminals = {name: Terminal(arguments, environment) for name, arguments in programs.items()}
    for terminal in terminals.values():
        terminal.wait_for(first)
    time.sleep(2)
    for number in range(2, KEYS + 2):
        for name, terminal in terminals.items():
            keys[name].append(terminal.press_enter(f"screw {number} of"))
        time.sleep(WAIT)
    for terminal in terminals.values():
        terminal.close()
    return report(starts, keys)


def report(starts: dict[str, list[float]], keys: dict[str, list[float]]) -> int:
    """Print the figures; 0 where both targets are met."""
    for what, taken in (("start to first step", starts), ("key to next step", keys)):
        for name in taken:
            middle, high = statistics.median(taken[name]) * 1000, p95(taken[name]) * 1000
            print(f"{what:<20} {name:<5} median {middle:7.1f} ms   p95 {high:7.1f} ms")
    bare = statistics.median(starts["bare"])
    small, ratio = (statistics.median(starts[name]) / bare for name in ("run", "shipped"))
    frame = p95(keys["run"]) * 1000
    print(
        f"start, ratio of medians    {ratio:.2f}   (at most {MOST_RATIO}; {small:.2f} of a run of small steps)"
    )
    print(f"key, p95                   {frame:.1f} ms   (at most {ONE_FRAME:g} ms, one frame)")
    return 0 if ratio <= MOST_RATIO and frame <= ONE_FRAME else 1


def p95(values: list[float]) -> float:
    """The value that 95 in 100 are not above."""
    return sorted(values)[max(0, -(-len(values) * 95 // 100) - 1)]


if __name__ == "__main__":
    raise SystemExit(main())
