"""A backup: one ZIP file with all that is kept, and a list of the digests that is read before anything is believed."""

import hashlib
import json
import os
import secrets
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import suppress
from copy import copy
from dataclasses import dataclass
from functools import partial
from pathlib import Path, PurePosixPath
from typing import Any

from guide.crew.seen import FILE
from guide.crew.sources import LARGEST_FILE, RUNS, UNITED, BadPiece, Piece, is_plain, pieces_in
from guide.errors import FOUND, UNKNOWN, HingesideError
from guide.files.library import own_folder, runs_folder, user_folder
from guide.files.stored_form import VERSION
from guide.files.writing import AmongRuns, sync_folder
from guide.run.log.form import DIGEST
from guide.text import printable

LIST = "hingeside-backup.json"
"""The last file of a backup; it says what the others are."""
FORM = 1
DATA, SETTINGS = "data", "settings"
"""The two parts of a backup."""
SETTINGS_FILES = ("settings.toml", "own-voice")
OF_THIS_DEVICE = ("device", "locks", "cache", FILE)
"""What is never carried to another device."""
MADE_AGAIN = ("catalogue.sqlite",)
LARGEST_LIST = 64 << 20
MOST_FILES = 200_000
LARGEST_WHOLE = 16 << 30
"""Bytes of all the files of a backup, unpacked."""
_ZIP = (b"PK\x03\x04", b"PK\x05\x06")
_LAST_NAME = 128
"""Bytes at the end of a backup, which name its last file."""
_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, struct.error, NotImplementedError)
"""What reading a ZIP file raises where it is not one, is cut off or damaged."""
_SAME_DATE = (1980, 1, 1, 0, 0, 0)
"""Of every file: what a backup holds depends on what is kept alone."""


class BadBackup(HingesideError):
    """A file that is not a backup, or not the whole of one. Nothing of it is used."""

    status = FOUND


class OutputThere(HingesideError):
    """The file that would be written is there already."""

    status = UNKNOWN


@dataclass(frozen=True, slots=True)
class Written:
    """A backup that was made."""

    files: int
    runs: int
    size: int
    """Bytes of the files, unpacked."""
    left: list[str]
    """A sentence on each file that is not in it."""


def is_backup(path: Path) -> bool:
    """Whether a file begins as a backup does."""
    with path.open("rb") as file:
        return file.read(4) in _ZIP


# --- writing ---


def kept_here() -> Iterator[tuple[str, Piece]]:
    """All that a backup of this device holds, each with the part of the backup it goes to."""
    for piece in pieces_in(user_folder(), lambda name: not _left_out(name)):
        yield DATA, piece
    for piece in pieces_in(own_folder("config"), lambda name: name in SETTINGS_FILES):
        yield SETTINGS, piece


def _left_out(name: str) -> bool:
    """Whether it is of this device alone, made again from the rest, or among the settings."""
    return name in (*OF_THIS_DEVICE, *SETTINGS_FILES) or name.startswith(MADE_AGAIN)


def write_backup(path: Path, made: str, *, replace: bool) -> Written:
    """Write all that is kept on this device.

    It is written beside, synced and renamed. Raises OutputThere for a file that is there unless `replace`, AmongRuns
    for one in the folder of the runs, OSError where it cannot be written.
    """
    target = path.resolve()
    _need_place(path, target, replace)
    new = target.with_name(f".{target.name[:100]}.{secrets.token_hex(6)}.new")
    try:
        with new.open("xb") as file:
            written = _written(file, made)
            file.flush()
            os.fsync(file.fileno())
        new.replace(target)
    except BaseException as error:
        with suppress(OSError):  # the first error is the one to tell
            new.unlink()
        if isinstance(error, OSError) and error.filename == str(new):
            error.filename = str(path)  # the name that the person gave
        raise
    sync_folder(target.parent)
    return written


def _need_place(path: Path, target: Path, replace: bool) -> None:
    if target.is_dir():
        raise OutputThere(f"{printable(str(path))} is a folder; name a file in it.")
    if runs_folder().resolve() in target.parents:
        raise AmongRuns(f"{path} is in the folder of the jobs; write it to another folder.")
    if os.path.lexists(target) and not replace:
        raise OutputThere(
            f"{printable(str(path))} is there already; name another file, or add --replace."
        )


def _written(file: Any, made: str) -> Written:
    entries: list[dict[str, Any]] = []
    left: list[str] = []
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for part, piece in kept_here():
            name = f"{part}/{piece.name}"
            try:
                data = _kept(name, piece)
            except HingesideError as error:
                left.append(str(error))
                continue
            if data[:4] in _ZIP and LIST.encode() in data[-_LAST_NAME:]:
                continue  # a backup that was written here: it would hold itself, and grow each time
            archive.writestr(_info(name), data)
            digest = hashlib.sha256(data).hexdigest()
            entries.append({"name": name, "size": len(data), "sha256": digest})
        listed = {"hingeside": "backup", "form": FORM, "program": VERSION, "made": made}
        archive.writestr(_info(LIST), json.dumps({**listed, "files": entries}, indent=1))
    runs = sum(1 for one in entries if one["name"].startswith(f"{DATA}/{RUNS}/"))
    return Written(len(entries), runs, sum(one["size"] for one in entries), left)


def _kept(name: str, piece: Piece) -> bytes:
    if not is_plain(name):
        raise BadPiece(f"{printable(name)} has a name that not every system takes; rename it.")
    return piece.read()


def _info(name: str) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(name, _SAME_DATE)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.external_attr = (stat.S_IFREG | 0o600) << 16
    return info


# --- reading ---


class BackupSource:
    """A backup as a source. On opening, every byte of it is compared with its list."""

    def __init__(self, path: Path, part: str = "") -> None:
        """`part` is the one of the backup whose files are given, all of them; without one it is what devices share.

        Raises BadBackup for anything that is not exactly a backup that this version wrote.
        """
        self.name = printable(str(path))
        self._path = path
        self._part = part
        try:
            with zipfile.ZipFile(path) as archive:
                self.listed = self._list_of(archive)
                self._files = {one["name"]: one for one in self.listed["files"]}
                for info in archive.infolist():
                    if info.filename != LIST:
                        self._read(archive, info.filename)
        except _BROKEN as error:
            raise self._bad("is damaged or cut off, or not a backup") from error

    def of(self, part: str) -> "BackupSource":
        """The same backup, with the files of another part."""
        other = copy(self)
        other._part = part
        return other

    def pieces(self) -> Iterator[Piece]:
        """Its files, in the order of the names."""
        for name in sorted(self._files):
            part, _, inner = name.partition("/")
            top = inner.partition("/")[0]
            given = top in UNITED if part == DATA and not self._part else part == self._part
            if given and not (part == DATA and _left_out(top)):
                yield Piece(PurePosixPath(inner), partial(self._reread, name))

    def _reread(self, name: str) -> bytes:
        try:
            with zipfile.ZipFile(self._path) as archive:
                return self._read(archive, name)
        except _BROKEN as error:
            raise BadPiece("the backup was changed while it was read.") from error

    def _list_of(self, archive: zipfile.ZipFile) -> dict[str, Any]:
        infos = archive.infolist()
        names = [info.filename for info in infos]
        if LIST not in names:
            raise self._bad("is not a backup of Hingeside: it has no list of its files")
        for info in infos:
            self._need_plain(info)
        if len(set(names)) < len(names) or len(names) > MOST_FILES:
            raise self._bad("names a file twice, or too many files")
        listed = self._parsed(archive)
        claimed = [one["name"] for one in listed["files"]]
        if sorted([*claimed, LIST]) != sorted(names):
            raise self._bad("does not hold the files of its list")
        if sum(one["size"] for one in listed["files"]) > LARGEST_WHOLE:
            raise self._bad(f"is larger than {LARGEST_WHOLE >> 30} GB unpacked")
        return listed

    def _need_plain(self, info: zipfile.ZipInfo) -> None:
        if stat.S_IFMT(info.external_attr >> 16) not in (0, stat.S_IFREG):
            raise self._bad("holds a link or a folder, which no backup does")
        if info.flag_bits & 0x1:
            raise self._bad("is locked with a password")
        if info.filename != LIST and not is_plain(info.filename):
            raise self._bad(f"names a file outside its folders, {printable(info.filename[:60])}")

    def _parsed(self, archive: zipfile.ZipFile) -> dict[str, Any]:
        try:
            listed = json.loads(self._bounded(archive, LIST, LARGEST_LIST))
        except (ValueError, RecursionError) as error:
            raise self._bad("has a list that cannot be read") from error
        if not isinstance(listed, dict) or listed.get("hingeside") != "backup":
            raise self._bad("is not a backup of Hingeside")
        if listed.get("form") != FORM:
            raise self._bad("was made by another version of Hingeside; open it with that version")
        files = listed.get("files")
        if not isinstance(files, list) or not all(_is_entry(one) for one in files):
            raise self._bad("has a list that cannot be read")
        return listed

    def _read(self, archive: zipfile.ZipFile, name: str) -> bytes:
        entry = self._files[name]
        data = self._bounded(archive, name, entry["size"])
        if hashlib.sha256(data).hexdigest() != entry["sha256"]:
            raise self._bad(f"is damaged: {printable(name)} is not what was saved")
        return data

    def _bounded(self, archive: zipfile.ZipFile, name: str, most: int) -> bytes:
        """What a file unpacks to, as long as it is not more than it should be."""
        with archive.open(name) as file:
            data = file.read(most + 1)
        if len(data) > most:
            raise self._bad(f"holds more than its list says, in {printable(name)}")
        return data

    def _bad(self, what: str) -> BadBackup:
        return BadBackup(f"{self.name} {what}. Nothing of it was used.")


def _is_entry(one: object) -> bool:
    return (
        isinstance(one, dict)
        and set(one) == {"name", "size", "sha256"}
        and isinstance(one["name"], str)
        and type(one["size"]) is int
        and 0 <= one["size"] <= LARGEST_FILE
        and isinstance(one["sha256"], str)
        and DIGEST.fullmatch(one["sha256"]) is not None
    )
