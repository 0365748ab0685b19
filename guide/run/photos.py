"""Photos of a job: a file is read and checked, and a clean copy of it is kept under its own digest.

A copy holds the picture alone. What a camera writes beside it (place, time, device) is left out, and how the camera was
held is turned into the picture. A run names its photos by digest, so that no file name in a run leads anywhere.
"""

import hashlib
import io
import os
import re
import stat
import struct
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from guide.files.library import user_folder
from guide.files.writing import why_not, write_in_place
from guide.run.log.form import DIGEST
from guide.run.settings import BadSettings, load_settings
from guide.run.state import KeptPhoto
from guide.run.step import Refused
from guide.text import printable, tidy

LARGEST = 30_000_000
"""Bytes of a file that is accepted."""
MOST_PIXELS = 60_000_000
"""Width times height; a picture is not decoded past that."""
MOST_ACROSS = 4096
"""Pixels of the longer side of a copy; a larger picture is made smaller."""
QUALITY = 90
"""Of the JPEG copy, 1 to 95."""
LONGEST_NAME = 120
OFFERED = 9
"""Photos of the folder that are offered by a number."""
ENDINGS = {"JPEG": ".jpg", "PNG": ".png"}
_BEGINS = {b"\xff\xd8\xff": "JPEG", b"\x89PNG\r\n\x1a\n": "PNG"}
_MODES = {"JPEG": ("L", "RGB"), "PNG": ("L", "RGB", "RGBA")}
_NAMED = (".jpg", ".jpeg", ".png")
_HEIC = re.compile(rb"....ftyp(heic|heix|hevc|heim|heis|mif1|msf1|avif)", re.DOTALL)

KEPT, MISSING, ALTERED = "kept", "missing", "altered"


class BadPhoto(Refused):
    """A file that cannot be attached as a photo; the sentence says why and what to do."""


@dataclass(frozen=True, slots=True)
class CleanPhoto:
    """A photo that was read and checked, and is not kept yet."""

    name: str
    """The file's own name, to be shown."""
    form: str
    """JPEG or PNG."""
    data: bytes
    """The clean copy."""
    original: str
    """SHA-256 of the file as it was."""

    @property
    def digest(self) -> str:
        """SHA-256 of the clean copy."""
        return hashlib.sha256(self.data).hexdigest()


def photos_folder() -> Path:
    """Where the photos of all jobs are kept."""
    return user_folder() / "photos"


def read_photo(path: Path) -> CleanPhoto:
    """A photo from a file that the person named. Raises BadPhoto."""
    data = _bytes_of(path)
    name = tidy(printable(path.name))[-LONGEST_NAME:]
    form = _form(data)
    if _HEIC.match(data):
        raise BadPhoto(
            f"{name} is an HEIC picture, which is not read; set the camera to JPEG, or share the photo as JPEG."
        )
    if not form:
        raise BadPhoto(f"{name} is not a JPEG or PNG picture; attach one of those.")
    return CleanPhoto(name, form, _redrawn(data, form, name=name), hashlib.sha256(data).hexdigest())


def keep_photo(photo: CleanPhoto) -> None:
    """Put the copy on the disk under its digest, unless it is there. Raises BadPhoto where it cannot be written."""
    path = photos_folder() / f"{photo.digest}{ENDINGS[photo.form]}"
    if state_of_photo(photo.digest) == KEPT:
        return
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_in_place(path, photo.data)
    except OSError as error:
        raise BadPhoto(f"The photo is not attached: {why_not(error, path.parent)}.") from error


def photo_bytes(digest: str) -> bytes | None:
    """What is kept under a digest, whether it is right or not; None if there is nothing."""
    if not DIGEST.fullmatch(digest):
        return None
    for ending in ENDINGS.values():
        path = photos_folder() / f"{digest}{ending}"
        try:
            return _bytes_of(path)
        except BadPhoto:
            continue
    return None


def state_of_photo(digest: str) -> str:
    """KEPT, MISSING or ALTERED."""
    data = photo_bytes(digest)
    if data is None:
        return MISSING
    return KEPT if hashlib.sha256(data).hexdigest() == digest else ALTERED


def not_as_kept(photos: Iterable[KeptPhoto]) -> list[tuple[KeptPhoto, str]]:
    """The photos that are missing or altered, each with which of them it is."""
    found = [(one, state_of_photo(one.sha256)) for one in photos]
    return [(one, said) for one, said in found if said != KEPT]


def newest(photos: Iterable[KeptPhoto]) -> list[Path]:
    """The newest photos of the folder in the settings that this job has not got yet; none without that setting."""
    folder = offered_folder()
    if folder is None:
        return []
    had = {one.original for one in photos}
    found: list[Path] = []
    for path in _pictures(folder):
        if len(found) == OFFERED:
            break
        if _digest_of(path) not in had:
            found.append(path)
    return found


def offered_folder() -> Path | None:
    """The folder where a phone puts its photos, by the setting `photos`."""
    try:
        name = load_settings().photos
    except BadSettings:
        return None
    return Path(name).expanduser() if name else None


def named(text: str) -> Path:
    """The file that a person means, as typed or dropped on the terminal; a bare name may be one of the folder's."""
    text = text.strip()
    if len(text) > 1 and text[0] == text[-1] and text[0] in "'\"":
        text = text[1:-1]
    if "\x00" in text or len(text) > 2000:
        raise BadPhoto("This is not the name of a file; write the name of a JPEG or PNG picture.")
    path = Path(text).expanduser()
    folder = offered_folder()
    tries = [path, Path(text.replace("\\ ", " ")).expanduser()]
    tries += [folder / path.name] if folder is not None and path.name == text else []
    return next((one for one in tries if one.is_file()), path)


def small_copy(data: bytes, pixels: int) -> bytes | None:
    """A picture for a paper, no wider or higher than `pixels`; None where it cannot be decoded. A run may come from
    elsewhere, and its photos with it."""
    form = _form(data)
    try:
        return _redrawn(data, form, pixels) if form else None
    except BadPhoto:
        return None


def _form(data: bytes) -> str:
    return next((form for begins, form in _BEGINS.items() if data.startswith(begins)), "")


def _pictures(folder: Path) -> Iterator[Path]:
    """Files of a folder that are named as pictures, the newest first."""
    dated = []
    try:
        for entry in os.scandir(folder):
            if entry.name.lower().endswith(_NAMED) and entry.is_file(follow_symlinks=False):
                dated.append((entry.stat().st_mtime, entry.name))
    except OSError:
        return  # a folder that is not there offers nothing
    for _, name in sorted(dated, reverse=True):
        yield folder / name


def _digest_of(path: Path) -> str:
    try:
        return hashlib.sha256(_bytes_of(path)).hexdigest()
    except BadPhoto:
        return ""


def _bytes_of(path: Path) -> bytes:
    """A file's content. Raises BadPhoto for what is not a plain file, is too large, or cannot be read."""
    name = printable(path.name[-LONGEST_NAME:]) or "."
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
        with os.fdopen(handle, "rb") as file:
            if not stat.S_ISREG(os.fstat(handle).st_mode):
                raise BadPhoto(f"{name} is not a file; name a JPEG or PNG picture.")
            data = file.read(LARGEST + 1)
    except (FileNotFoundError, NotADirectoryError) as error:
        raise BadPhoto(
            f"There is no file {name}; write its whole name, with its folder."
        ) from error
    except (OSError, ValueError) as error:
        raise BadPhoto(f"{name} cannot be read; name a JPEG or PNG picture.") from error
    if len(data) > LARGEST:
        raise BadPhoto(f"{name} is larger than {LARGEST // 1_000_000} MB; make it smaller first.")
    return data


def _redrawn(data: bytes, form: str, pixels: int = MOST_ACROSS, name: str = "The photo") -> bytes:
    """The picture alone, turned as it was taken, no wider or higher than `pixels`, written anew. Raises BadPhoto."""
    from PIL import Image, ImageOps  # dear, and wanted for a photo alone

    try:
        with Image.open(io.BytesIO(data), formats=[form]) as image:
            if image.width * image.height > MOST_PIXELS:
                raise BadPhoto(
                    f"{name} has more than {MOST_PIXELS // 10**6} megapixels; make it smaller first."
                )
            image.draft(None, (pixels, pixels))  # a large JPEG is not decoded in full
            picture = ImageOps.exif_transpose(image)
            if picture.mode not in _MODES[form]:
                clear = form == "PNG" and "transparency" in picture.info
                picture = picture.convert("RGBA" if clear else "RGB")
            picture.thumbnail((pixels, pixels))
            picture.info = {}
            out = io.BytesIO()
            picture.save(out, form, **({"quality": QUALITY} if form == "JPEG" else {}))
    except Image.DecompressionBombError as error:
        raise BadPhoto(f"{name} has too many pixels; make it smaller first.") from error
    except (OSError, SyntaxError, ValueError, EOFError, struct.error, zlib.error) as error:
        raise BadPhoto(f"{name} is damaged and cannot be shown; take the photo again.") from error
    return out.getvalue()
