"""What this device has seen on each server: the last lines of every run, and the version of every other file, that it
pushed there or pulled from there.

A server only ever gets more. So what was there once is there still, or somebody took it away or hides it.
"""

import json
from collections.abc import Iterable
from pathlib import Path
from typing import TypedDict

from guide.crew.lines import Key
from guide.files.plain_data import each, keyed, mapping, one_of, row, text, whole
from guide.files.writing import write_in_place

FILE = "crew.json"
FORM = 1
_MOST = 1_000_000
_ENDS = mapping(text(32), each(row(whole(0, 10**6), text(64))), _MOST)
_FILES = mapping(text(400), text(64), _MOST)
_SHAPE = keyed(
    {
        "hingeside": one_of("crew"),
        "form": whole(FORM, FORM),
        "servers": mapping(text(400), keyed({"runs": _ENDS, "files": _FILES})),
    }
)
Ends = set[Key]


class _Server(TypedDict):
    runs: dict[str, list[Key]]
    files: dict[str, str]


class Seen:
    """What was seen on one server. A file that cannot be read says nothing, and is written anew."""

    def __init__(self, folder: Path, server: str) -> None:
        """`folder` is the data folder of the device."""
        self._path = folder / FILE
        self._all = _read(self._path)
        there = self._all.setdefault(server, {"runs": {}, "files": {}})
        self._runs, self._files = there["runs"], there["files"]

    def runs(self) -> Iterable[str]:
        """Every run that was there."""
        return list(self._runs)

    def ends(self, run: str) -> Ends:
        """The last lines of a run that was there, one for each way in which it was continued."""
        return {(n, digest) for n, digest in self._runs.get(run, ())}

    def note(self, run: str, ends: Ends) -> None:
        """A run is there up to these lines, which continue or stand beside what was there before."""
        if ends:
            self._runs[run] = sorted(ends)

    def forget(self, run: str) -> None:
        """A run is there no longer, nor here."""
        self._runs.pop(run, None)

    def files(self) -> Iterable[str]:
        """Every other file that was there."""
        return list(self._files)

    def file(self, name: str) -> str:
        """The digest of the version that was last the same here and there; empty if there was none."""
        return self._files.get(name, "")

    def note_file(self, name: str, digest: str) -> None:
        """A file is the same here and there."""
        self._files[name] = digest

    def forget_file(self, name: str) -> None:
        """A file is there no longer."""
        self._files.pop(name, None)

    def keep(self) -> None:
        """Write it down. Raises OSError."""
        data = {"hingeside": "crew", "form": FORM, "servers": self._all}
        self._path.parent.mkdir(parents=True, exist_ok=True)
        write_in_place(self._path, f"{json.dumps(data, indent=0, sort_keys=True)}\n".encode())


def _read(path: Path) -> dict[str, _Server]:
    try:
        data = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    if not _SHAPE(data):
        return {}
    servers: dict[str, _Server] = data["servers"]
    return servers
