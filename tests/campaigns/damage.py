"""Damage run files and look for an altered event that passes for what was written.

    python -m tests.campaigns.damage [--seed N] [--flips N] [--cuts N] [-o FILE]

Three runs of the gym store are kept: one closed, one still open in this program, one whose program was killed in the
middle. Each damage is made to a copy of one of them: a bit turned, or the end cut off at any byte. A copy must be
read as a true earlier state, or say that it is torn, damaged, not a run or of another version; and where it is gone on
with, the run must say what was removed, and nothing that was there before may be gone from beside it.
"""

import argparse
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from guide.run.events import Event
from guide.run.journal import Damaged, JournalError, NotARun, OtherVersion
from guide.run.log.reading import read_log
from guide.run.run_list import list_runs
from guide.run.store import open_run, read_run, recover
from tests.run.kept_runs import kept_run, kept_session, path_of

GYM_STORE = Path(__file__).parents[1] / "run" / "procedures" / "gym-store.yaml"
LINES = ("wood", "no", "", "36 in", "", "note The hinge edge is planed.", "0")


@dataclass
class Result:
    """What a campaign found."""

    seed: int
    said: Counter[str] = field(default_factory=Counter)
    """How often a damaged file was said to be what."""
    altered: int = 0
    """Events that were not those written, in a file that passed for whole or in the part called sound."""
    silent: int = 0
    """Runs gone on with that were shorter and did not say so themselves."""
    untold: int = 0
    """Removed bytes that were not kept beside."""
    faults: list[str] = field(default_factory=list)

    def text(self) -> str:
        """The result, one figure a line."""
        said = "".join(f"said to be {what} {count}\n" for what, count in sorted(self.said.items()))
        return (
            f"seed {self.seed}\ndamages {self.said.total()}\n{said}altered events passed {self.altered}\n"
            f"gone on with in silence {self.silent}\nremoved and not kept {self.untold}\n"
            + "".join(f"fault: {one}\n" for one in self.faults)
        )

    @property
    def clean(self) -> bool:
        """Whether nothing was passed for what it is not."""
        return not (self.altered or self.silent or self.untold or self.faults)


def killed_run() -> Path:
    """A run whose program was killed while it waited for a line."""
    before = {run.path for run in list_runs()}
    with subprocess.Popen(
        [sys.executable, "-m", "guide.cli.main", "run", str(GYM_STORE), "--plain"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write("".join(f"{line}\n" for line in ("", *LINES)))
        process.stdin.flush()
        while "--- hold-timber" not in process.stdout.readline():
            assert process.poll() is None
        process.send_signal(signal.SIGKILL)
    (path,) = {run.path for run in list_runs()} - before
    return path


def flipped(whole: bytes, pick: random.Random) -> bytes:
    """One bit turned."""
    changed = bytearray(whole)
    changed[pick.randrange(len(whole))] ^= 1 << pick.randrange(8)
    return bytes(changed)


def cut(whole: bytes, pick: random.Random) -> bytes:
    """The end cut off, at any byte."""
    return whole[: pick.randrange(len(whole))]


def look(copy: Path, whole: bytes, written: list[Event], result: Result) -> None:
    """What the program says of a damaged copy, and what it makes of it."""
    damaged = copy.read_bytes()
    ends_whole = whole.startswith(damaged) and damaged.endswith(b"\n")
    try:
        found = read_log(copy)
    except (NotARun, OtherVersion) as error:
        result.said["not a run" if isinstance(error, NotARun) else "of another version"] += 1
        _need_untouched(copy, damaged, result)
        return
    fault = found.fault()
    result.said[str(fault.cause) if fault is not None else "an earlier state"] += 1
    same = found.events == written[: len(found.events)]
    result.altered += not same or (fault is None and not ends_whole)
    try:
        session = open_run(copy)
    except Damaged as error:
        _need_untouched(copy, damaged, result)
        recover(copy, error)
        if not copy.exists():
            return
    else:
        session.close()
    _need_said(copy, damaged, fault, result)


def _need_untouched(copy: Path, damaged: bytes, result: Result) -> None:
    if [one.name for one in copy.parent.glob("copy*")] != [
        copy.name
    ] or copy.read_bytes() != damaged:
        result.faults.append("a file was touched that is not to be touched")


def _need_said(copy: Path, damaged: bytes, fault: Damaged | None, result: Result) -> None:
    """A run that has become shorter says so itself, and what was removed is beside it."""
    _, events = read_run(copy)
    said = [event.body for event in events if event.kind == "repaired"]
    result.silent += (fault is not None) != bool(said)
    for body in said:
        removed = copy.with_name(str(body["aside"])).read_bytes()
        result.untold += not (damaged.endswith(removed) and len(removed) == body["bytes"])


def campaign(seed: int, flips: int, cuts: int, home: Path) -> Result:
    """Damage copies of three runs so many times. The home is a folder of its own."""
    os.environ["HINGESIDE_HOME"] = str(home)
    pick, result = random.Random(seed), Result(seed)
    still_open = kept_session("Boiler room")
    runs = [kept_run("Library stacks"), path_of(still_open), killed_run()]
    kept = [(path.read_bytes(), read_run(path)[1]) for path in runs]
    copy = runs[0].with_name("copy.run")
    for number in range(flips + cuts):
        whole, written = kept[number % len(kept)]
        copy.write_bytes((flipped if number < flips else cut)(whole, pick))
        try:
            look(copy, whole, written, result)
        except JournalError as error:
            result.faults.append(str(error))
        for left in copy.parent.glob("copy*"):
            left.unlink()
        if (
            number % 500 == 0
        ):  # what is remembered of the three must not stand in for what the copies say
            (home / "catalogue.sqlite").unlink(missing_ok=True)
    for path, (whole, _) in zip(runs, kept, strict=True):
        if path.read_bytes() != whole:
            result.faults.append(f"{path.name} was changed")
    still_open.close()
    return result


def main() -> int:
    """Run the campaign and print what it found; 1 where anything passed for what it is not."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--seed", type=int, default=20_270_301)
    parser.add_argument("--flips", type=int, default=5_000)
    parser.add_argument("--cuts", type=int, default=500)
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    home = Path(tempfile.mkdtemp(prefix="damage-"))
    try:
        result = campaign(options.seed, options.flips, options.cuts, home)
    finally:
        shutil.rmtree(home)
    if options.output is not None:
        options.output.write_text(result.text(), "utf-8")
    sys.stdout.write(result.text())
    return 0 if result.clean else 1


if __name__ == "__main__":
    raise SystemExit(main())
