"""The runs of this device: one file each in the person's folder; begun, listed, gone on with.

A file that is damaged is set aside under another name, with what could be read of it saved as a run
of its own, and the rest goes on.
"""

import re
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from guide.errors import UNKNOWN
from guide.files.library import user_folder
from guide.procedure.facts import Value
from guide.procedure.graph import Graph
from guide.run.events import Event
from guide.run.journal import Damaged, Journal, JournalError, Locked, read_events
from guide.run.session import Session
from guide.run.state import STOPPED, State, block_words, label
from guide.run.step import Refused, fold, start, step

ENDING = ".run"
_MISFIT = (Refused, KeyError, ValueError, StopIteration, TypeError, IndexError, AttributeError)
"""What folding raises for events that are chained but do not make a run."""


class UnknownRun(JournalError):
    """No run, or more than one, is meant by a name."""

    status = UNKNOWN


@dataclass(frozen=True, slots=True)
class RunSummary:
    """One line of the list of runs."""

    name: str
    """The file's name without its ending; what `hingeside record` takes."""
    path: Path
    title: str
    door: str
    """What the person called the door; may be empty."""
    started: str
    updated: str
    """UTC of the first and the last event."""
    outcome: str
    """`finished`, `refused`, `made-safe`; empty while the run can go on."""
    at: str
    """The block it stands at."""
    step: str = ""
    """That block in its short words."""
    stopped: bool = False
    problem: str = ""
    """Why the run cannot be read; the other fields are then empty."""


def runs_folder() -> Path:
    """Where runs are kept."""
    return user_folder() / "runs"


def device_id() -> str:
    """This device's own short name in journals: made once, kept beside the runs."""
    path = user_folder() / "device"
    try:
        text = path.read_text("utf-8").strip()
        if re.fullmatch(r"[0-9a-f]{12}", text):
            return text
    except (OSError, UnicodeDecodeError):
        text = ""  # none yet, or unreadable: a new one is made
    text = secrets.token_hex(6)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text + "\n", "utf-8")
    except OSError as error:
        raise JournalError(f"{path.parent} cannot be written; make it writable.") from error
    return text


def begin_run(
    graph: Graph,
    *,
    units: str,
    sheet: dict[str, Any] | None = None,
    supplied: Mapping[str, Value] | None = None,
    about: Mapping[str, Any] | None = None,
    folder: Path | None = None,
) -> Session:
    """Start a run in a file of its own. Raises JournalError where it cannot be kept."""
    folder = folder or runs_folder()
    device = device_id()
    stamp = datetime.now(UTC).strftime("%Y-%m-%d-%H%M%S")
    path = folder / f"{graph.name}-{stamp}-{secrets.token_hex(2)}{ENDING}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise JournalError(f"{folder} cannot be made; runs need a place to be kept.") from error
    journal: Journal | None = None
    try:
        journal = Journal(path, create=True)
        return Session.begin(
            journal, graph, device=device, units=units, sheet=sheet, supplied=supplied, about=about
        )
    except BaseException:
        if journal is not None:
            journal.close()
        path.unlink(missing_ok=True)
        raise


def open_run(path: Path) -> Session:
    """Go on with a run. Raises Locked, Damaged (see `set_aside`), OtherVersion or JournalError."""
    journal = Journal(path)
    try:
        state = _folded(path, journal.events())
        return Session.reopen(journal, state, device=device_id())
    except BaseException:
        journal.close()
        raise


def read_run(path: Path) -> tuple[State, list[Event]]:
    """A run's state and events, without going on with it."""
    events = read_events(path)
    return _folded(path, events), events


def _folded(path: Path, events: list[Event]) -> State:
    """The state that events add up to. Raises Damaged with those before the first that does not fit."""
    try:
        return fold(events)
    except _MISFIT as error:
        raise Damaged(
            f"The run file {path.name} does not hold a whole run.", _foldable(events)
        ) from error


def _foldable(events: list[Event]) -> list[Event]:
    """The longest part from the start that makes a run."""
    good: list[Event] = []
    try:
        state = start(events[0])
        good.append(events[0])
        for event in events[1:]:
            state = step(state, event)
            good.append(event)
    except _MISFIT:
        return good
    return good


def set_aside(path: Path, good: list[Event]) -> tuple[Path, Path | None]:
    """Keep a damaged file under another name; save what could be read of it as a run of its own.

    Returns the new name of the damaged file, and the saved run where there is one.
    """
    aside = path.with_name(f"{path.stem}.damaged-{secrets.token_hex(2)}")
    sound = _foldable(good) if good else []
    saved = path.with_name(f"{path.stem}.saving-{secrets.token_hex(2)}")
    if sound:
        _save(saved, sound)
    try:
        for left in (path, path.with_name(path.name + "-journal")):
            if left.exists():
                left.rename(aside.with_name(aside.name + left.name.removeprefix(path.name)))
        if sound:
            saved.rename(path)
    except OSError as error:
        raise JournalError(f"{path.parent} cannot be written; make it writable.") from error
    return aside, path if sound else None


def _save(path: Path, events: list[Event]) -> None:
    """Write events to a new file, or leave none."""
    try:
        journal = Journal(path, create=True)
        try:
            journal.append(events)
        finally:
            journal.close()
    except BaseException:
        path.unlink(missing_ok=True)
        raise


def recover(path: Path, error: Damaged) -> str:
    """Set a damaged run aside and say in one sentence what was done."""
    aside, saved = set_aside(path, error.good)
    if saved is None:
        return f"{error} It is kept aside as {aside.name}; nothing of it could be read."
    return (
        f"{error} It is kept aside as {aside.name}; the {len(read_events(saved))} events before the "
        "damage are saved, and the run goes on from there."
    )


def list_runs(folder: Path | None = None) -> list[RunSummary]:
    """Every run, the latest first; one that cannot be read is listed with its problem."""
    folder = folder or runs_folder()
    if not folder.is_dir():
        return []
    found = [summary_of(path) for path in folder.glob(f"*{ENDING}")]
    return sorted(found, key=lambda run: (run.updated or "9", run.name), reverse=True)


def summary_of(path: Path) -> RunSummary:
    """One line for a run file, whatever state it is in."""
    try:
        state, _ = read_run(path)
    except Locked:
        return RunSummary(path.stem, path, "", "", "", "", "", "", problem="open in another window")
    except JournalError as error:
        return RunSummary(path.stem, path, "", "", "", "", "", "", problem=str(error))
    return RunSummary(
        path.stem,
        path,
        state.graph.title,
        str(state.about.get("door", "")),
        state.started,
        state.last_utc,
        state.ended,
        label(state.graph, state.at),
        step=block_words(state, state.at),
        stopped=state.status == STOPPED,
    )


def find_run(name: str) -> Path:
    """A run by path, by name, or by the beginning of a name that only one run has."""
    as_path = Path(name)
    if "\x00" not in name and len(name) < 1000 and as_path.is_file():
        return as_path
    folder = runs_folder()
    matches = sorted(folder.glob(f"*{ENDING}")) if folder.is_dir() else []
    exact = [path for path in matches if path.stem == name]
    near = exact or [path for path in matches if path.stem.startswith(name)]
    if len(near) == 1:
        return near[0]
    if not near:
        raise UnknownRun(
            f"There is no run “{name[:80]}”; hingeside shows them on its first screen."
        )
    raise UnknownRun(f"“{name[:80]}” begins the names of {len(near)} runs; write more of it.")
