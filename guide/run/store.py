"""The runs of this device: one file each in the person's folder; begun, gone on with, read and found.

A file whose end does not count is repaired before it is gone on with; what is removed is kept beside it, and the run
itself says so.
"""

import secrets
import uuid
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, TypeVar

from guide.errors import UNKNOWN
from guide.files.library import runs_folder
from guide.files.stored_form import VERSION
from guide.files.writing import why_not
from guide.procedure.facts import Value
from guide.procedure.graph import Graph
from guide.run.device import device_id
from guide.run.events import Event
from guide.run.journal import Cause, Damaged, JournalError, Locked, Misfit, NotARun
from guide.run.log.leftovers import remove_leftovers
from guide.run.log.reading import ENDING, Reading, read_log
from guide.run.log.writing import Log
from guide.run.prompt import prompt
from guide.run.session import Session, utc_now, utc_offset
from guide.run.state import State, label
from guide.run.step import MISFITS, fold, start, step
from guide.text import printable

T = TypeVar("T")
_NAMES_TRIED = 20


class UnknownRun(JournalError):
    """No run, or more than one, is meant by a name."""

    status = UNKNOWN


def begin_run(
    graph: Graph,
    *,
    units: str,
    sheet: dict[str, Any] | None = None,
    supplied: Mapping[str, Value] | None = None,
    about: Mapping[str, Any] | None = None,
    carried: Sequence[str] = (),
) -> Session:
    """Start a run in a file of its own. Raises JournalError where it cannot be kept."""
    folder = runs_folder()
    device = device_id()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise JournalError(f"{why_not(error, folder)}; jobs need a place to be kept.") from error
    remove_leftovers(folder)
    log = _new_log(folder, graph.name)
    log.when_closed = _note
    try:
        return Session.begin(
            log,
            graph,
            device=device,
            units=units,
            sheet=sheet,
            supplied=supplied,
            about=about,
            carried=carried,
        )
    except BaseException:
        log.close()
        raise


def _new_log(folder: Path, procedure: str) -> Log:
    """A log under a name that no other run has."""
    stamp = datetime.now(UTC).strftime("%Y-%m-%d-%H%M%S")
    tries = [secrets.token_hex(2) for _ in range(_NAMES_TRIED)]
    for token in tries[1:]:
        try:
            return Log.new(folder / f"{procedure}-{stamp}-{token}{ENDING}", VERSION)
        except Locked:
            continue
    return Log.new(folder / f"{procedure}-{stamp}-{tries[0]}{ENDING}", VERSION)


def open_run(path: Path, by: str = "") -> Session:
    """Go on with a run; `by` is who does. A last line that was never finished is removed, and `told` says so.

    Raises NotARun for a file outside the folder of the runs, Locked, Damaged (see `recover`), OtherVersion or
    JournalError.
    """
    from guide.run.catalogue import missing_lines  # with its database: a run that begins needs none

    need_among_runs(path)
    remove_leftovers(path.parent)
    told = ""
    try:
        log, found, state = _opened(path)
    except Damaged as fault:
        if fault.cause != Cause.TORN:
            raise
        told = recover(path, fault, by)
        log, found, state = _opened(path)
    missing = missing_lines(found)
    log.when_closed = _note
    try:
        session = Session.reopen(log, state, device=device_id(), by=by)
    except BaseException:
        log.close()
        raise
    session.told = told or _odd(path, missing)
    return session


def _note(path: Path) -> None:
    """Keep in the catalogue what a run that was let go of has come to."""
    from guide.run.catalogue import note  # as above

    note(path)


def _odd(path: Path, missing: str) -> str:
    """What a person should know of a run before going on with it; empty if there is nothing."""
    if missing:
        return f"{missing[0].upper()}{missing[1:]}; ask who had it."
    from guide.run.run_list import other_way  # it reads the catalogue

    other = other_way(path)
    return (
        f"This job was continued in another way too, in {other}; compare the two before you go on."
        if other
        else ""
    )


def _opened(path: Path) -> tuple[Log, Reading, State]:
    log, found = Log.open(path)
    try:
        state = _folded(found)
        fitting(found.path, lambda: _looked_at(state), found)
    except BaseException:
        log.close()
        raise
    return log, found, state


def _looked_at(state: State) -> None:
    """What a run in hand needs of its start, asked before it is gone on with."""
    prompt(state)
    if state.sheet is not None:
        from guide.trade.sheet.sheet import Sheet  # only a run with a sheet pays for it

        Sheet.from_json(state.sheet)


def read_run(path: Path) -> tuple[State, list[Event]]:
    """A run's state and events, without a lock and without going on with it. A line that is being written is left out.

    Raises NotARun, Damaged, OtherVersion or JournalError.
    """
    found = read_log(path)
    return state_of(found), found.events


def state_of(found: Reading, graphs: Callable[[Any], Graph] | None = None) -> State:
    """What the sound lines of a log add up to; a line that is being written is left out. Raises Damaged.

    `graphs` gives the graph that a start holds, for those who read many runs of one procedure.
    """
    fault = found.fault()
    if fault is not None and fault.cause != Cause.TORN:
        raise fault
    return _folded(found, graphs)


def _folded(found: Reading, graphs: Callable[[Any], Graph] | None = None) -> State:
    def folded() -> State:
        first = found.events[0]
        graph = None if graphs is None else graphs(first.body["graph"])
        return fold(found.events, graph=graph)

    return fitting(found.path, folded, found)


def fitting(path: Path, read: Callable[[], T], found: Reading | None = None) -> T:
    """What is read of a run's events. Raises Misfit where they do not make a run: their writer was not this program."""
    try:
        return read()
    except JournalError:
        raise
    except MISFITS as error:
        good = _foldable(found.events) if found is not None else []
        lines = sum(count <= len(good) for count in found.counts) if found is not None else 0
        told = f"The run file {printable(path.name)} does not hold a whole run."
        raise Misfit(told, good, lines, Cause.MISFIT) from error


def _foldable(events: list[Event]) -> list[Event]:
    """The longest part from the start that makes a run."""
    good: list[Event] = []
    try:
        state = start(events[0])
        prompt(state)
        good.append(events[0])
        for event in events[1:]:
            state = step(state, event)
            good.append(event)
    except MISFITS:
        return good
    return good


def recover(path: Path, fault: Damaged, by: str = "") -> str:
    """Repair a run, and say in one sentence what was done. The run then holds that sentence's facts itself.

    Raises NotARun for a file outside the folder of the runs, Locked, and JournalError where it cannot be written.
    """
    from guide.run.catalogue import repaired
    from guide.run.log.repairing import repair

    need_among_runs(path)
    at, run = "", ""
    if fault.good:
        state = fold(fault.good)
        at, run = label(state.graph, state.at), state.run
    said = Event(
        *(uuid.uuid4().hex, run, device_id(), len(fault.good) + 1, utc_now(), "repaired", {}),
        by=by,
        offset=utc_offset(),
    )
    done = repair(path, fault, said, at)
    if done.events:
        repaired(read_log(path))
    else:
        return f"{fault} It is kept aside as {done.aside.name}; nothing of it could be read."
    if fault.cause == Cause.TORN:
        return f"{fault} It was not acknowledged; it is kept aside as {done.aside.name}, and the run goes on."
    return (
        f"{fault} What follows is kept aside as {done.aside.name} and does not count; the {done.events} events "
        "before the damage are saved, and the run goes on from there."
    )


def need_among_runs(path: Path) -> None:
    """Raises NotARun for a file that no run of this device is in: it can be read, never written."""
    if path.is_symlink() or path.suffix != ENDING or not path.is_file():
        raise NotARun(f"{printable(path.name)} is not a run; nothing was changed.")
    if path.resolve().parent != runs_folder().resolve():
        read_log(path)  # says what it is, if it is not a run
        raise NotARun(
            f"{printable(path.name)} is not in the folder of your jobs ({runs_folder()}), so it can only be read: "
            "by record, template and record --verify."
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
    said = printable(name[:80])
    if len(near) == 1:
        return near[0]
    if not near:
        raise UnknownRun(f"There is no run “{said}”; hingeside shows them on its first screen.")
    raise UnknownRun(f"“{said}” begins the names of {len(near)} runs; write more of it.")
