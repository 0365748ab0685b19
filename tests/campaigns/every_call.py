"""Kill the program at every single call that it makes of the disk, before it, after it, and in the middle of a write.

    python -m tests.campaigns.every_call [-o FILE]

A small job is carried through in a process of its own, damaged once on the way so that it is repaired, and killed at
the first call, the second, and so on to the last. After each kill every event that was acknowledged must be there, the
run must be a true earlier state, and it must be possible to go on with it. Then its last line is cut off at every byte.
"""

import argparse
import contextlib
import os
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from guide.files.library import runs_folder
from guide.run.journal import Damaged, JournalError
from guide.run.log.reading import read_log
from guide.run.session import Session
from guide.run.store import begin_run, open_run, read_run, recover
from tests.run.kept_runs import lines_of, path_of
from tests.run.small_procedures import give, small

CALLS = ("write", "fsync", "fdatasync", "rename", "replace", "ftruncate", "unlink")
"""The system's own, as Python names them."""
BEFORE, HALF, AFTER = "before", "half", "after"
JOB = ("wood", "no", "done", "36 in", "done", "0", "hold", "begin", "done")


@dataclass
class Result:
    """What a campaign found."""

    kills: int = 0
    cuts: int = 0
    acknowledged: int = 0
    lost: int = 0
    untrue: int = 0
    """Runs that were not an earlier state of the job."""
    stuck: int = 0
    """Runs that could not be gone on with."""
    faults: list[str] = field(default_factory=list)

    def text(self) -> str:
        """The result, one figure a line."""
        return (
            f"kills {self.kills}\nlast line cut off {self.cuts}\nacknowledged {self.acknowledged}\n"
            f"lost {self.lost}\nnot an earlier state {self.untrue}\nnot gone on with {self.stuck}\n"
            + "".join(f"fault: {one}\n" for one in self.faults)
        )

    @property
    def clean(self) -> bool:
        """Whether nothing was lost."""
        return not (self.lost or self.untrue or self.stuck or self.faults)


class Killer:
    """Counts the calls of the disk, and kills the process at one of them."""

    def __init__(self, at: int, when: str) -> None:
        self.left = at
        self.when = when

    def around(self, name: str) -> Callable[..., object]:
        """The call, with the kill where it is this one's turn."""
        call: Callable[..., object] = getattr(os, name)

        def called(*given: object, **named: object) -> object:
            self.left -= 1
            if self.left == 0 and self.when == BEFORE:
                os._exit(9)
            if self.left == 0 and self.when == HALF and name == "write":
                file, data = given
                call(file, bytes(data)[: len(bytes(data)) // 2])  # type: ignore[call-overload]
                os._exit(9)
            found = call(*given, **named)
            if self.left == 0:
                os._exit(9)
            return found

        return called


def the_job(told: Callable[[int], object]) -> None:
    """Begin, go on, be damaged and repaired, go on; `told` gets how many events are acknowledged each time."""
    session = begin_run(small("gym-store"), units="inch", about={"door": "Gym store"})
    told(session.state.seq)
    for line in JOB[:4]:
        told(give(session, line).seq)
    session.close()
    path = path_of(session)
    *lines, last = lines_of(path)
    with path.open("r+b") as file:  # a byte goes wrong in the last line
        file.seek(len(b"".join(lines)) + len(last) // 2)
        file.write(b"~")
    told(read_log(path).counts[-1])
    try:
        open_run(path)
    except Damaged as fault:
        recover(path, fault)
    session = open_run(path)
    told(session.state.seq)
    for line in JOB[3:]:
        told(give(session, line).seq)
    session.close()


def killed_at(number: int, when: str, home: Path) -> tuple[bool, int]:
    """Carry the job through in a child that is killed; whether it was, and how many events it acknowledged last."""
    ours, theirs = os.pipe()
    child = os.fork()
    if child == 0:
        os.environ["HINGESIDE_HOME"] = str(home)
        write = os.write
        killer = Killer(number, when)
        for name in CALLS:
            setattr(os, name, killer.around(name))
        the_job(lambda count: write(theirs, f"{count}\n".encode()))
        os._exit(0)
    os.close(theirs)
    with os.fdopen(ours) as said:
        told = said.read().split()
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status) == 9, int(told[-1]) if told else 0


def look(acknowledged: int, result: Result, where: str) -> None:
    """What is left after a kill."""
    paths = list(runs_folder().glob("*.run"))
    if not paths:
        result.lost += acknowledged
        return
    (path,) = paths
    try:
        found = read_log(path)
        result.lost += max(0, acknowledged - len(found.events))
        session = _gone_on(path)
        session.close()
        read_run(path)
    except JournalError as error:
        result.stuck += 1
        result.faults.append(f"{where}: {error}")


def _gone_on(path: Path) -> Session:
    try:
        return open_run(path)
    except Damaged as fault:
        recover(path, fault)
        return open_run(path)


@contextlib.contextmanager
def a_home() -> Iterator[Path]:
    """A home of its own."""
    home = Path(tempfile.mkdtemp(prefix="every-call-"))
    os.environ["HINGESIDE_HOME"] = str(home)
    try:
        yield home
    finally:
        shutil.rmtree(home)


def kill_at_each(result: Result, every: int = 1) -> None:
    """Kill at each call, or at every so manieth."""
    small("gym-store")
    for when in (BEFORE, HALF, AFTER):
        number = 1
        while True:
            with a_home() as home:
                was, acknowledged = killed_at(number, when, home)
                if not was:
                    break
                result.kills += 1
                result.acknowledged += acknowledged
                look(acknowledged, result, f"{when} call {number}")
            number += every


def cut_at_each(result: Result) -> None:
    """Cut off the last line at every byte."""
    with a_home():
        the_job(lambda _: None)
        (path,) = runs_folder().glob("*.run")
        whole, ends = path.read_bytes(), read_log(path).ends
        events = read_run(path)[1]
        for length in range(ends[-2], len(whole)):
            path.write_bytes(whole[:length])
            found = read_log(path)
            result.cuts += 1
            result.untrue += (
                found.events != events[: found.counts[-1]] or len(found.ends) != len(ends) - 1
            )
            result.untrue += found.torn != (length > ends[-2])


def main() -> int:
    """Run the campaign and print what it found; 1 where anything was lost."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    result = Result()
    kill_at_each(result)
    cut_at_each(result)
    if options.output is not None:
        options.output.write_text(result.text(), "utf-8")
    sys.stdout.write(result.text())
    return 0 if result.clean else 1


if __name__ == "__main__":
    raise SystemExit(main())
