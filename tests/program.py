"""The program as a person starts it: in a process of its own, with lines fed to it."""

import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

COMMAND = (sys.executable, "-m", "guide.cli.main")
CHECKOUT = Path(__file__).parents[1]
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
    before: Callable[[], object] | None = None,
) -> Outcome:
    """Call the program with these lines on standard input, which then ends."""
    done = subprocess.run(
        [*COMMAND, *arguments],
        input="".join(f"{line}\n" for line in lines),
        capture_output=True,
        text=True,
        cwd=folder,
        timeout=PATIENCE,
        preexec_fn=before,
        check=False,
    )
    return Outcome(done.returncode, done.stdout, done.stderr)
