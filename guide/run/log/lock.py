"""One writer a run: a lock of the system on a file of its own, which ends with the program that holds it."""

import os
import sys
from errno import EACCES, EAGAIN
from pathlib import Path

from guide.files.writing import why_not
from guide.run.journal import JournalError, Locked


class RunLock:
    """The lock of one run, held until it is let go of. The file `locks/<run>` stays, so that all wait for the same one.

    Never fork a process while a lock is held: the child would hold it too.
    """

    def __init__(self, run: Path) -> None:
        """Take the lock. Raises Locked, or JournalError where the folder takes no locks."""
        folder = run.parent.parent / "locks"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0)
            self._file = os.open(folder / run.stem, flags, 0o666)
        except OSError as error:
            raise JournalError(f"{why_not(error, folder)}, then start again.") from error
        try:
            taken = _taken(self._file)
        except OSError as error:
            os.close(self._file)
            raise JournalError(
                f"{folder} is on a disk that cannot lock files, so two windows could write one job; "
                "keep the jobs on another disk (HINGESIDE_HOME)."
            ) from error
        if not taken:
            os.close(self._file)
            raise Locked("This run is open in another window; close it there, or go on there.")

    def release(self) -> None:
        """Let go of it; more than once does nothing."""
        if self._file >= 0:
            os.close(self._file)
            self._file = -1


def _taken(file: int) -> bool:
    """Take the lock of an open file; False where another program has it. Raises OSError where it takes no locks."""
    if sys.platform == "win32":
        from filelock import lock_descriptor  # dear to load: only without flock

        return lock_descriptor(file, blocking=False)
    from fcntl import LOCK_EX, LOCK_NB, flock

    try:
        flock(file, LOCK_EX | LOCK_NB)
    except OSError as error:
        if error.errno in (EACCES, EAGAIN):
            return False
        raise
    return True
