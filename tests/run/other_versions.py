"""Runs as other versions of the program would leave them: each holds together, and not one is damaged."""

import sqlite3
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from guide.files.stored_form import STORED_FORM
from guide.run.events import Event
from guide.run.journal import read_events
from tests.run.kept_runs import kept_run, tamper


def newer_run() -> Path:
    """A run whose file says that it is of the next form."""
    path = kept_run()
    tamper(path, f"PRAGMA user_version={STORED_FORM + 1}")
    return path


def newer_run_of_another_table() -> Path:
    """A run of the next form, which keeps its events in lines."""
    path = newer_run()
    tamper(path, "CREATE TABLE line (bytes BLOB)", "DROP TABLE event")
    return path


def older_run() -> Path:
    """A run whose file says that it is of the form before this one."""
    path = kept_run()
    tamper(path, f"PRAGMA user_version={STORED_FORM - 1}")
    return path


def run_with_a_photo() -> Path:
    """A run with an event of a kind that this version does not know, in the middle of its chain."""
    path = kept_run()
    events = read_events(path)
    photo = replace(events[3], kind="photo added", body={"at": "how-wide", "digest": "9f" * 32})
    return chained_anew(path, [*events[:3], photo, *events[4:]])


def run_of_another_graph() -> Path:
    """A run whose compiled procedure has another form."""
    path = kept_run()
    first, *rest = read_events(path)
    graph = {**first.body["graph"], "format": STORED_FORM + 1}
    return chained_anew(path, [replace(first, body={**first.body, "graph": graph}), *rest])


OTHERS: dict[str, Callable[[], Path]] = {
    "made by a newer version": newer_run,
    f"form {STORED_FORM + 1}": newer_run_of_another_table,
    "made by an older version": older_run,
    "its event 4, “photo added”, is of a kind that this one does not know": run_with_a_photo,
    f"its procedure has form {STORED_FORM + 1}": run_of_another_graph,
}
"""Each kind of run, by what is said of it."""


def chained_anew(path: Path, events: list[Event]) -> Path:
    """Write these events into the file in place of its own, each chained to the one before it."""
    previous = events[0].prev_hash
    with sqlite3.connect(path) as db:
        db.execute("DELETE FROM event")
        for event in events:
            linked = replace(event, prev_hash=previous)
            previous = linked.digest()
            head = (linked.id, linked.run, linked.device, linked.seq, linked.utc, linked.kind)
            row = (*head, linked.body_text(), linked.prev_hash)
            db.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row)
    db.close()
    return path


def folder_of(path: Path) -> dict[str, bytes]:
    """Every file beside a run, and the run itself: name and content."""
    return {one.name: one.read_bytes() for one in path.parent.iterdir()}
