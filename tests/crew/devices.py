"""Devices of these tests: each a data folder, with runs that are continued line by line."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from uuid import UUID

from guide.run.log.form import LogLine, event_line, read_header, read_line
from tests.run.kept_runs import kept_run

NOTES = ("Hinge side is packed.", "Frame is out by a quarter.", "Painter has gone.")


@contextmanager
def at_home(folder: Path) -> Iterator[Path]:
    """Work on the device whose data folder this is."""
    before = os.environ["HINGESIDE_HOME"]
    folder.mkdir(parents=True, exist_ok=True)
    os.environ["HINGESIDE_HOME"] = str(folder)
    try:
        yield folder
    finally:
        os.environ["HINGESIDE_HOME"] = before


@cache
def begun(door: str) -> bytes:
    """A run that was begun at this door and paused, as its file holds it."""
    path = kept_run(door)
    data = path.read_bytes()
    path.unlink()
    return data


def noted(data: bytes, text: str, device: str = "0a1b2c3d4e5f") -> bytes:
    """The same run with one line more: a note of a device. The same note of the same device gives the same line."""
    raw = data.splitlines()[-1]
    last = read_line(raw, graph=False)
    event = UUID(bytes=f"{device}{text}{last.n}".encode()[:16].ljust(16)).hex
    body = {"at": last.at.partition("#")[0], "text": text}
    line = LogLine(
        *(last.n + 1, last.digest, last.at, "A. Fitter", device, last.utc, last.offset),
        ((event, "noted", body),),
    )
    return data + event_line(line)[0]


def run_of(data: bytes) -> str:
    """The id of a run."""
    return read_header(data.splitlines()[0]).run


def put(home: Path, name: str, data: bytes) -> Path:
    """A run file in the data folder of a device."""
    path = home / "runs" / f"{name}.run"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    return path


def held(home: Path) -> set[bytes]:
    """What the run files of a device hold."""
    return {path.read_bytes() for path in (home / "runs").glob("*.run")}
