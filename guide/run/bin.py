"""The bin: jobs that were deleted, kept until the bin is emptied."""

from pathlib import Path

from guide.files.library import runs_folder, user_folder
from guide.files.writing import sync_folder, why_not
from guide.run.catalogue import RunSummary, summary_of
from guide.run.journal import JournalError
from guide.run.log.lock import RunLock
from guide.run.log.reading import ENDING
from guide.run.run_list import in_order
from guide.run.store import need_among_runs


def bin_folder() -> Path:
    """Where deleted jobs are kept; beside the folder of the runs."""
    return user_folder() / "bin"


def throw_away(path: Path) -> Path:
    """Move a job to the bin; where it is now. Raises NotARun for any other file, Locked where it is open."""
    need_among_runs(path)
    lock = RunLock(path)
    try:
        return _move(path, bin_folder())
    finally:
        lock.release()


def put_back(path: Path) -> Path:
    """Move a job out of the bin, among the runs again."""
    _need_in_bin(path)
    return _move(path, runs_folder())


def in_bin() -> list[RunSummary]:
    """The jobs in the bin, the latest first."""
    folder = bin_folder()
    if not folder.is_dir():
        return []
    return in_order([summary_of(path) for path in folder.glob(f"*{ENDING}") if path.is_file()])


def empty() -> int:
    """Delete every job in the bin for good; how many there were. Raises JournalError where one cannot be deleted."""
    gone = 0
    for run in in_bin():
        _need_in_bin(run.path)
        try:
            run.path.unlink()
        except OSError as error:
            raise JournalError(f"{why_not(error, run.path)}.") from error
        gone += 1
    return gone


def _need_in_bin(path: Path) -> None:
    if path.is_symlink() or path.suffix != ENDING or path.parent != bin_folder():
        raise JournalError(f"{path.name} is not a job in the bin; nothing was changed.")


def _move(path: Path, folder: Path) -> Path:
    """Move a file under a name that is free there, on the disk before this returns."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        target = folder / path.name
        number = 1
        while target.exists():
            number += 1
            target = folder / f"{path.stem}-{number}{path.suffix}"
        path.rename(target)
        sync_folder(folder)
        sync_folder(path.parent)
    except OSError as error:
        raise JournalError(f"{why_not(error, folder)}, so the job was not moved.") from error
    return target
