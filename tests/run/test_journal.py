"""The journal: what was acknowledged is there, and what was changed is found."""

import random
import sqlite3
from pathlib import Path

import pytest

from guide.run.journal import Damaged, JournalError, read_events
from guide.run.state import State, label
from guide.run.store import list_runs, open_run, read_run, recover, runs_folder
from tests.run.kept_runs import kept_run, kept_session, path_of, tamper
from tests.run.small_procedures import give

COLUMNS = {
    "id": "'0'",
    "run": "'0'",
    "device": "'0'",
    "utc": "'2001-01-01T00:00:00.000Z'",
    "kind": "'noted'",
    "body": "replace(body, '36 in', '35 in') || ' '",
    "prev_hash": "'0'",
}


ADDED = (
    "INSERT INTO event SELECT id || 'x', run, device, 100, utc, kind, body, prev_hash "
    "FROM event WHERE seq = 3"
)


def test_what_was_sent_is_there_when_the_run_is_opened_again() -> None:
    session = kept_session()
    before = session.state
    session.close()
    again = open_run(path_of(session))
    assert again.state.answers == before.answers
    assert label(again.state.graph, again.state.at) == "hold-timber"
    assert again.journal.events()[-1].kind == "resumed"


@pytest.mark.parametrize("column", COLUMNS)
@pytest.mark.parametrize("seq", [1, 2, 5, 8])
def test_a_changed_column_is_found_and_what_was_before_it_is_sound(column: str, seq: int) -> None:
    path = kept_run()
    tamper(path, f"UPDATE event SET {column} = {COLUMNS[column]} WHERE seq = {seq}")
    with pytest.raises(Damaged, match=r"changed or damaged after its event \d") as found:
        read_events(path)
    assert len(found.value.good) in (seq - 1, seq)


@pytest.mark.parametrize(
    "statements",
    [
        ["DELETE FROM event WHERE seq = 4"],
        ["DELETE FROM event WHERE seq = 4", "UPDATE event SET seq = seq - 1 WHERE seq > 4"],
        [
            "UPDATE event SET seq = 99 WHERE seq = 3",
            "UPDATE event SET seq = 3 WHERE seq = 4",
            "UPDATE event SET seq = 4 WHERE seq = 99",
        ],
        [ADDED],
        ["UPDATE event SET body = '[]' WHERE seq = 3"],
        ["UPDATE event SET body = x'ff' WHERE seq = 3"],
        ["UPDATE event SET body = CAST(x'22ff22' AS TEXT) WHERE seq = 3"],
        [f"UPDATE event SET body = '{'[' * 100_000}' WHERE seq = 3"],
    ],
    ids=["deleted", "deleted-and-closed-up", "swapped", "added", "list", "blob", "not-utf8", "deep"],
)  # fmt: skip
def test_rows_put_out_of_order_are_found(statements: list[str]) -> None:
    path = kept_run()
    tamper(path, *statements)
    with pytest.raises(Damaged) as found:
        read_events(path)
    assert len(found.value.good) >= 2


def test_any_changed_byte_of_the_file_is_found_or_changes_nothing() -> None:
    """Bytes that SQLite leaves unused hold nothing of the run; every other one is in the chain."""
    path = kept_run()
    written, whole = read_events(path), path.read_bytes()
    pick = random.Random(40_926)
    found = 0
    for _ in range(250):
        place = pick.randrange(len(whole))
        changed = bytearray(whole)
        changed[place] ^= 1 << pick.randrange(8)
        path.write_bytes(changed)
        try:
            events = read_events(path)
        except JournalError:
            found += 1
        else:
            # The last event has none after it to vouch for it; its digest stands on the record.
            assert events[:-1] == written[:-1]
    assert found > 50, "about half of a young file is unused"


def test_a_file_cut_short_gives_back_what_is_left_of_it() -> None:
    path = kept_run()
    session = open_run(path)
    for number in range(200):
        session.send(("noted", {"at": "hold-timber", "text": f"Hinge screw {number} tightened."}))
    session.close()
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) - 3 * 4096])
    with pytest.raises(Damaged) as found:
        read_events(path)
    assert 9 < len(found.value.good) < 209
    sentence = recover(path, found.value)
    assert f"the {len(found.value.good)} events before the damage are saved" in sentence
    again = open_run(path)
    assert again.state.answers
    assert len(list(runs_folder().glob("*.damaged-*"))) == 1


@pytest.mark.parametrize("content", [b"", b"This is a shopping list: screws, wedges.\n" * 200])
def test_a_file_that_is_no_run_is_set_aside_whole(content: bytes) -> None:
    path = kept_run()
    path.write_bytes(content)
    with pytest.raises(Damaged) as found:
        open_run(path)
    assert "nothing of it could be read" in recover(path, found.value)
    (aside,) = runs_folder().glob("*.damaged-*")
    assert aside.read_bytes() == content
    assert not path.exists()


def test_events_that_are_chained_but_make_no_run_keep_their_sound_part() -> None:
    path = kept_run()
    session = open_run(path)
    session.journal.append([session._event(session.state, "hold passed", {"at": "pilot"})])
    session.close()
    with pytest.raises(Damaged, match="does not hold a whole run") as found:
        open_run(path)
    assert len(found.value.good) == 10
    recover(path, found.value)
    assert label((again := open_run(path)).state.graph, again.state.at) == "hold-timber"


def test_one_damaged_run_leaves_the_others_on_the_list() -> None:
    broken, sound = kept_run("Boiler room"), kept_run("Library stacks")
    tamper(broken, "DELETE FROM event WHERE seq = 3")
    listed = {run.path: run for run in list_runs()}
    assert listed[sound].door == "Library stacks"
    assert listed[sound].at == "hold-timber"
    assert "changed or damaged after its event 2" in listed[broken].problem


def test_a_run_open_elsewhere_is_listed_as_such() -> None:
    session = kept_session()
    (only,) = list_runs()
    assert only.problem == "open in another window"
    session.close()
    assert list_runs()[0].problem == ""


def test_a_full_disk_loses_nothing_and_the_run_stands_where_it_stood() -> None:
    session = kept_session()
    db: sqlite3.Connection = session.journal._db  # type: ignore[attr-defined]
    pages = db.execute("PRAGMA page_count").fetchone()[0]
    db.execute(f"PRAGMA max_page_count = {pages}")
    waxed = ("noted", {"at": "hold-timber", "text": "Screws waxed. " * 20})
    kept: list[State] = []
    with pytest.raises(JournalError, match="disk is full"):
        kept.extend(session.send(waxed) for _ in range(200))
    assert len(session.state.notes) == len(kept) > 0
    assert session.state is kept[-1]
    db.execute("PRAGMA max_page_count = 100000")
    give(session, "hold")
    session.close()
    state, _ = read_run(path_of(session))
    assert len(state.notes) == len(kept)
    assert label(state.graph, state.at) == "pilot"


def test_no_journal_beside_the_run_no_answer_taken() -> None:
    """A folder where SQLite wants its own file stands for a folder that takes no new files."""
    path = kept_run()
    in_the_way = Path(f"{path}-journal")
    in_the_way.mkdir()
    with pytest.raises(JournalError, match=r"cannot be opened|cannot be written|does not answer"):
        open_run(path)
    in_the_way.rmdir()
    assert label((again := open_run(path)).state.graph, again.state.at) == "hold-timber"


def test_a_run_on_a_disk_that_cannot_be_written_can_be_read_but_not_gone_on_with(
    nobody: Path,
) -> None:
    (path,) = nobody.glob("runs/*.run")
    state, events = read_run(path)
    assert (len(events), label(state.graph, state.at)) == (9, "hold-timber")
    with pytest.raises(JournalError, match="cannot be written; make its folder writable"):
        open_run(path)
    with pytest.raises(JournalError, match=r"cannot be written|cannot be opened"):
        kept_session()
