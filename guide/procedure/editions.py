"""Which words and blocks each edition of a procedure had when it was last checked in.

They are kept as digests in one file beside the procedures, written by `hingeside check --accept-edition`. What a file
says counts, and so do the shared facts that it names, which have no edition of their own; comments, the order of keys,
the edition itself and what a file accepts do not.
"""

import hashlib
import json
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from guide.errors import NO_DEVICE, HingesideError
from guide.files.findings import resolved
from guide.files.marks import plain
from guide.files.source import Source
from guide.procedure import schema
from guide.procedure.load import Loaded

EDITIONS = "editions.json"
FORM = 1
LARGEST = 1024 * 1024
"""Bytes; a larger file was not written by this program."""
_ASIDE = ("edition", "accepted")
"""Keys whose change needs no new edition."""


class UnreadableEditions(HingesideError, ValueError):
    """The kept editions cannot be read, or not be written."""

    status = NO_DEVICE


@dataclass(frozen=True, slots=True)
class Edition:
    """An edition as it was checked in."""

    edition: int
    digest: str
    """SHA-256 of what the file said then."""


def edition_of(loaded: Loaded, source: Source) -> Edition | None:
    """The edition and digest of a procedure as it stands; None for a file of facts, or one without its shape."""
    shape = source.shape
    if not isinstance(shape, schema.ProcedureShape):
        return None
    shared = [loaded.included(source, name) for name in shape.facts_in]
    said = [_said(one) for one in (source, *shared) if one is not None]
    text = json.dumps(said, sort_keys=True, ensure_ascii=True)
    return Edition(shape.edition, hashlib.sha256(text.encode("ascii")).hexdigest())


def _said(source: Source) -> dict[str, Any]:
    found: dict[str, Any] = plain(source.tree)
    return {key: value for key, value in found.items() if key not in _ASIDE}


def kept_editions(folder: Path) -> dict[str, Edition]:
    """The editions checked in in a folder, by file name; none where there is no such file.

    Raises UnreadableEditions where there is one that is damaged or of another form.
    """
    path = folder / EDITIONS
    try:
        if not path.is_file():
            return {}
        if path.stat().st_size > LARGEST:
            raise ValueError
        data = json.loads(path.read_text("utf-8"))
        if data["form"] != FORM:
            raise ValueError
        return {str(name): _read(one) for name, one in data["files"].items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        message = (
            f"{EDITIONS} in this folder cannot be read; put the kept file back, or remove it and "
            "accept the editions anew with “hingeside check --accept-edition”."
        )
        raise UnreadableEditions(message) from error


def _read(one: Any) -> Edition:
    edition, digest = one["edition"], one["digest"]
    if type(edition) is not int or not isinstance(digest, str):
        raise ValueError
    return Edition(edition, digest)


def not_raised(kept: Edition | None, now: Edition) -> str:
    """What is wrong with an edition, beside the one that was checked in; empty if nothing is."""
    if kept is None or now == kept or (now.edition > kept.edition and now.digest != kept.digest):
        return ""
    if now.edition < kept.edition:
        return f"Edition {kept.edition} was checked in; write at least that, not {now.edition}."
    if now.digest == kept.digest:
        return ""
    return (
        f"Words or blocks are not those of edition {kept.edition} as it was checked in; "
        f"write edition: {kept.edition + 1}."
    )


def keep_edition(path: Path, now: Edition) -> None:
    """Note an edition as checked in. Raises UnreadableEditions."""
    whole = resolved(path)
    kept = {**kept_editions(whole.parent), whole.name: now}
    files = {
        name: {"edition": one.edition, "digest": one.digest} for name, one in sorted(kept.items())
    }
    text = json.dumps({"form": FORM, "files": files}, indent=1) + "\n"
    try:
        _put(whole.parent / EDITIONS, text)
    except OSError as error:
        message = f"{EDITIONS} cannot be written in {whole.parent}; the folder must take files."
        raise UnreadableEditions(message) from error


def _put(path: Path, text: str) -> None:
    """Write beside, sync and rename: the file is the old one or the new one, whatever happens."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".editions-")
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
