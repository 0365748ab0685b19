"""What this device has seen on each server: the last lines of every run that it pushed there, or pulled from there.

Lines are only ever added to a server. So what was there once is there still, or somebody took it away or hides it.
"""

import json
from collections.abc import Iterable
from pathlib import Path

from guide.crew.lines import Key
from guide.files.plain_data import each, keyed, mapping, one_of, row, text, whole
from guide.files.writing import write_in_place

FILE = "crew.json"
FORM = 1
_RUNS = 1_000_000
_SHAPE = keyed(
    {
        "hingeside": one_of("crew"),
        "form": whole(FORM, FORM),
        "servers": mapping(
            text(400), mapping(text(32), each(row(whole(0, 10**6), text(64))), _RUNS)
        ),
    }
)
Ends = set[Key]
_Servers = dict[str, dict[str, list[Key]]]


class Seen:
    """What was seen on one server. A file that cannot be read says nothing, and is written anew."""

    def __init__(self, folder: Path, server: str) -> None:
        """`folder` is the data folder of the device."""
        self._path = folder / FILE
        self._server = server
        self._all = _read(self._path)
        self._runs = self._all.setdefault(server, {})

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

    def keep(self) -> None:
        """Write it down. Raises OSError."""
        data = {"hingeside": "crew", "form": FORM, "servers": self._all}
        self._path.parent.mkdir(parents=True, exist_ok=True)
        write_in_place(self._path, f"{json.dumps(data, indent=0, sort_keys=True)}\n".encode())


def _read(path: Path) -> _Servers:
    try:
        data = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    if not _SHAPE(data):
        return {}
    servers: _Servers = data["servers"]
    return servers
