"""Entries of the cache: where they are, and how one is written whole or not at all."""

import json
import os
from pathlib import Path
from typing import Any

from guide.procedure.own_folders import own_folder


def cache_folder() -> Path:
    """Where compiled graphs and sheets are kept; safe to delete at any time."""
    return own_folder("cache")


def write_entry(entry: Path, data: dict[str, Any]) -> None:
    """Put the entry in its place; where the disk does not take it, there is none."""
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
        # A full or read-only disk, or a path that is no text: it costs speed only, what is kept is in hand.
        if new is not None:
            new.unlink(missing_ok=True)
