"""The log of a run: what was acknowledged is there, what was changed is found, and what was removed is said."""

import base64
import contextlib
import json
import os
import zlib
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from guide.files import writing
from guide.files.library import runs_folder
from guide.run.journal import Cause, Damaged, JournalError, Misfit, NotARun
from guide.run.log.reading import read_log
from guide.run.run_list import list_runs
from guide.run.session import Session
from guide.run.state import State, label
from guide.run.store import begin_run, open_run, read_run, recover
from tests.run.kept_runs import (
    chained_anew,
    kept_run,
    kept_session,
    lines_of,
    parsed,
    path_of,
    tamper,
)
from tests.run.small_procedures import give, small


def test_what_was_sent_is_there_when_the_run_is_opened_again() -> None:
    session = kept_session()
    before = session.state
    session.close()
    again = open_run(path_of(session))
    assert again.state.answers == before.answers
    assert label(again.state.graph, again.state.at) == "hold-timber"
    assert again.journal.events()[-1].kind == "resumed"


def test_a_line_is_what_was_sent_with_what_was_computed_from_it() -> None:
    lines = parsed(kept_run())
    assert [line["n"] for line in lines] == list(range(len(lines)))
    assert lines[0]["hingeside"] == "run"
    kinds = [[kind for _, kind, _ in line["events"]] for line in lines[1:]]
    assert kinds[0] == ["started"]
    assert ["answered", "worked"] in kinds, "the size is computed from the width"
    assert kinds[-1] == ["paused"]
    assert lines[-1]["at"] == "hold-timber"


def test_the_start_says_where_the_door_is_and_each_line_who_did_what() -> None:
    about = {"site": "Clinic", "door": "2.14", "place": "second floor", "name": "A. Fitter"}
    session = begin_run(small("gym-store"), units="inch", about=about)
    give(session, "wood")
    session.close()
    open_run(path_of(session), "B. Mate").close()
    first, *rest = parsed(path_of(session))[1:]
    body = first["events"][0][2]
    assert {name: body["about"][name] for name in about} == about
    assert (body["title"], body["offset"]) == (session.state.graph.title, first["offset"])
    assert [first["by"], *(line["by"] for line in rest)] == ["A. Fitter", "A. Fitter", "B. Mate"]


@pytest.mark.parametrize("number", [1, 2, 5, 8])
def test_a_changed_line_is_found_and_nothing_from_there_on_counts(number: int) -> None:
    path = kept_run()
    tamper(path, number, b'"at":"', b'"at":"x')
    found = read_log(path)
    assert found.damaged
    assert len(found.digests) == number
    with pytest.raises(Damaged, match=f"changed or damaged after its event {len(found.events)}"):
        read_run(path)


Lines = list[bytes]
ORDERS: dict[str, Callable[[Lines], Lines]] = {
    "deleted": lambda lines: lines[:4] + lines[5:],
    "swapped": lambda lines: [*lines[:3], lines[4], lines[3], *lines[5:]],
    "twice": lambda lines: [*lines[:4], lines[3], *lines[4:]],
    "another header": lambda lines: [*lines, lines[0]],
    "not ASCII": lambda lines: [*lines[:4], b"\xff\n", *lines[4:]],
    "an empty line": lambda lines: [*lines[:4], b"\n", *lines[4:]],
}


@pytest.mark.parametrize("order", ORDERS)
def test_lines_put_out_of_order_are_found(order: str) -> None:
    path = kept_run()
    path.write_bytes(b"".join(ORDERS[order](lines_of(path))))
    with pytest.raises(Damaged) as found:
        read_run(path)
    assert len(found.value.good) >= 2


def with_event(path: Path, body: str) -> Path:
    """The file with one more line, its digest right, whose only event has this body."""
    lines = parsed(path)
    last = {**lines[-1], "events": [["0" * 32, "noted", json.loads('{"text": 1}')]]}
    made = chained_anew(path, [*lines, last])
    raw = lines_of(made)
    raw[-1] = raw[-1].replace(b'{"text":1}', body.encode())
    return rechained_last(made, raw)


def rechained_last(path: Path, raw: Lines) -> Path:
    """The lines written with the last one's digest made right again."""
    import hashlib

    before = raw[-1][:-78]
    raw[-1] = before + b',"digest":"%b"}\n' % hashlib.sha256(before).hexdigest().encode()
    path.write_bytes(b"".join(raw))
    return path


@pytest.mark.parametrize(
    "body",
    [
        '{"text":NaN}',
        '{"text":1e999}',
        '{"text": 1}',
        '{"text":1,"text":2}',
        f'{{"text":{"[" * 500}1{"]" * 500}}}',
        f'{{"text":{"[" * 100_000}1{"]" * 100_000}}}',
        f'{{"text":{"9" * 5000}}}',
        "[]",
        '"noted"',
    ],
    ids=["nan", "infinite", "blank", "twice", "deep", "too-deep", "huge", "list", "text"],
)
def test_only_the_one_writing_of_a_line_is_read_whatever_its_digest(body: str) -> None:
    path = with_event(kept_run(), body)
    found = read_log(path)
    assert found.damaged
    assert len(found.digests) == len(lines_of(path)) - 1


def test_a_graph_that_swells_is_not_let_in() -> None:
    path = kept_run()
    lines = parsed(path)
    swollen = base64.b64encode(zlib.compress(b" " * (64 << 20))).decode()
    lines[1]["events"][0][2]["graph"] = {"sha256": "0" * 64, "zlib": swollen}
    with pytest.raises(Damaged):
        read_run(chained_anew(path, lines))


def test_a_line_that_was_never_finished_is_left_out_and_then_removed_and_said() -> None:
    path = kept_run()
    whole = path.read_bytes()
    path.write_bytes(whole[:-20])
    state, events = read_run(path)
    assert (len(events), state.paused) == (8, False)
    again = open_run(path, "A. Fitter")
    assert "was never finished. It was not acknowledged; it is kept aside as" in again.told
    again.close()
    repaired = next(event for event in read_run(path)[1] if event.kind == "repaired")
    aside = path.with_name(str(repaired.body["aside"]))
    assert whole[:-20].endswith(aside.read_bytes())
    assert (repaired.body["cause"], repaired.body["lines"], repaired.by) == ("torn", 1, "A. Fitter")


def test_a_tail_of_nothing_but_zeros_is_torn_too() -> None:
    path = kept_run()
    path.write_bytes(path.read_bytes() + bytes(4096))
    found = read_log(path)
    assert (found.torn, len(found.events)) == (True, 9)
    assert open_run(path).told


def test_a_damaged_run_is_gone_on_with_from_its_sound_lines_and_says_so_ever_after() -> None:
    path = kept_run()
    tamper(path, 5, b"36 in", b"46 in")
    damaged = lines_of(path)
    with pytest.raises(Damaged) as found:
        open_run(path)
    assert lines_of(path) == damaged, "nothing is touched before the person is told"
    sentence = recover(path, found.value, "A. Fitter")
    assert "the 4 events before the damage are saved" in sentence
    state, events = read_run(path)
    body = events[-1].body
    assert (events[-1].kind, body["cause"], body["lines"]) == ("repaired", "damaged", 4)
    assert path.with_name(str(body["aside"])).read_bytes() == b"".join(damaged[5:])
    assert state.known("width") is None
    assert label(state.graph, state.at) == "how-wide"
    assert open_run(path).told == ""


@pytest.mark.parametrize("line", [0, 1])
def test_a_run_without_a_sound_start_is_set_aside_whole(line: int) -> None:
    path = kept_run()
    tamper(path, line, b'"device":"', b'"device":"0')
    content = path.read_bytes()
    with pytest.raises(Damaged) as found:
        open_run(path)
    assert "nothing of it could be read" in recover(path, found.value)
    (aside,) = runs_folder().glob("*.damaged-*")
    assert aside.read_bytes() == content
    assert not path.exists()


def killed(*_: object) -> None:
    raise KeyboardInterrupt


@pytest.mark.parametrize("call", ["write_new", "write_in_place", "sync_folder"])
def test_a_repair_that_is_killed_half_way_can_be_made_again(
    monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    path = kept_run()
    tamper(path, 5, b"36 in", b"46 in")
    with pytest.raises(Damaged) as found:
        open_run(path)
    with monkeypatch.context() as patched:
        patched.setattr(writing, call, killed)
        with pytest.raises(KeyboardInterrupt):
            recover(path, found.value)
    with contextlib.suppress(Damaged):
        read_run(path)
        return  # it came as far as the new file, which says so itself
    recover(path, found.value)
    assert read_run(path)[1][-1].kind == "repaired"


def a_link(path: Path) -> None:
    path.rename(path.with_name("elsewhere"))
    path.symlink_to(path.with_name("elsewhere"))


def a_pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


def a_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


NOT_RUNS: dict[str, Callable[[Path], object]] = {
    "empty": lambda path: path.write_bytes(b""),
    "a list": lambda path: path.write_bytes(b"Shopping: screws, wedges.\n" * 200),
    "zeros": lambda path: path.write_bytes(bytes(5000)),
    "a link": a_link,
    "a pipe": a_pipe,
    "a folder": a_folder,
}


@pytest.mark.parametrize("what", NOT_RUNS)
def test_what_is_not_a_run_is_left_as_it_is_even_among_the_runs(what: str) -> None:
    path = kept_run()
    NOT_RUNS[what](path)
    before = sorted((one.name, one.lstat()) for one in path.parent.iterdir())
    for use in (open_run, read_run):
        with pytest.raises(NotARun):
            use(path)
    assert sorted((one.name, one.lstat()) for one in path.parent.iterdir()) == before


def test_a_run_elsewhere_can_be_read_and_not_gone_on_with(tmp_path: Path) -> None:
    path = kept_run()
    copy = tmp_path / path.name
    copy.write_bytes(path.read_bytes())
    assert len(read_run(copy)[1]) == 9
    with pytest.raises(NotARun, match="is not in the folder of your jobs"):
        open_run(copy)
    tamper(copy, 3, b'"at":"', b'"at":"x')
    with pytest.raises(NotARun):
        open_run(copy)
    assert list(tmp_path.iterdir()) == [copy]


def test_events_that_are_chained_but_make_no_run_keep_their_sound_part() -> None:
    path = kept_run()
    lines = parsed(path)
    passed = {**lines[-1], "events": [["0" * 32, "hold passed", {"at": "pilot"}]]}
    chained_anew(path, [*lines, passed])
    with pytest.raises(Misfit, match="does not hold a whole run") as found:
        open_run(path)
    assert len(found.value.good) == 9
    recover(path, found.value)
    state, events = read_run(path)
    assert events[-1].body["cause"] == Cause.MISFIT
    assert label(state.graph, state.at) == "hold-timber"


START: dict[str, object] = {
    "units": "parsec",
    "sheet": "hello",
    "about": ["Gym store"],
    "supplied": 7,
    "graph": {"format": 7},
}


@pytest.mark.parametrize("key", START)
def test_a_start_of_wrong_types_is_told_in_a_sentence(key: str) -> None:
    from guide.run.log.form import event_line, read_line

    path = kept_run()
    raw = lines_of(path)
    line = read_line(raw[1][:-1])
    line.events[0][2][key] = START[key]
    text, _ = event_line(line)
    path.write_bytes(raw[0] + text)
    with pytest.raises(JournalError, match=r"does not hold a whole run|was made by"):
        read_run(path)
    assert list_runs()[0].problem or list_runs()[0].title


def test_one_damaged_run_leaves_the_others_on_the_list() -> None:
    broken, sound = kept_run("Boiler room"), kept_run("Library stacks")
    tamper(broken, 3, b'"at":"', b'"at":"x')
    listed = {run.path: run for run in list_runs()}
    assert listed[sound].door == "Library stacks"
    assert listed[sound].at == "hold-timber"
    assert "changed or damaged after its event 2" in listed[broken].problem


def earlier_states(session: Session, lines: Sequence[str]) -> list[State]:
    return [session.state, *(give(session, line) for line in lines)]


def test_any_prefix_of_a_log_is_an_earlier_state_or_says_that_it_is_torn() -> None:
    """Each length near the end of a line, and within a line every 97th."""
    session = begin_run(small("gym-store"), units="inch")
    states = earlier_states(session, ("wood", "no", "done", "36 in", "done", "0"))
    session.close()
    path = path_of(session)
    whole, ends = path.read_bytes(), read_log(path).ends
    near = {end + by for end in ends for by in range(-30, 31)}
    for length in sorted({*range(1, len(whole), 97), *(near & {*range(1, len(whole) + 1)})}):
        path.write_bytes(whole[:length])
        try:
            found = read_log(path)
        except NotARun:
            assert length < ends[0]
            continue
        lines = sum(end <= length for end in ends)
        assert len(found.digests) == lines
        assert not found.damaged
        assert found.torn == (length not in ends)
        if lines >= 2:
            assert len(found.events) == states[lines - 2].seq


def test_no_changed_byte_certifies_an_altered_event() -> None:
    """A sample: every 23rd byte, each changed in one bit; `tests/campaigns/damage.py` changes thousands."""
    path = kept_run()
    written, whole = read_run(path)[1], path.read_bytes()
    for place in range(0, len(whole), 23):
        changed = bytearray(whole)
        changed[place] ^= 1 << place % 8
        path.write_bytes(changed)
        with contextlib.suppress(JournalError):
            found = read_log(path)
            assert found.fault() is not None
            assert found.events == written[: len(found.events)]
