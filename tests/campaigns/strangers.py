"""Runs from strangers among one's own: no traceback, one sentence, little time and little memory.

    python -m tests.campaigns.strangers [--seed N] [--runs N] [-o FILE]

A true run's lines are changed at random (`hostile_runs.py`), each line with its right digest, and put in the folder of
the runs. Then every verb that reads a run, and the first screen's list, is given it in a process of its own, with two
seconds of processor time and a bounded memory.
"""

import argparse
import gc
import os
import random
import sys
import tempfile
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from PIL import Image

from guide.cli.main import main as program
from guide.files.library import runs_folder
from guide.papers.record.record_forms import FORMS, PDF
from guide.run import replies
from guide.run.photos import keep_photo, read_photo
from guide.run.rehearse import Player, Rehearsal
from guide.run.run_list import list_runs
from guide.run.store import begin_run
from tests.campaigns.children import TRACED, Call, in_a_child
from tests.campaigns.hostile_runs import Lines, hostile, unpacked_lines, write
from tests.run.kept_runs import kept_run, kept_session, path_of
from tests.run.shipped_runs import shipped, shipped_graph, shipped_sheet

SECONDS = 2.0
"""Of processor time, that one call may take."""
MEGABYTES = 400
"""That one call may take beside what the program has loaded."""
SHIPPED = "demo"
NAME = "stranger"


def verb(*words: str) -> Callable[[], int]:
    """A call of the program."""
    return lambda: program(list(words))


def home_list() -> int:
    """The first screen's list: each line of it, as the screen shows it."""
    for run in list_runs():
        print(run.title, run.door, run.step, run.at, run.missing, run.problem)
    return 0


def calls(paper: Path, form: str) -> dict[str, Callable[[], int]]:
    """Every way to read a run, by its name."""
    to_a_file = ("-o", str(paper)) if form == PDF else ()
    return {
        "home": home_list,
        f"record {form}": verb("record", NAME, "--format", form, *to_a_file),
        "verify": verb("record", "--verify", NAME),
        "template": verb("template", NAME, "-o", str(paper)),
        "resume": verb("run", "--resume", NAME, "--plain"),
    }


@dataclass
class Result:
    """What a campaign found."""

    seed: int
    runs: int = 0
    calls: int = 0
    said: Counter[str] = field(default_factory=Counter)
    """How often a run was accepted, and how often refused in a sentence."""
    slowest: float = 0.0
    largest: float = 0.0
    tracebacks: int = 0
    slow: int = 0
    killed: int = 0
    """Calls that the system ended: no memory, or far too long."""
    wordy: int = 0
    """Calls that said more than a sentence on standard error, or refused without one."""
    raw: int = 0
    """Calls that printed what steers a terminal."""
    faults: list[str] = field(default_factory=list)

    def text(self) -> str:
        """The result, one figure a line."""
        said = "".join(f"{what} {count}\n" for what, count in sorted(self.said.items()))
        return (
            f"seed {self.seed}\nhostile runs {self.runs}\ncalls {self.calls}\n{said}"
            f"tracebacks {self.tracebacks}\nslower than {SECONDS:g} s {self.slow}\n"
            f"ended by the system {self.killed}\nnot one sentence {self.wordy}\n"
            f"signs that steer a terminal {self.raw}\n"
            + "".join(f"fault: {one}\n" for one in self.faults)
        )

    @property
    def clean(self) -> bool:
        """Whether every call ended as it must."""
        return not (self.tracebacks or self.slow or self.killed or self.wordy or self.raw)


def judge(result: Result, name: str, how: str, call: Call) -> None:
    """Note what a call did that it must not do."""
    result.calls += 1
    result.slowest = max(result.slowest, call.seconds)
    result.largest = max(result.largest, call.megabytes)
    found = []
    if call.status < 0:
        result.killed += 1
        found.append(f"ended by signal {-call.status}")
    elif call.status == TRACED or "Traceback" in call.err:
        result.tracebacks += 1
        found.append(call.err.strip().splitlines()[-1][:200])
    if call.seconds > SECONDS:
        result.slow += 1
        found.append(f"{call.seconds:.1f} s")
    lines = call.err.splitlines()
    result.said["accepted" if call.status == 0 else "refused"] += 1
    # A run that is repaired as it is taken up is told of in one sentence, and refused in another.
    if len(lines) > (2 if name == "resume" else 1) or (call.status > 0 and not lines):
        result.wordy += 1
        found.append(f"{len(lines)} lines on standard error")
    shown = call.out.replace("\n", "").replace("\r", "") + call.err.replace("\n", "")
    if not shown.isprintable():
        result.raw += 1
        found.append("signs that steer a terminal")
    result.faults += [f"{name} after {how}: {one}" for one in found]


def with_photos(folder: Path) -> Path:
    """The small run with two photos, of which one is kept and the other's file is gone; a note and its correction."""
    session = kept_session("Photo studio")
    for name in ("label.png", "body.png"):
        Image.new("RGB", (40, 20), "red" if name == "label.png" else "blue").save(folder / name)
        photo = read_photo(folder / name)
        if name == "label.png":
            keep_photo(photo)
        session.send(replies.photo(session.state, photo, f"The {name.partition('.')[0]}"))
    session.send(replies.note(session.state, "The label is painted over."))
    session.close()
    return path_of(session)


def true_runs(folder: Path) -> list[Lines]:
    """A small run at its hold, the same with photos, and the shipped door's: whole, and in the middle."""
    scenario = shipped(SHIPPED)
    graph = shipped_graph(scenario.procedure)
    session = begin_run(
        graph, units="inch", sheet=shipped_sheet(scenario.sheet), about={"door": "3"}
    )
    Player(session, scenario, Rehearsal(scenario.scenario, scenario.procedure)).play()
    session.close()
    whole = unpacked_lines(path_of(session))
    small, photos = unpacked_lines(kept_run()), unpacked_lines(with_photos(folder))
    return [small, photos, whole, whole[: len(whole) // 2]]


def campaign(seed: int, runs: int, home: Path) -> Result:
    """Give so many hostile runs to every call. The home is a folder of its own."""
    os.environ["HINGESIDE_HOME"] = str(home)
    pick, result = random.Random(seed), Result(seed)
    bases = true_runs(home)
    for path in runs_folder().glob("*.run"):
        path.unlink()
    path = runs_folder() / f"{NAME}.run"
    gc.freeze()  # what is loaded need not be looked through, and copied, in every fork
    while result.runs < runs:
        how, lines = hostile(pick.choice(bases), pick)
        if not write(path, lines):
            continue
        result.runs += 1
        data = path.read_bytes()
        for name, call in calls(home / "paper.pdf", pick.choice(tuple(FORMS))).items():
            path.write_bytes(data)
            judge(result, name, f"{result.runs} {how}", in_a_child(call, home / "call", MEGABYTES))
            for left in runs_folder().iterdir():
                left.unlink()
    return result


def main() -> int:
    """Run the campaign and print what it found; 1 where a call did what it must not."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--seed", type=int, default=20_270_411)
    parser.add_argument("--runs", type=int, default=100)
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="strangers-") as home:
        result = campaign(options.seed, options.runs, Path(home))
    if options.output is not None:
        options.output.write_text(result.text(), "utf-8")
    sys.stdout.write(result.text())
    sys.stderr.write(f"slowest {result.slowest:.2f} s, largest {result.largest:.0f} MB\n")
    return 0 if result.clean else 1


if __name__ == "__main__":
    raise SystemExit(main())
