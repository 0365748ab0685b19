"""The state of a door: that of its latest job by time, whatever order the jobs come in."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.procedure.outcomes import OUTCOMES
from guide.run.catalogue import RunSummary
from guide.run.inspection import FAIL, PASS, Item, written_items
from guide.run.run_list import list_runs
from guide.run.store import open_run
from guide.site.day import day_of, spent_on
from guide.site.door_state import STATES, chosen, counted, door_states, next_door, state_of, strays
from guide.site.site import Planned, Site, SiteDoor
from tests.site.site_jobs import AJAR, CLASSROOM, GAP, SOUND, job

SITE = Site(
    "Clinic",
    "2026-11-30T08:00:00.000Z",
    doors=(
        SiteDoor("1", "Entrance", "90 MIN", facts={"rated": "yes"}),
        SiteDoor("2", "Ward", facts={"rated": "no"}),
        SiteDoor("3", "Kitchen"),
        SiteDoor("4", "Lead room", planned=Planned("", None, 0, 0, "Lead-lined: no closer.")),
        SiteDoor("5", "Store", planned=Planned("regular", 3, 60, 90)),
    ),
)


def summary(when: str, outcome: str = "", items: str = "", run: str = "a") -> RunSummary:
    return RunSummary(
        Path(run), run, run=run, started=when, updated=when, ended=when if outcome else "",
        outcome=outcome, items=items,
    )  # fmt: skip


STATES_OF = {
    "": "in-work",
    "finished": "finished",
    "left-to-do": "left-to-do",
    "not-started": "not-to-do",
    "made-safe": "made-safe",
    "found": "found",
}


@pytest.mark.parametrize("outcome", ["", *OUTCOMES])
def test_a_job_gives_its_door_a_state(outcome: str) -> None:
    state = state_of([summary("2027-03-01", outcome)])
    assert state == STATES_OF[outcome]
    assert STATES[state]


def test_an_inspection_with_a_fault_has_failed() -> None:
    shut = Item("closes", "Closes fully", FAIL, "Not every time")
    assert state_of([summary("2027-03-01", "left-to-do", written_items([shut]))]) == "failed"
    shut = replace(shut, result=PASS)
    assert state_of([summary("2027-03-01", "finished", written_items([shut]))]) == "finished"
    assert state_of([]) == "not-started"


@given(
    st.lists(
        st.tuples(st.integers(0, 9), st.sampled_from(["", *OUTCOMES])), min_size=1, max_size=8
    ),
    st.randoms(use_true_random=False),
)
def test_whatever_order_the_jobs_come_in_the_latest_decides(
    told: list[tuple[int, str]], rng: object
) -> None:
    runs = [
        summary(f"2027-03-0{day}T09:00", outcome, run=str(number))
        for number, (day, outcome) in enumerate(told)
    ]
    expected = state_of(runs)
    latest = max(day for day, _ in told)
    assert expected in {STATES_OF[outcome] for day, outcome in told if day == latest}
    rng.shuffle(runs)  # type: ignore[attr-defined]
    assert state_of(runs) == expected


def test_a_note_after_the_end_does_not_make_an_old_job_the_latest() -> None:
    path = job("Clinic", "1", "2026-03-01T09:00", CLASSROOM)
    job("Clinic", "1", "2026-06-01T09:00", AJAR)
    session = open_run(path)
    session.send(("noted", {"at": "end", "text": "The invoice is paid."}))
    session.close()
    (entrance, *_) = door_states(SITE, list_runs())
    assert entrance.state == "failed"
    assert entrance.jobs[0].procedure == "inspect-a-closing-door"


def test_the_list_of_doors_with_their_jobs() -> None:
    job("Clinic", "1", "2026-03-01T09:00", CLASSROOM)
    job("clinic", " 2", "2026-03-01T10:00", CLASSROOM, answers=8, end="Rain.")
    job("Clinic", "3", "2026-03-01T11:00", GAP)
    job("Clinic", "33", "2026-03-01T11:00", SOUND)
    job("Other house", "5", "2026-03-01T11:00", SOUND)
    runs = list_runs()
    states = door_states(SITE, runs)
    assert [(one.door.number, one.state) for one in states] == [
        ("1", "finished"),
        ("2", "made-safe"),
        ("3", "failed"),
        ("4", "not-started"),
        ("5", "not-started"),
    ]
    results = [one.result for one in states[:3]]
    assert results == [
        "Fit a surface closer",
        "Made safe: Rain.",
        "1 at fault: Gaps at head, jambs and meeting edge",
    ]
    assert [run.door for run in strays(SITE, runs)] == ["33"]
    assert counted(states) == {"not-started": 2, "finished": 1, "made-safe": 1, "failed": 1}
    following = next_door(states)
    assert following is not None
    assert following.door.number == "5", "4 is set aside by the plan"
    assert [one.door.number for one in chosen(states, state="not-started")] == ["4", "5"]
    assert [one.door.number for one in chosen(states, rating="yes")] == ["1", "3", "4", "5"]
    assert [one.door.number for one in chosen(states, rating="90")] == ["1"]
    assert [one.door.number for one in chosen(states, words="SAFE ward")] == ["2"]


def test_a_door_in_work_comes_before_one_that_is_not_started() -> None:
    job("Clinic", "5", "2026-03-01T11:00", CLASSROOM, answers=8, end="paused")
    following = next_door(door_states(SITE, list_runs()))
    assert following is not None
    assert (following.door.number, following.state) == ("5", "in-work")


def test_an_unfinished_job_is_said_beside_a_later_one_of_another_kind() -> None:
    job("Clinic", "1", "2026-03-01T09:00", CLASSROOM, answers=8, end="Rain.")
    job("Clinic", "1", "2026-06-01T09:00", SOUND)
    entrance = door_states(SITE, list_runs())[0]
    assert entrance.state == "finished"
    assert entrance.result == "No fault; also unfinished: Fit a surface closer"


def test_the_progress_of_a_day_leaves_out_pauses() -> None:
    path = job("Clinic", "1", "2026-03-01T09:00", SOUND)
    job("Clinic", "2", "2026-02-28T09:00", SOUND)
    states = door_states(SITE, list_runs())
    (last,) = states[0].jobs
    day = day_of(states, datetime(2026, 3, 1, 20, tzinfo=UTC))
    assert (day.done, day.undone) == (1, 0)
    assert day.minutes == last.lines - 1, "a line a minute"
    assert (day.left, day.least, day.most) == (2, 60, 90)
    moment = datetime(2026, 3, 1, 12, tzinfo=UTC).astimezone().date()
    assert spent_on(path, moment).seconds == (last.lines - 1) * 60
    assert spent_on(path.with_name("gone.run"), moment).seconds == 0
