"""Writing to the disk so that a kill or a flat battery leaves the old content or the new, never half of one."""

import contextlib
import errno
import os
import secrets
import stat
from pathlib import Path

from guide.errors import UNKNOWN, HingesideError
from guide.files.library import runs_folder

_NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_NOT_WRITABLE = (errno.EROFS, errno.EACCES, errno.EPERM)


class AmongRuns(HingesideError):
    """An output would land in the folder of the runs, where only runs are written."""

    status = UNKNOWN


def sync(file: int) -> None:
    """Wait until what was written to an open file is on the disk; its dates may follow later."""
    getattr(os, "fdatasync", os.fsync)(file)


def sync_folder(folder: Path) -> None:
    """Wait until the names in a folder are on the disk. A system without such a call keeps them in order itself."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno != errno.EINVAL:  # some file systems know of no such call
            raise
    finally:
        os.close(handle)


def write_all(file: int, data: bytes) -> None:
    """Write all of the data. Raises OSError, also where the disk takes only a part of it."""
    left = memoryview(data)
    while left:
        left = left[os.write(file, left) :]


def write_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet, and wait until it is on the disk. What fails leaves no file."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        try:
            write_all(handle, data)
            os.fsync(handle)
        finally:
            os.close(handle)
    except BaseException:
        _unlink(path)
        raise


class NewFiles:
    """Files that come to the disk together: all are written first, so that they are waited for once. None is seen under
    its name before it is on the disk, and none is sure to stay before `finish` has returned."""

    def __init__(self) -> None:
        self._written: list[tuple[Path, Path, int]] = []
        """Each name, the name that it is written under, and the open file."""

    def write(self, path: Path, data: bytes) -> None:
        """Write one file beside its name, which no file has. Raises OSError, and then leaves nothing of it."""
        new = path.with_name(f".{path.name[:100]}.{secrets.token_hex(6)}.new")
        handle = os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
        try:
            write_all(handle, data)
        except BaseException:
            os.close(handle)
            _unlink(new)
            raise
        self._written.append((path, new, handle))

    def finish(self) -> dict[Path, OSError]:
        """Wait for all of them and give them their names; those that could not be kept, each with why."""
        failed: dict[Path, OSError] = {}
        named = []
        for path, new, handle in self._written:
            try:
                try:
                    os.fsync(handle)
                finally:
                    os.close(handle)
                new.replace(path)
                named.append(path)
            except OSError as error:
                failed[path] = error
                _unlink(new)
        self._written = []
        for folder in {path.parent for path in named}:
            try:
                sync_folder(folder)
            except OSError as error:
                failed |= {path: error for path in named if path.parent == folder}
        return failed


def _unlink(path: Path) -> None:
    with contextlib.suppress(OSError):  # the first error is the one to tell
        path.unlink()


def write_in_place(path: Path, data: bytes) -> None:
    """Put this content in the place of a file's, which is replaced in one step. Raises OSError."""
    new = path.with_name(f".{path.name[:100]}.{secrets.token_hex(6)}.new")
    write_new(new, data)
    try:
        with contextlib.suppress(FileNotFoundError):
            new.chmod(stat.S_IMODE(path.stat().st_mode))
        new.replace(path)
    except BaseException:
        _unlink(new)
        raise
    sync_folder(path.parent)


def write_beside(path: Path, data: bytes) -> None:
    """Write what was asked for as an output: beside, synced and renamed.

    A link keeps where it leads; a device or a pipe is written to. Raises AmongRuns for a path in the folder of the
    runs, OSError where it cannot be written.
    """
    target = path.resolve()
    if _among_runs(target):
        raise AmongRuns(f"{path} is in the folder of the jobs; write it to another folder.")
    if target.exists() and not target.is_file() and not target.is_dir():
        with target.open("wb") as file:
            file.write(data)
        return
    if target.is_dir():
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    try:
        write_in_place(target, data)
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def append_line(path: Path, line: str) -> None:
    """Add one line to a file of lines, made if need be. A last line that was cut off is ended first. Raises OSError."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o666)
    try:
        size = os.fstat(handle).st_size
        os.lseek(handle, max(0, size - 1), os.SEEK_SET)
        torn = size > 0 and os.read(handle, 1) != b"\n"
        write_all(handle, (b"\n" if torn else b"") + line.encode("utf-8", "replace") + b"\n")
        sync(handle)
    finally:
        os.close(handle)


def why_not(error: OSError, path: Path) -> str:
    """Why something could not be written, as a sentence without its full stop."""
    if error.errno in _NO_ROOM:
        return "The disk is full; free some space"
    if error.errno in _NOT_WRITABLE:
        return f"{path} cannot be written; make its folder writable"
    return f"The disk does not answer ({error.strerror or 'the system refused'})"


def _among_runs(target: Path) -> bool:
    runs = runs_folder()
    with contextlib.suppress(OSError):
        return any(one.exists() and one.samefile(runs) for one in target.parents)
    return False
