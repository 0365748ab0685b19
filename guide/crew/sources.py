"""What is united: a data folder, a folder of run files, a backup, or one run file, as names with their bytes."""

import os
import re
import stat
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path, PurePosixPath
from typing import Protocol

from guide.errors import FOUND, UNKNOWN, HingesideError
from guide.run.log.reading import ENDING, bytes_of
from guide.text import printable

RUNS = "runs"
SHARED = ("photos", "procedures", "scenarios", "sites")
"""The folders of a data folder that are united besides the runs."""
UNITED = (RUNS, *SHARED)
LARGEST_FILE = 256 << 20
"""Bytes of one file that is carried over, such as a photo."""
_SET_ASIDE = re.compile(r".*\.(removed|damaged)-[0-9a-f]{8}")


class NotASource(HingesideError):
    """What was named holds no jobs; the message says what to name."""

    status = UNKNOWN


class BadPiece(HingesideError):
    """One file that is not taken in; the message says which and why."""

    status = FOUND


@dataclass(frozen=True, slots=True)
class Piece:
    """One file of a source."""

    name: PurePosixPath
    """Where it stands in the data folder, such as `runs/NAME.run`."""
    read: Callable[[], bytes]
    """Its bytes. Raises HingesideError or OSError."""

    @property
    def is_run(self) -> bool:
        """Whether it stands where a run does."""
        return self.name.parent == PurePosixPath(RUNS) and self.name.suffix == ENDING

    @property
    def is_foreign(self) -> bool:
        """Whether it stands among the runs and is neither one nor what a repair set aside."""
        among = self.name.parts[0] == RUNS
        return among and not self.is_run and not _SET_ASIDE.fullmatch(self.name.name)

    @property
    def is_set_aside(self) -> bool:
        """Whether it is what a repair set aside."""
        return self.name.parts[0] == RUNS and _SET_ASIDE.fullmatch(self.name.name) is not None


class Source(Protocol):
    """What files are taken from; nothing in it is ever changed."""

    name: str
    """What the person called it."""

    def pieces(self) -> Iterator[Piece]:
        """Every file that may be taken in, in the order of the names."""


class FolderSource:
    """A data folder of another device, or a folder that holds run files themselves."""

    def __init__(self, folder: Path) -> None:
        """Raises NotASource for a folder without jobs."""
        self.name = printable(str(folder))
        self._folder = folder
        self._whole = any((folder / one).is_dir() for one in UNITED)
        if not self._whole and not any(folder.glob(f"*{ENDING}")):
            raise NotASource(
                f"{self.name} holds no jobs; name a data folder of Hingeside, a backup or a run file."
            )

    def pieces(self) -> Iterator[Piece]:
        """Every run, and every file of the shared folders."""
        if self._whole:
            yield from pieces_in(self._folder, lambda name: name in UNITED)
            return
        for path in sorted(self._folder.glob(f"*{ENDING}")):
            yield Piece(PurePosixPath(RUNS) / path.name, partial(bytes_of, path))


def pieces_in(folder: Path, wanted: Callable[[str], bool]) -> Iterator[Piece]:
    """Every file below a folder whose first part is wanted, in the order of the names. Hidden files are not."""
    for place, inner, names in os.walk(folder):
        top = Path(place) == folder
        inner[:] = sorted(one for one in inner if one[0] != "." and (not top or wanted(one)))
        for one in sorted(names):
            if one[0] != "." and (not top or wanted(one)):
                path = Path(place) / one
                name = PurePosixPath(path.relative_to(folder).as_posix())
                yield Piece(name, partial(bytes_of_file, path))


class FileSource:
    """One run file."""

    def __init__(self, path: Path) -> None:
        self.name = printable(str(path))
        self._path = path

    def pieces(self) -> Iterator[Piece]:
        """The one file."""
        yield Piece(PurePosixPath(RUNS) / self._path.name, partial(bytes_of, self._path))


def bytes_of_file(path: Path) -> bytes:
    """What a file of any kind holds. Raises BadPiece for a link, a device or what is too large, OSError otherwise."""
    name = printable(path.name)
    if path.is_symlink():
        raise BadPiece(f"{name} is a link; copy the file itself.")
    handle = os.open(
        path, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    )
    with os.fdopen(handle, "rb") as file:
        found = os.fstat(file.fileno())
        if not stat.S_ISREG(found.st_mode):
            raise BadPiece(f"{name} is not a file.")
        if found.st_size > LARGEST_FILE:
            raise BadPiece(f"{name} is larger than {LARGEST_FILE >> 20} MB.")
        return file.read(LARGEST_FILE)


def is_plain(name: str) -> bool:
    """Whether a name leads into a folder of a data folder and nowhere else, on every system."""
    parts = name.split("/")
    return len(parts) > 1 and all(
        0 < len(one.encode("utf-8", "replace")) < 256
        and one[0] != "."
        and not one.endswith((".", " "))
        and one.isprintable()
        and not set(one) & set('\\:*?"<>|')
        for one in parts
    )
