"""Uniting: what a source holds and a data folder does not is added to it. Twice is as once, and the order is all one.

A run that another file continues gives way to it. Where two files of a run went different ways both stay. Other files
are never replaced: of two that differ both stay.
"""

import hashlib
import re
import secrets
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from guide.crew.chains import Chain, Graphs, chain_of_file, quick_chain, sound_chain
from guide.crew.sources import RUNS, BadPiece, Piece, Source
from guide.errors import HingesideError
from guide.files.writing import NewFiles, sync_folder, write_in_place, write_new
from guide.run.catalogue import taken_in
from guide.run.journal import JournalError, Locked, NotARun
from guide.run.log.form import DIGEST, FILE_AT_MOST
from guide.run.log.lock import RunLock
from guide.run.log.reading import ENDING, bytes_of
from guide.text import printable

_ENDING = re.compile(r"(?<=.)(\.[a-z]+)?\.[A-Za-z0-9]+$")
TOGETHER = 50
"""Runs that wait for the disk together."""
_TAG = 8
"""Signs of a digest that tell two files of one name apart."""


@dataclass(frozen=True, slots=True)
class _Waiting:
    """A run that is written and not on the disk yet."""

    path: Path
    chain: Chain
    lock: RunLock


@dataclass(slots=True)
class Outcome:
    """What became of the files of some sources."""

    added: list[str] = field(default_factory=list)
    """The names of the runs that were not here."""
    continued: list[str] = field(default_factory=list)
    """Those that were here, and go on in the source."""
    diverged: list[tuple[str, str]] = field(default_factory=list)
    """Two files of a run that went different ways."""
    known: int = 0
    """Runs of the sources that were here as they are, or longer."""
    files: list[str] = field(default_factory=list)
    """Other files that were not here."""
    renewed: list[str] = field(default_factory=list)
    """Other files in whose place a later version of theirs came."""
    both: list[tuple[str, str]] = field(default_factory=list)
    """Other files that differ: the one that was here, and the name of the one beside it."""
    left: list[str] = field(default_factory=list)
    """A sentence on each file that was not taken in."""


class DataFolder:
    """A data folder that takes in what others hold."""

    def __init__(self, folder: Path, *, own: bool, all_of_it: bool = False) -> None:
        """`own` is whether the catalogue of this device belongs to it. With `all_of_it` what is not a sound run is kept
        as the file it is; otherwise it is left out."""
        self.folder = folder
        self.outcome = Outcome()
        self._own = own
        self._all_of_it = all_of_it
        self._graphs = Graphs()
        self._new = NewFiles()
        self._waiting: list[_Waiting] = []
        """Runs that were not here, which go to the disk together."""
        self._runs: dict[str, dict[Path, Chain]] = {}
        """The files of each run."""
        for path in sorted((folder / RUNS).glob(f"*{ENDING}")):
            chain = chain_of_file(path)
            if chain is not None:
                self._runs.setdefault(chain.run, {})[path] = chain

    def unite(
        self, source: Source, progress: Callable[[int, int], None] = lambda number, whole: None
    ) -> None:
        """Take in all that a source holds; `progress` gets the number of each file, and of all."""
        pieces = list(source.pieces())
        try:
            for number, piece in enumerate(pieces, 1):
                progress(number, len(pieces))
                self._take_or_leave(source, piece)
        finally:
            self.finish()

    def _take_or_leave(self, source: Source, piece: Piece) -> None:
        try:
            self._take(piece)
        except HingesideError as error:
            self._leave(source, piece, str(error))
        except OSError as error:
            self._leave(source, piece, _why(error))

    def _take(self, piece: Piece) -> None:
        data = piece.read()
        if piece.is_run:
            try:
                self.take_run(piece.name.name, data)
            except Locked:
                raise
            except JournalError:
                if not self._all_of_it:
                    raise
                self.keep_file(piece.name, data)
        elif self._all_of_it or not (piece.is_foreign or piece.is_set_aside):
            self.keep_file(piece.name, data)
        elif piece.is_foreign:
            raise NotARun(f"{printable(piece.name.name)} is not a run.")

    def _leave(self, source: Source, piece: Piece, why: str) -> None:
        self.outcome.left.append(f"Left out: {source.name}/{printable(str(piece.name))}. {why}")

    # Runs

    def take_run(self, name: str, data: bytes) -> None:
        """Take in one run file; what is new is on the disk after `finish`. Raises JournalError for one that is damaged
        or foreign, or is open here."""
        if len(data) > FILE_AT_MOST:
            raise NotARun(
                f"{printable(name)} is not a run: it is larger than {FILE_AT_MOST >> 20} MB."
            )
        quick = quick_chain(data)
        if quick is not None and any(quick.begins(one) for one in self.chains(quick.run).values()):
            self.outcome.known += 1
            return
        chain = sound_chain(Path(name), data, self._graphs)
        if any(one.chain.run == chain.run for one in self._waiting):
            self.finish()
        here = self.chains(chain.run)
        shorter = [path for path, one in here.items() if one.begins(chain)]
        if any(chain.begins(one) for one in here.values()):
            self.outcome.known += 1
        elif shorter:
            self._continue(max(shorter, key=lambda path: len(here[path].digests)), chain)
        else:
            self._add(name, chain)

    def chains(self, run: str) -> dict[Path, Chain]:
        """The files that hold a run here, each with its chain."""
        return self._runs.get(run, {})

    def runs(self) -> Iterable[str]:
        """Every run that is here."""
        return list(self._runs)

    def _add(self, name: str, chain: Chain) -> None:
        folder = self.folder / RUNS
        folder.mkdir(parents=True, exist_ok=True)
        path = _free(folder / name, {one.path for one in self._waiting})
        lock = RunLock(path)
        try:
            self._new.write(path, chain.data)
        except BaseException:
            lock.release()
            raise
        self._waiting.append(_Waiting(path, chain, lock))
        if len(self._waiting) >= TOGETHER:
            self.finish()

    def finish(self) -> None:
        """Wait until every run that was taken in is on the disk."""
        waiting, self._waiting = self._waiting, []
        try:
            failed = self._new.finish()
        finally:
            for one in waiting:
                one.lock.release()
        for one in waiting:
            if one.path in failed:
                told = _why(failed[one.path])
                self.outcome.left.append(f"Left out: {printable(one.path.name)}. {told}")
        kept = [one for one in waiting if one.path not in failed]
        for one in kept:
            here = self.chains(one.chain.run)
            if here:
                self.outcome.diverged.append((min(here).stem, one.path.stem))
            else:
                self.outcome.added.append(one.path.stem)
        self._know({one.path: one.chain for one in kept})

    def _continue(self, path: Path, chain: Chain) -> None:
        lock = RunLock(path)
        try:
            data = bytes_of(path)
            now = quick_chain(data)
            if now is None or not now.begins(chain):
                raise NotARun(f"{path.name} was written just now; merge again.")
            if torn := data[len(now.data) :]:
                write_new(path.with_name(f"{path.stem}.removed-{secrets.token_hex(4)}"), torn)
            write_in_place(path, chain.data)
        finally:
            lock.release()
        self.outcome.continued.append(path.stem)
        self._know({path: chain})

    def _know(self, files: dict[Path, Chain]) -> None:
        for path, chain in files.items():
            self._runs.setdefault(chain.run, {})[path] = chain
        if self._own and files:
            taken_in((chain.run, list(chain.digests)) for chain in files.values())

    # Other files

    def keep_file(self, name: PurePosixPath, data: bytes) -> None:
        """Take in one file that is not a run; if another of its name is here, beside that. Raises BadPiece for a photo
        that is not what its name says."""
        digest = hashlib.sha256(data).hexdigest()
        if name.parts[0] == "photos" and DIGEST.fullmatch(name.stem) and name.stem != digest:
            raise BadPiece(f"The photo {name.name} is not the one that was taken.")
        plain = plain_name(name, digest)
        path = self.folder / plain
        if _holds(path, data):
            return
        if not path.exists():
            self._write(path, data)
            self.outcome.files.append(str(plain))
            return
        stem, ending = _parted(plain.name)
        beside = plain.with_name(f"{stem}-{digest[:_TAG]}{ending}")
        if not _holds(self.folder / beside, data):
            self._write(self.folder / beside, data)
            self.outcome.both.append((str(plain), beside.name))

    def renew_file(self, name: PurePosixPath, old: str, data: bytes) -> None:
        """Put a later version of a file in its place, if it is still the one of that digest. Raises BadPiece if it is
        not, or if another program has it."""
        path = self.folder / name
        try:
            lock = RunLock(path)
        except Locked as error:
            raise BadPiece("It is being changed by another program; pull again.") from error
        try:
            if hashlib.sha256(path.read_bytes()).hexdigest() != old:
                raise BadPiece("It was changed just now; pull again.")
            write_in_place(path, data)
        finally:
            lock.release()
        self.outcome.renewed.append(str(name))

    def _write(self, path: Path, data: bytes) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_in_place(path, data)
        sync_folder(path.parent)


def plain_name(name: PurePosixPath, digest: str) -> PurePosixPath:
    """The name of a file, without the digest that it got where it stands beside another of its name."""
    stem, ending = _parted(name.name)
    return name.with_name(f"{stem.removesuffix(f'-{digest[:_TAG]}')}{ending}")


def _parted(name: str) -> tuple[str, str]:
    """A file name without its ending, and the ending: of `elm-lane.site.json` it is `.site.json`."""
    ending = _ENDING.search(name)
    return (name[: ending.start()], ending[0]) if ending is not None else (name, "")


def _holds(path: Path, data: bytes) -> bool:
    return path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data


def _why(error: OSError) -> str:
    return f"{error.strerror or 'the system refused'}."


def _free(path: Path, taken: set[Path]) -> Path:
    """This name, or with a number after it the first that no file has, and none of those already used."""
    free, number = path, 1
    while free.exists() or free in taken:
        number += 1
        free = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return free
