"""The program as a person calls it, with lines fed to it: in this process, or started in one of its own."""

import contextlib
import gc
import io
import os
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest.mock import patch

from guide.cli.main import main

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
    *arguments: str, lines: Sequence[str] = (), folder: Path = CHECKOUT, named: str = ""
) -> Outcome:
    """Call the program in this process with these lines on standard input, which then ends.

    A job line by line asks first what its door is called; that is answered with an empty line, unless `named` is.
    """
    out, err = (io.TextIOWrapper(io.BytesIO(), "utf-8", write_through=True) for _ in range(2))
    fed = io.TextIOWrapper(io.BytesIO(_fed(arguments, named, lines).encode()), "utf-8")
    collected = gc.get_threshold()
    with (
        contextlib.chdir(folder),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
        patch.object(sys, "stdin", fed),
        patch("atexit.register"),
    ):
        try:
            status = main(arguments)
        except SystemExit as ended:
            status = ended.code if isinstance(ended.code, int) else 1
        finally:
            gc.enable()
            gc.set_threshold(*collected)
    return Outcome(status, _said(out), _said(err))


def _said(stream: io.TextIOWrapper) -> str:
    stream.seek(0)
    return stream.read()


def started(
    *arguments: str,
    lines: Sequence[str] = (),
    folder: Path = CHECKOUT,
    output: str = "",
    largest_file: int = 0,
    named: str = "",
) -> Outcome:
    """Start the program in a process of its own; the rest as `hingeside`.

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
        out, err = process.communicate(_fed(arguments, named, lines), timeout=PATIENCE)
    return Outcome(process.returncode, out or "", err)


def _fed(arguments: Sequence[str], named: str, lines: Sequence[str]) -> str:
    return "".join(f"{line}\n" for line in (*_door(arguments, named), *lines))


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
