"""What a program that was killed left in the folder of the runs: files that were being written beside their names.

Such a file never came to its name, so nothing in it was acknowledged, or all of it is in the run itself.
"""

import contextlib
import os
import re
import stat
from pathlib import Path

from guide.run.journal import JournalError
from guide.run.log.lock import RunLock
from guide.run.log.reading import BEGINS, ENDING

_LEFT = re.compile(r"\.(?P<run>[^.].*?)(?:\.run)?\.(?:[0-9a-f]{8}|[0-9a-f]{12})\.new")
"""As `Log` names a run that is being born, and `write_in_place` one that is being repaired."""


def remove_leftovers(folder: Path) -> None:
    """Remove them where their writer is gone: while it lives it holds the lock of its run.

    What is not such a file stays: a link, a folder, a file of somebody else, or one that does not begin as a log.
    """
    with contextlib.suppress(OSError):  # nothing waits for this; the next start tries again
        for path in folder.glob(".*.new"):
            named = _LEFT.fullmatch(path.name)
            if named is not None and _ours(path):
                _remove(path, folder / f"{named['run']}{ENDING}")


def _remove(path: Path, run: Path) -> None:
    try:
        lock = RunLock(run)
    except JournalError:
        return  # its writer lives, or nobody can know
    try:
        path.unlink(missing_ok=True)
    finally:
        lock.release()


def _ours(path: Path) -> bool:
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    try:
        handle = os.open(path, flags)
    except OSError:
        return False
    try:
        found = os.fstat(handle)
        own = not hasattr(os, "getuid") or found.st_uid == os.getuid()
        if not (stat.S_ISREG(found.st_mode) and own):
            return False
        first = os.read(handle, len(BEGINS))
    finally:
        os.close(handle)
    return BEGINS.startswith(first)  # cut off at any byte, or not begun
