"""Calls of the program in forks of a test's own process: with bounds of time and memory, and words kept in files.

A fork has everything loaded, so that some thousand calls take minutes and not hours.
"""

import os
import resource
import select
import sys
import traceback
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn

TRACED = 70
"""The exit status of a call that raised."""
LONGEST = 10
"""Seconds of processor time after which the system ends a call."""


@dataclass(frozen=True, slots=True)
class Call:
    """What came of one call in a process of its own."""

    status: int
    """Below 0 where a signal ended it."""
    out: str
    err: str
    seconds: float
    """Of processor time."""
    megabytes: float
    """The most memory it had at once, with what the program has loaded."""


class Child:
    """A call that goes on, reading its standard input from a pipe that is held open."""

    def __init__(self, process: int, lines: int, folder: Path) -> None:
        self._process = process
        self._lines = lines
        self._folder = folder
        self._watch = os.pidfd_open(process)

    def give(self, lines: str) -> None:
        """Lines for its standard input."""
        os.write(self._lines, lines.encode())

    def ended_alone(self, but: Sequence["Child"]) -> bool:
        """Whether it ends by itself; waits until all `but` one of those have ended, or it has."""
        while not self._ended():
            if sum(not child._ended() for child in but) <= 1:
                return False
            select.select([child._watch for child in but if not child._ended()], [], [])
        return True

    def _ended(self) -> bool:
        return bool(select.select([self._watch], [], [], 0)[0])

    def end(self) -> Call:
        """What came of it, once its standard input has ended and it has."""
        os.close(self._lines)
        _, ended, used = os.wait4(self._process, 0)
        os.close(self._watch)
        out, err = ((self._folder / name).read_text("utf-8", "replace") for name in ("out", "err"))
        seconds = used.ru_utime + used.ru_stime
        status = os.waitstatus_to_exitcode(ended)
        return Call(status, out, err, seconds, used.ru_maxrss / 1024)


def begin_child(call: Callable[[], int], folder: Path, megabytes: int = 0) -> Child:
    """Begin a call in a fork of this program; its words go to files in the folder.

    `megabytes` is what it may take beside what is loaded now; 0 for no bound.
    """
    folder.mkdir(exist_ok=True)
    sys.stdout.flush()
    sys.stderr.flush()
    ours = _memory()
    reading, lines = os.pipe()
    process = os.fork()
    if not process:
        os.dup2(reading, 0)
        os.closerange(
            3, 4096
        )  # the other children's pipes too, so that each ends when its giver does
        for number, name in ((1, "out"), (2, "err")):
            handle = os.open(folder / name, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
            os.dup2(handle, number)
        _bound(ours, megabytes)
        _call_and_leave(call)
    os.close(reading)
    return Child(process, lines, folder)


def _call_and_leave(call: Callable[[], int]) -> NoReturn:
    sys.stdin, sys.stdout, sys.stderr = (
        os.fdopen(number, mode, encoding="utf-8") for number, mode in enumerate(("r", "w", "w"))
    )
    status = TRACED
    try:
        status = call()
    except SystemExit as leaving:
        status = leaving.code if isinstance(leaving.code, int) else 1
    except BaseException:  # noqa: BLE001  # whatever it is, it is what is looked for
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)


def in_a_child(call: Callable[[], int], folder: Path, megabytes: int = 0) -> Call:
    """What came of a call with nothing on its standard input."""
    return begin_child(call, folder, megabytes).end()


def _memory() -> int:
    """Bytes of address space that this process has."""
    pages = Path("/proc/self/statm").read_text("ascii").split()[0]
    return int(pages) * resource.getpagesize()


def _bound(ours: int, megabytes: int) -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (LONGEST, LONGEST + 2))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    if megabytes:
        most = ours + (megabytes << 20)
        resource.setrlimit(resource.RLIMIT_AS, (most, most))
