"""The cache of compiled graphs: JSON files, each valid while the digests of its sources are the same.

Reading one costs a few file reads and no YAML, so that a run's first step is on the screen at once.
"""

import codecs
import hashlib
import json
import os
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guide.files.findings import resolved
from guide.files.stored_form import STORED_FORM
from guide.procedure.sheet_cache import cache_folder, write_entry

if TYPE_CHECKING:
    from guide.procedure.graph import Graph


def graph_of(path: Path) -> "Graph":
    """The graph of a procedure file: from the cache, or read, checked and kept.

    Raises BadFile with every finding if the file has an error and must not be run.
    """
    kept = _entry(path, STORED_FORM)
    graph = _kept(kept)
    if graph is not None:
        return graph
    from guide.checker.check import check
    from guide.files.findings import BadFile

    report = check(path)
    if report.graph is None or not report.sound:
        raise BadFile([f for f in report.findings if f.level == "error"] or report.findings)
    # Of the texts that were compiled, not of the files again: they may have changed in between.
    sources = {
        str(path): _digest(source.text.encode()) for path, source in report.loaded.sources.items()
    }
    _keep(kept, sources, report.graph)
    return report.graph


def _keep(entry: Path, sources: dict[str, str], graph: "Graph") -> None:
    """Keep a graph, unless it is one that no run's file may hold: then beginning a run says so each time."""
    from guide.procedure.stored_graph import BadGraph, read_stored

    stored = graph.to_json()
    try:
        read_stored(stored)
    except BadGraph:
        return
    write_entry(entry, {"format": STORED_FORM, "sources": sources, "graph": stored})


def _entry(path: Path, form: int) -> Path:
    whole = os.fsencode(resolved(path))
    name = hashlib.sha256(b"%d:%b" % (form, whole)).hexdigest()[:32]
    return cache_folder() / f"{name}.json"


def _digest(data: bytes) -> str:
    return hashlib.sha256(data.removeprefix(codecs.BOM_UTF8)).hexdigest()


def _kept(entry: Path) -> "Graph | None":
    """The cached graph, if it is whole and none of its sources changed."""
    from guide.procedure.graph import Graph

    try:
        data: dict[str, Any] = json.loads(entry.read_text("utf-8"))
        if data["format"] != STORED_FORM:
            return None
        for source, digest in data["sources"].items():
            if _digest(Path(source).read_bytes()) != digest:
                return None
        graph = Graph.from_json(data["graph"])
        graph.checked = True
        return graph
    except (OSError, ValueError, KeyError, TypeError, IndexError, AttributeError):
        return None  # the file itself is parsed if its cache cannot be read
