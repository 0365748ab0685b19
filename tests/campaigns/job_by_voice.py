"""Whole jobs carried through by voice alone, in several synthetic voices: what the ear got wrong on the way.

Run by hand: nice -n 10 python -m tests.campaigns.job_by_voice > tests/campaigns/job_by_voice.txt
Every answer of a scenario is spoken by flite into the real ear, in a quiet room, and counts after its own yes. The
ear was fitted on the voices rms and slt, not on kal16 and awb.
"""

import sys
import tempfile
from collections import Counter
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.scenario_file import load_scenario
from guide.procedure.sheet_cache import sheet_of
from guide.run.rehearse import Rehearsal
from guide.speech.pocketsphinx_engine import PocketSphinx
from guide.speech.rehearse_voice import Sayings, rehearse_aloud

VOICES = ("rms", "slt", "kal16", "awb")
JOBS = (
    *("demo", "clinic-corridor", "swimming-hall-pair", "adjust-ward-pair"),
    *("fault-slams-when-thrown", "refuse-hollow-steel"),
)
COUNTED = ("spoken", "heard", "wrong", "missed", "denied", "by_keys")


def carried(job: str, engine: PocketSphinx, sayings: Sayings) -> Rehearsal:
    """One job, by one voice."""
    scenario = load_scenario(find("scenario", job))
    graph = graph_of(find("procedure", scenario.procedure))
    sheet = None
    if scenario.sheet != "none":
        sheet = sheet_of(find("sheet", scenario.sheet)).to_json()
    folder = find("scenario", job).parent
    return rehearse_aloud(
        scenario, graph, sheet, engine, folder=folder, every=True, sayings=sayings
    )


def without_yes(found: Rehearsal) -> int:
    """Values heard that were taken without a yes of their own."""
    assert found.session is not None
    waiting = ("", "")
    taken = 0
    for event in found.session.journal.events():
        if event.kind == "heard":
            waiting = (event.body["at"], event.body["value"])
        elif event.kind == "confirmed":
            taken += bool(event.body["yes"]) and waiting[0] != event.body["at"]
            waiting = ("", "")
    return taken


def main() -> None:
    """A line for each voice, over all jobs."""
    engine = PocketSphinx()
    print(f"{len(JOBS)} jobs by voice alone: {', '.join(JOBS)}.\n")
    print(f"{'voice':7} {'jobs met':>9} {' '.join(f'{name:>8}' for name in COUNTED)} {'no yes':>7}")
    for voice in sys.argv[1:] or VOICES:
        counts: Counter[str] = Counter()
        met = unasked = 0
        with tempfile.TemporaryDirectory() as folder:
            sayings = Sayings(Path(folder), voice)
            for job in JOBS:
                found = carried(job, engine, sayings)
                counts.update(found.heard or {})
                met += found.met
                unasked += without_yes(found)
                if not found.met:
                    print(f"    {job}: {found.differences[0]}", file=sys.stderr)
        cells = " ".join(f"{counts[name]:8}" for name in COUNTED)
        print(f"{voice:7} {met:>4} of {len(JOBS)} {cells} {unasked:7}", flush=True)
    print(
        "\nspoken: sayings; wrong: heard as something else, before read-back (a value then waits for a yes, and\n"
        "gets a no); missed: not taken, as not sure enough or as a value that cannot be there, and said again;\n"
        "by_keys: answers given by keys after three misses; no yes: values that counted without one."
    )


if __name__ == "__main__":
    main()
