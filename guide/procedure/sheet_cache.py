"""Sheets kept as JSON with the text of the file they came from, and how an entry of the cache is written.

Reading one costs two file reads and no YAML. The text is short, so it is kept itself and compared: a digest of it would
cost `hingeside work` more, for `hashlib` loads OpenSSL, than all the rest of reading a sheet.
"""

import codecs
import json
import os
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zlib import crc32

from guide.files.findings import resolved
from guide.files.library import own_folder
from guide.files.stored_form import STORED_FORM

if TYPE_CHECKING:
    from guide.trade.sheet.sheet import Sheet


def sheet_of(path: Path) -> "Sheet":
    """A closer's sheet: from the cache, or read and kept. Raises BadFile with every fault."""
    whole = str(resolved(path))
    # Two paths with one name for their entry take turns in it: the entry says whose it is.
    entry = cache_folder() / f"sheet-{crc32(os.fsencode(whole)):08x}.json"
    sheet = _kept(entry, whole)
    if sheet is not None:
        return sheet
    from guide.procedure.sheet_file import read_sheet

    source, sheet = read_sheet(path)
    kept = {"format": STORED_FORM, "path": whole, "text": source.text, "sheet": sheet.to_json()}
    write_entry(entry, kept)
    return sheet


def _kept(entry: Path, whole: str) -> "Sheet | None":
    """The sheet that is kept, if the entry is whole and its file has not changed."""
    from guide.trade.sheet.sheet import Sheet

    try:
        data = json.loads(entry.read_text("utf-8"))
        if data["format"] != STORED_FORM or data["path"] != whole:
            return None
        if Path(whole).read_bytes().removeprefix(codecs.BOM_UTF8) != data["text"].encode():
            return None
        return Sheet.from_json(data["sheet"])
    except (OSError, ValueError, KeyError, TypeError, IndexError, AttributeError):
        return None  # the file itself is parsed if its cache cannot be read


def cache_folder() -> Path:
    """The folder of cached graphs and sheets; safe to delete at any time."""
    return own_folder("cache")


def write_entry(entry: Path, data: dict[str, Any]) -> None:
    """Write the entry to a temporary file and rename it; if the disk refuses it, nothing is cached."""
    import tempfile  # only a cache that is out of date pays for it

    new: Path | None = None
    try:
        entry.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=entry.parent, prefix=".new-")
        new = Path(name)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            json.dump(data, file, separators=(",", ":"), ensure_ascii=False)
        new.replace(entry)
    except (OSError, UnicodeEncodeError):
        # A full or read-only disk, or a path that is not text: it costs speed only, the value is in hand.
        if new is not None:
            new.unlink(missing_ok=True)
