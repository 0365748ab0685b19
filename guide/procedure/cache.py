"""Compiled graphs, and sheets, kept as JSON with the digest of every file they came from.

Reading one costs a few file reads and no YAML, so that a run's first step is on the screen at once.
"""

import codecs
import hashlib
import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from guide.procedure.own_folders import own_folder
from guide.procedure.paths import resolved

if TYPE_CHECKING:
    from guide.procedure.graph import Graph
    from guide.trade.sheet import Sheet

SHEET_FORMAT = 1
"""Raised whenever the stored form of a sheet changes."""

T = TypeVar("T")


def cache_folder() -> Path:
    """Where compiled graphs are kept; safe to delete at any time."""
    return own_folder("cache")


def graph_of(path: Path) -> "Graph":
    """The graph of a procedure file: from the cache, or read, checked and kept.

    Raises BadFile with every finding where the file has an error and must not be run.
    """
    from guide.procedure.graph import FORMAT, Graph

    kept = _entry(path, FORMAT)
    graph = _read(kept, FORMAT, "graph", Graph.from_json)
    if graph is not None:
        return graph
    from guide.procedure.checker import check
    from guide.procedure.findings import BadFile

    report = check(path)
    if report.graph is None or not report.sound:
        raise BadFile([f for f in report.findings if f.level == "error"] or report.findings)
    # Of the texts that were compiled, not of the files again: they may have changed in between.
    sources = {
        str(path): _digest(source.text.encode()) for path, source in report.loaded.sources.items()
    }
    _write(kept, {"format": FORMAT, "sources": sources, "graph": report.graph.to_json()})
    return report.graph


def sheet_of(path: Path) -> "Sheet":
    """A closer's sheet: from the cache, or read and kept. Raises BadFile with every fault."""
    from guide.trade.sheet import Sheet

    kept = _entry(path, SHEET_FORMAT)
    sheet = _read(kept, SHEET_FORMAT, "sheet", Sheet.from_json)
    if sheet is not None:
        return sheet
    from guide.procedure.sheet_file import read_sheet

    source, sheet = read_sheet(path)
    digest = _digest(source.text.encode())
    sources = {str(resolved(path)): digest}
    _write(kept, {"format": SHEET_FORMAT, "sources": sources, "sheet": sheet.to_json()})
    return sheet


def _entry(path: Path, form: int) -> Path:
    whole = os.fsencode(resolved(path))
    name = hashlib.sha256(b"%d:%b" % (form, whole)).hexdigest()[:32]
    return cache_folder() / f"{name}.json"


def _digest(data: bytes) -> str:
    return hashlib.sha256(data.removeprefix(codecs.BOM_UTF8)).hexdigest()


def _read(entry: Path, form: int, kind: str, made: Callable[[Any], T]) -> T | None:
    """What is kept, if it is whole and none of its sources changed."""
    try:
        data: dict[str, Any] = json.loads(entry.read_text("utf-8"))
        if data["format"] != form:
            return None
        for source, digest in data["sources"].items():
            if _digest(Path(source).read_bytes()) != digest:
                return None
        return made(data[kind])
    except (OSError, ValueError, KeyError, TypeError, IndexError, AttributeError):
        return None  # a cache that cannot be read is no cache: the file itself is parsed instead


def _write(entry: Path, data: dict[str, Any]) -> None:
    import tempfile  # only a cache that is out of date pays for it

    new: Path | None = None
    try:
        entry.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=entry.parent, prefix=".new-")
        new = Path(name)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            json.dump(data, file, separators=(",", ":"), ensure_ascii=False)
        new.replace(entry)
    except OSError:
        # A full or read-only disk costs speed only: the graph is already in hand.
        if new is not None:
            new.unlink(missing_ok=True)
