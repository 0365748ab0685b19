"""The program as a person starts it: in a process of its own, with lines fed to it."""

import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

COMMAND = (sys.executable, "-m", "guide.cli.main")
SHORT_OF_ROOM = """
import resource, sys
most = int(sys.argv.pop(1))
resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
from guide.cli.main import main
raise SystemExit(main(sys.argv[1:]))
"""
CHECKOUT = Path(__file__).parents[2]
PATIENCE = 60


@dataclass(frozen=True)
class Outcome:
    """What came of a call."""

    status: int
    out: str
    err: str


def hingeside(
    *arguments: str,
    lines: Sequence[str] = (),
    folder: Path = CHECKOUT,
    output: str = "",
    largest_file: int = 0,
    named: str = "",
) -> Outcome:
    """Call the program with these lines on standard input, which then ends.

    A job line by line asks first what its door is called; that is answered with an empty line, unless `named` is.
    `output` is a file to print to, or `closed` for a pipe whose reader has gone. `largest_file` is the
    size in bytes beyond which the system lets no file grow, as on a full disk.
    """
    paths = [str(CHECKOUT), *filter(None, [os.environ.get("PYTHONPATH")])]
    start = (sys.executable, "-c", SHORT_OF_ROOM, str(largest_file)) if largest_file else COMMAND
    with subprocess.Popen(
        [*start, *arguments],
        stdin=subprocess.PIPE,
        stdout=_opened(output),
        stderr=subprocess.PIPE,
        text=True,
        cwd=folder,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(paths)},
    ) as process:
        fed = "".join(f"{line}\n" for line in (*_door(arguments, named), *lines))
        out, err = process.communicate(fed, timeout=PATIENCE)
    return Outcome(process.returncode, out or "", err)


def _door(arguments: Sequence[str], named: str) -> list[str]:
    """The answer to what the door is called, where that is asked."""
    asked = arguments[:1] == ("run",) and not {"--resume", "--door"} & set(arguments)
    return [named] if asked else []


def _opened(output: str) -> int:
    if not output:
        return subprocess.PIPE
    if output == "closed":
        reading, writing = os.pipe()
        os.close(reading)
        return writing
    return os.open(output, os.O_WRONLY)
