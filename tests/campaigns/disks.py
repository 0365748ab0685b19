"""Disks that refuse, clocks that jump and many windows at once: is an answer lost without a word?

    python -m tests.campaigns.disks [--seed N] [-o FILE]

- A small job is carried through, and one call that the program makes of the disk is refused: the first, the second, and
  so on to the last, each for every cause. What is refused must be told in a sentence that names the cause; what was
  acknowledged must be in the file, once; and the job must come to its end once the disk works again.
- The same answers are given to the program line by line while no file may grow beyond a size, also within a cut.
- Many windows begin a job at once; many continue one job at once, of which exactly one may write.
- The clock jumps back and forward between two answers.
"""

import argparse
import contextlib
import errno
import io
import os
import random
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from unittest.mock import patch

from guide.cli.main import main as program
from guide.files.library import runs_folder
from guide.run.journal import JournalError
from guide.run.log.reading import read_log
from guide.run.run_list import list_runs
from guide.run.session import Session
from guide.run.store import begin_run, open_run, read_run
from tests.campaigns.children import Child, begin_child
from tests.cli.program import started
from tests.run.kept_runs import kept_run, path_of
from tests.run.small_procedures import draft, small

GYM_STORE = str(Path(__file__).parents[1] / "run" / "procedures" / "gym-store.yaml")
JOB = ("wood", "no", "done", "36 in", "done", "0", "hold", "begin", "done")
LINES = ("wood", "no", "", "36 in", "", "0", "yes", "begin", "")
"""The same, as they are typed."""
CALLS = ("open", "write", "fsync", "fdatasync", "rename", "replace", "ftruncate")
FULL, NOT_WRITABLE, SILENT = "disk is full", "cannot be written", "disk does not answer"
CAUSES = {
    errno.ENOSPC: FULL,
    errno.EDQUOT: FULL,
    errno.EROFS: NOT_WRITABLE,
    errno.EACCES: NOT_WRITABLE,
    errno.EIO: SILENT,
}
"""What the sentence must name."""
WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT


@dataclass
class Result:
    """What a campaign found."""

    seed: int
    refusals: int = 0
    acknowledged: int = 0
    lost: int = 0
    """Acknowledged answers that are not in the file."""
    twice: int = 0
    """Answers that are in the file twice, or that were refused for certain and are there."""
    wrong_cause: int = 0
    tracebacks: int = 0
    stuck: int = 0
    """Jobs that did not come to their end once the disk worked again."""
    starts: int = 0
    resumes: int = 0
    writers: int = 0
    """Windows that wrote a job which many continued at once; one for each job is right."""
    jobs: int = 0
    """Jobs that many windows continued at once."""
    clocks: int = 0
    faults: list[str] = field(default_factory=list)

    def text(self) -> str:
        """The result, one figure a line."""
        return (
            f"seed {self.seed}\ncalls of the disk refused {self.refusals}\n"
            f"acknowledged {self.acknowledged}\nlost {self.lost}\nkept twice or against its word {self.twice}\n"
            f"another cause named {self.wrong_cause}\ntracebacks {self.tracebacks}\n"
            f"not brought to an end {self.stuck}\nstarts at once {self.starts}\n"
            f"jobs continued at once {self.jobs}\nwindows at them {self.resumes}\nwriters of them {self.writers}\n"
            f"clocks that jump {self.clocks}\n" + "".join(f"fault: {one}\n" for one in self.faults)
        )

    @property
    def clean(self) -> bool:
        """Whether nothing was lost, and each job had one writer."""
        wrong = self.lost or self.twice or self.wrong_cause or self.tracebacks or self.stuck
        return not (wrong or self.faults) and self.writers == self.jobs

    def fault(self, what: str) -> None:
        """Note what went wrong."""
        self.faults.append(what)


# --- one call refused ---


class Refuser:
    """Refuses one call of the disk, and takes a part of the data first where that is asked for."""

    def __init__(self, at: int, cause: int, *, part: bool = False) -> None:
        self.left = at
        self.cause = cause
        self.part = part
        self.refused = ""
        """The call that was refused."""

    def around(self, name: str) -> Callable[..., object]:
        """The call, refused where it is this one's turn."""
        call: Callable[..., object] = getattr(os, name)

        def called(*given: object, **named: object) -> object:
            if name == "open" and not (isinstance(given[1], int) and given[1] & WRITES):
                return call(*given, **named)
            self.left -= 1
            if self.left == -1 and self.refused == "write":  # what is left of a write in parts
                raise OSError(self.cause, os.strerror(self.cause))
            if self.left:
                return call(*given, **named)
            self.refused = name
            if self.part and name == "write":
                file, data = given
                whole = bytes(data)  # type: ignore[call-overload]
                return call(file, whole[: len(whole) // 2])
            raise OSError(self.cause, os.strerror(self.cause))

        return called


@contextlib.contextmanager
def refusing(refuser: Refuser) -> Iterator[None]:
    """The disk with one call refused."""
    with contextlib.ExitStack() as stack:
        for name in CALLS:
            stack.enter_context(patch.object(os, name, refuser.around(name)))
        yield


@contextlib.contextmanager
def a_home() -> Iterator[Path]:
    """A home of its own."""
    with tempfile.TemporaryDirectory(prefix="disks-") as home:
        os.environ["HINGESIDE_HOME"] = home
        yield Path(home)


def refuse_each(result: Result, every: int = 1) -> None:
    """Refuse each call, or every so manieth, for each cause."""
    small("gym-store")
    for cause in CAUSES:
        for part in (False, True) if cause == errno.ENOSPC else (False,):
            number = 1
            while refuse_one(result, Refuser(number, cause, part=part)):
                number += every


def refuse_one(result: Result, refuser: Refuser) -> bool:
    """Carry the job through with one call refused; whether there was such a call."""
    number = refuser.left
    with a_home():
        told = Told(result, f"call {number}, {errno.errorcode[refuser.cause]}")
        try:
            with refusing(refuser):
                session = told.carried(refuser)
        except JournalError as error:  # no run was begun
            told.need_cause(refuser, str(error), begun=False)
            session = told.carried(refuser)
        except OSError as error:
            result.tracebacks += 1
            result.fault(f"{told.where}, {refuser.refused}: {error!r}")
            return True
        result.refusals += bool(refuser.refused)
        told.look(session)
    return bool(refuser.refused)


class Told:
    """A job that is carried through, and what was acknowledged of it."""

    def __init__(self, result: Result, where: str) -> None:
        self.result = result
        self.where = where
        self.acknowledged: list[str] = []

    def carried(self, refuser: Refuser) -> Session:
        """The job, brought to its last step. Raises JournalError where it cannot even be begun."""
        session = begin_run(small("gym-store"), units="inch", about={"door": "Gym store"})
        for line in JOB:
            session = self._given(session, line, refuser)
        return session

    def _given(self, session: Session, line: str, refuser: Refuser) -> Session:
        try:
            session.send(draft(session.state, line))
        except JournalError as error:
            words = str(error)
            self.need_cause(refuser, words, begun=True)
            if "open it again" in words:
                session.close()
                session = open_run(path_of(session))
            kept = len(by_hand(path_of(session))) > len(self.acknowledged)
            _report_the_cut(session)
            if kept and "not known" not in words:
                self.result.twice += 1
                self.result.fault(f"{self.where}: “{line}” is kept against its word")
            if not kept:
                session.send(draft(session.state, line))
        self.acknowledged.append(line)
        return session

    def need_cause(self, refuser: Refuser, words: str, *, begun: bool) -> None:
        """Note a sentence that names another cause, or an answer that nobody gave."""
        wanted = CAUSES[refuser.cause]
        others = {*CAUSES.values()} - {wanted}
        if (
            wanted not in words.replace("The disk", "disk")
            or any(one in words for one in others)
            or (not begun and "last answer" in words)
        ):
            self.result.wrong_cause += 1
            self.result.fault(f"{self.where}, {refuser.refused}: {words}")

    def look(self, session: Session) -> None:
        """What is in the file at the end."""
        session.close()
        found, wanted = by_hand(path_of(session)), STRAIGHT
        self.result.acknowledged += len(self.acknowledged)
        self.result.lost += max(0, len(wanted) - len(found))
        self.result.twice += max(0, len(found) - len(wanted))
        if found != wanted:
            self.result.fault(f"{self.where}: {found}")
        state, _ = read_run(path_of(session))
        if state.at != session.state.at or not list_runs():
            self.result.stuck += 1
            self.result.fault(f"{self.where}: it stands elsewhere")


def _report_the_cut(session: Session) -> None:
    """Answer the question that a run asks when it was closed within a cut."""
    if session.state.unreported_cut() is not None:
        session.send(draft(session.state, "part drilled"))


Given = tuple[str, object]
"""Kind and value of an event that a person made."""
BY_HAND = ("answered", "done", "cut begun", "hold passed")


def by_hand(path: Path) -> list[Given]:
    """What was given, as the file has it."""
    _, events = read_run(path)
    return [(event.kind, event.body.get("value")) for event in events if event.kind in BY_HAND]


def straight_job() -> list[Given]:
    """The same, of the job on a disk that works."""
    with a_home():
        session = begin_run(small("gym-store"), units="inch")
        for line in JOB:
            session.send(draft(session.state, line))
        session.close()
        return by_hand(path_of(session))


STRAIGHT: list[Given] = []
"""Filled once, by `campaign`."""


# --- no room, line by line ---


def no_room(result: Result, pick: random.Random, times: int) -> None:
    """A job line by line while no file may grow beyond a size that is reached somewhere on the way."""
    for _ in range(times):
        with a_home():
            path = kept_run()
            room = path.stat().st_size + pick.randrange(100, 4000)
            notes = [f"note Screw {number} was loose." for number in range(12)]
            lines = [*notes[:3], "yes", *notes[3:6], "begin", *notes[6:], ""]
            done = started(
                *("run", "--resume", path.stem, "--plain"), lines=lines, largest_file=room
            )
            noted = done.out.count("Noted.")
            kept = sum(event.kind == "noted" for event in read_run(path)[1])
            result.refusals += done.status == 3
            result.acknowledged += noted
            result.lost += max(0, noted - kept)
            result.twice += max(0, kept - noted)
            result.tracebacks += "Traceback" in done.err
            if done.status == 3 and (FULL not in done.err or done.err.count("\n") != 1):
                result.wrong_cause += 1
                result.fault(f"room {room}: {done.err}")


# --- many at once ---


def begin_at_once(result: Result, windows: int) -> None:
    """So many windows begin a job at the same time; each must have its own, whole."""
    with a_home() as home:
        program_lines = "".join(f"{line}\n" for line in ("", *LINES[:4]))
        children = [
            begin_child(lambda: program(["run", GYM_STORE, "--plain"]), home / f"start-{number}")
            for number in range(windows)
        ]
        for child in children:
            child.give(program_lines)
        for child in children:
            _need_plain_end(result, child, "start")
        result.starts += windows
        paths = list(runs_folder().glob("*.run"))
        whole = [read_run(path)[1] for path in paths]
        values = [[e.body["value"] for e in events if e.kind == "answered"] for events in whole]
        result.acknowledged += 3 * windows
        result.lost += 3 * windows - sum(map(len, values))
        if len(paths) != windows or len({events[0].run for events in whole}) != windows:
            result.fault(f"{len(paths)} files of {windows} starts")


def resume_at_once(result: Result, windows: int) -> None:
    """So many windows continue one job at the same time: one has it, and the others say so."""
    with a_home() as home:
        path = kept_run()
        before = len(read_run(path)[1])
        children = [
            begin_child(
                lambda: program(["run", "--resume", path.stem, "--plain"]), home / f"window-{n}"
            )
            for n in range(windows)
        ]
        refused = [child for child in children if child.ended_alone(but=children)]
        writers = [child for child in children if child not in refused]
        for writer in writers:
            writer.give("note The hinge edge is planed.\n")
        for child in children:
            call = child.end()
            result.tracebacks += "Traceback" in call.err
            told = "open in another window" in call.err and call.err.count("\n") == 1
            if child not in writers and not (call.status == 3 and told):
                result.fault(f"a window that was refused: {call.status} {call.err}")
        kinds = [event.kind for event in read_run(path)[1][before:]]
        result.jobs += 1
        result.resumes += windows
        result.writers += kinds.count("resumed")
        result.acknowledged += 1
        result.lost += kinds.count("noted") != 1


def _need_plain_end(result: Result, child: Child, what: str) -> None:
    call = child.end()
    result.tracebacks += "Traceback" in call.err
    if (call.status, call.err) != (0, ""):
        result.fault(f"{what}: {call.status} {call.err[-200:]}")


# --- clocks ---

MOMENTS = (
    *("1969-12-31T23:59:59.999Z", "1970-01-01T00:00:00.000Z", "2000-02-29T12:00:00.000Z"),
    *("2026-03-29T00:59:59.000Z", "2026-03-29T01:00:00.000Z", "2038-01-19T03:14:08.000Z"),
    *("2099-12-31T23:59:59.999Z", "9999-12-31T23:59:59.999Z"),
)


def jumping_clocks(result: Result, pick: random.Random, times: int) -> None:
    """The job with a clock that jumps to any of these moments between two answers."""
    for _ in range(times):
        with a_home():
            session = begin_run(small("gym-store"), units="inch")
            path = path_of(session)
            for line in JOB:
                session.clock = lambda: pick.choice(MOMENTS)
                session.send(draft(session.state, line))
                if pick.random() < 0.3:
                    session.close()
                    session = open_run(path)
                    _report_the_cut(session)
            session.close()
            result.clocks += 1
            result.acknowledged += len(JOB)
            result.lost += by_hand(path) != STRAIGHT
            found = read_log(path)
            if found.fault() is not None or [one.name for one in list_runs()] != [path.stem]:
                result.fault("a jump of the clock spoilt a run")
            with contextlib.redirect_stdout(io.StringIO()):
                result.tracebacks += program(["record", path.stem]) != 0


def campaign(
    seed: int,
    *,
    every: int = 1,
    rooms: int = 40,
    windows: int = 20,
    rivals: int = 10,
    clocks: int = 60,
) -> Result:
    """All of it; smaller numbers, and a greater `every`, for a sample."""
    pick, result = random.Random(seed), Result(seed)
    home = os.environ.get("HINGESIDE_HOME")
    try:
        STRAIGHT[:] = straight_job()
        refuse_each(result, every)
        no_room(result, pick, rooms)
        begin_at_once(result, windows)
        resume_at_once(result, rivals)
        jumping_clocks(result, pick, clocks)
    finally:
        if home is not None:
            os.environ["HINGESIDE_HOME"] = home
    return result


def main() -> int:
    """Run the campaign and print what it found; 1 where an answer was lost, or a word was wrong."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--seed", type=int, default=20_270_412)
    parser.add_argument("-o", "--output", type=Path)
    options = parser.parse_args()
    result = campaign(options.seed)
    if options.output is not None:
        options.output.write_text(result.text(), "utf-8")
    sys.stdout.write(result.text())
    return 0 if result.clean else 1


if __name__ == "__main__":
    raise SystemExit(main())
