"""Runs as other versions of the program would leave them: each holds together, and not one is damaged."""

import sqlite3
from collections.abc import Callable
from pathlib import Path

from guide.files.stored_form import STORED_FORM
from guide.run.log.form import event_line, read_line
from tests.run.kept_runs import chained_anew, kept_run, lines_of, parsed


def newer_run() -> Path:
    """A run whose first line says that it is of the next form."""
    path = kept_run()
    header, *rest = parsed(path)
    return chained_anew(path, [{**header, "format": STORED_FORM + 1}, *rest])


def newer_run_of_other_lines() -> Path:
    """A run of the next form, whose digests are made otherwise and whose lines have other keys."""
    path = newer_run()
    path.write_bytes(path.read_bytes().replace(b'"digest":"', b'"sum":"5'))
    return path


def older_run() -> Path:
    """A run whose first line says that it is of the form before this one."""
    path = kept_run()
    header, *rest = parsed(path)
    return chained_anew(path, [{**header, "format": STORED_FORM - 1}, *rest])


def run_in_a_database() -> Path:
    """A run of the form before the logs: a file of SQLite, left by a program that was killed."""
    path = kept_run()
    path.unlink()
    with sqlite3.connect(path) as db:
        db.execute("PRAGMA user_version=5")
        db.execute("CREATE TABLE event (id, run, device, seq, utc, kind, body, prev_hash)")
    db.close()
    path.with_name(f"{path.name}-wal").write_bytes(b"answers that only that version can read")
    return path


def run_with_a_film() -> Path:
    """A run with an event of a kind that this version does not know, in the middle of its chain."""
    path = kept_run()
    lines = parsed(path)
    lines[4]["events"][0] = ["9f" * 16, "film added", {"at": "how-wide", "digest": "9f" * 32}]
    return chained_anew(path, lines)


def run_of_another_graph() -> Path:
    """A run whose compiled procedure has another form."""
    path = kept_run()
    header, first, *_ = lines_of(path)
    line = read_line(first[:-1])
    line.events[0][2]["graph"]["format"] = STORED_FORM + 1
    path.write_bytes(header + event_line(line)[0])
    return path


OTHERS: dict[str, Callable[[], Path]] = {
    "made by a newer version": newer_run,
    f"form {STORED_FORM + 1}": newer_run_of_other_lines,
    f"made by an older version of Hingeside (form {STORED_FORM - 1}": older_run,
    "made by an older version of Hingeside (it is a database": run_in_a_database,
    "its event 4, “film added”, is of a kind that this one does not know": run_with_a_film,
    f"its procedure has form {STORED_FORM + 1}": run_of_another_graph,
}
"""Each kind of run, by what is said of it."""


def folder_of(path: Path) -> dict[str, bytes]:
    """Every file beside a run, and the run itself: name and content."""
    return {one.name: one.read_bytes() for one in path.parent.iterdir()}
