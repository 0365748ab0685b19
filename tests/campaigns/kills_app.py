"""Kill the app at random moments, in a terminal, and look for what was lost.

    python -m tests.campaigns.kills_app [--seed N] [--kills N] [-o FILE]

The app is opened with a job in a pseudo-terminal and given one entry at a time, as a person does: the next only after
the screen shows the next step, which acknowledges the one before. After each kill the run file must hold every
acknowledged entry, in order, and no entry twice.
"""

import os
import random
import select
import time
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.run.journal import JournalError
from guide.run.store import begin_run, read_run
from tests.campaigns.kills import DOOR, SLOW_SWEEP, Result, main
from tests.screens.window import Window

A_RUN = 40
"""Kills of one run; then another is begun, so that opening it does not become the campaign."""
ENTRIES = {
    "hand-on-leaf": ("\r", ("done", "")),
    "sweep-valve": ("\r", ("done", "")),
    "time-sweep": (f"{SLOW_SWEEP}\r", ("timed", SLOW_SWEEP)),
    "sweep-right": (f"{SLOW_SWEEP}\r", ("answered", SLOW_SWEEP)),
}
"""For each step the keys, and the event that they become."""
GUARD = 0.35
"""Seconds after a step is shown before a key counts: a key that is held down must not pass it."""


def step_on(screen: list[str]) -> str:
    """The step that the screen shows; empty if none can be read."""
    text = "\n".join(screen)
    if "Swing it shut" in text:
        return "hand-on-leaf"
    if "Set the sweep valve" in text:
        return "sweep-valve"
    if "How long from 90 to 12" in text:
        return "sweep-right" if "at least 5 s" in text else "time-sweep"
    return ""


def run_and_kill(path: Path, pick: random.Random) -> tuple[list[tuple[str, str]], int, bool]:
    """Carry the job on and kill the app: what was entered, how much of it acknowledged, and whether a step was seen."""
    window = Window("run", "--resume", str(path))
    early = pick.random() < 0.15
    deadline = time.monotonic() + (pick.uniform(0, 0.8) if early else 60)
    entered: list[tuple[str, str]] = []
    acknowledged, shown, since = 0, "", 0.0
    while (now := time.monotonic()) < deadline:
        here = step_on(window.screen.display)
        if here and here != shown:
            if not shown and not early:
                deadline = now + pick.uniform(0, 4)
            acknowledged = len(entered)
            shown, since = here, now
        if here and len(entered) == acknowledged and now - since > GUARD:
            keys, event = ENTRIES[here]
            window.press(keys)
            entered.append(event)
        if select.select([window.file], [], [], 0.02)[0] and not window.read():
            break
    window.process.kill()
    window.process.wait()
    while select.select([window.file], [], [], 0)[0] and window.read():
        pass
    if (here := step_on(window.screen.display)) and shown and here != shown:
        acknowledged = len(entered)
    os.close(window.file)
    return entered, acknowledged, bool(shown)


def campaign(seed: int, kills: int, home: Path) -> Result:
    """Kill the app so many times. The home is a folder of its own."""
    os.environ["HINGESIDE_HOME"] = str(home)
    pick = random.Random(seed)
    result = Result(seed)
    path, known = Path(), 0
    for kill in range(kills):
        if kill % A_RUN == 0:
            before = set(home.glob("runs/*.run"))
            begin_run(graph_of(DOOR), units="inch").close()
            (path,) = set(home.glob("runs/*.run")) - before
            known = len(read_run(path)[1])
        entered, acknowledged, begun = run_and_kill(path, pick)
        result.before_first_step += not begun
        try:
            _, events = read_run(path)
        except JournalError as error:
            result.spoilt(error)
            break
        result.judge(events[known:], entered, acknowledged)
        known = len(events)
    return result


if __name__ == "__main__":
    raise SystemExit(main(campaign, 20_261_130, 20))
