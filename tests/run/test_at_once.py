"""Many at once: every run that begins has a file of its own, and only one of those who go on with a run writes it."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier
from typing import TypeVar

from guide.run.journal import Locked
from guide.run.run_list import list_runs
from guide.run.session import Session
from guide.run.store import open_run, read_run
from tests.run.kept_runs import kept_run, kept_session, path_of

T = TypeVar("T")


def at_once(count: int, does: Callable[[], T]) -> list[T]:
    """What so many get who all begin at the same moment."""
    ready = Barrier(count)

    def one(_: int) -> T:
        ready.wait()
        return does()

    with ThreadPoolExecutor(count) as hands:
        return list(hands.map(one, range(count)))


def test_twenty_runs_begun_at_once_are_twenty_files() -> None:
    sessions = at_once(20, kept_session)
    assert len({path_of(session) for session in sessions}) == 20
    for session in sessions:
        session.close()
    assert [run.problem for run in list_runs()] == [""] * 20
    assert len({run.run for run in list_runs()}) == 20


def test_of_ten_who_go_on_with_one_run_a_single_one_has_it() -> None:
    path = kept_run()
    before = len(read_run(path)[1])

    def go_on() -> Session | None:
        try:
            return open_run(path)
        except Locked:
            return None

    (one,) = [session for session in at_once(10, go_on) if session is not None]
    one.close()
    events = read_run(path)[1]
    assert [event.kind for event in events[before:]] == ["resumed"]


def test_clocks_set_back_and_forward_change_no_order() -> None:
    session = kept_session()
    for year in ("1969", "2038", "2001"):
        session.clock = lambda year=year: f"{year}-01-19T03:14:08.000Z"  # type: ignore[misc]
        session.send(("noted", {"at": "hold-timber", "text": f"The clock says {year}."}))
    session.close()
    state, _ = read_run(path_of(session))
    assert [utc[:4] for utc, _, _ in state.notes] == ["1969", "2038", "2001"]
    again = open_run(path_of(session))
    assert again.told == ""
    again.close()
