"""A round of the yearly check: twenty doors, three with faults, repaired and checked again."""

import csv
import io
import json
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from guide.papers.site.round_paper import round_csv, round_json, round_text
from guide.papers.site.site_list import round_lines
from guide.papers.site.site_paper import rendered, summary_paper
from guide.run import replies
from guide.run.inspection import items_of
from guide.run.photos import keep_photo, read_photo
from guide.run.rehearse import Player, Rehearsal
from guide.run.run_list import list_runs
from guide.run.store import begin_run
from guide.site.door_state import door_states
from guide.site.round_state import RoundState, round_state
from guide.site.site import Round, Site, SiteDoor
from tests.run.shipped_runs import carried, shipped, shipped_graph
from tests.run.test_photos import picture
from tests.site.site_jobs import AJAR, CLASSROOM, GAP, SOUND, TIRED, job

DOORS = tuple(str(number) for number in range(1, 21))
CHECK = "inspect-a-closing-door"
MILL = Site(
    "Rope Mill",
    "2026-01-01T08:00:00.000Z",
    doors=tuple(SiteDoor(number, f"Stair {number}") for number in DOORS),
    rounds=(
        Round("2027", CHECK, DOORS, "2027-03-01T00:00:00.000Z"),
        Round("2028", CHECK, DOORS, "2028-03-01T00:00:00.000Z"),
    ),
)


def as_it_is(title: str = "2027") -> RoundState:
    return round_state(MILL, MILL.round(title), door_states(MILL, list_runs()))


FAULTY = {"4": GAP, "9": AJAR, "17": TIRED}


def inspect_all(until: int = 20) -> None:
    for place, number in enumerate(DOORS[:until]):
        day, hour = place // 8 + 1, place % 8 + 8
        scenario = FAULTY.get(number, SOUND)
        job("Rope Mill", number, f"2027-03-0{day}T{hour:02}:00", scenario)


def test_a_round_of_twenty_doors_with_three_that_fail_are_repaired_and_checked_again() -> None:
    job("Rope Mill", "3", "2026-03-01T09:00", TIRED)  # the year before does not count
    inspect_all(19)
    one = as_it_is()
    assert one.counted == {"to-do": 1, "faults": 3, "passed": 16}
    assert one.next is not None
    assert one.next.door.door.number == "20"

    job("Rope Mill", "20", "2027-03-03T16:00", SOUND)
    one = as_it_is()
    assert [door.door.door.number for door in one.to_recheck] == ["4", "9", "17"]
    assert [len(door.open) for door in one.to_recheck] == [1, 2, 9]
    assert one.next is one.to_recheck[0], "after the last door come those that failed"

    job("Rope Mill", "9", "2027-03-08T09:00", CLASSROOM, by="B. Joiner")
    job("Rope Mill", "4", "2027-03-09T09:00", GAP)
    job("Rope Mill", "9", "2027-03-09T10:00", SOUND, by="C. Check")
    job("Rope Mill", "17", "2027-03-09T11:00", GAP)
    one = as_it_is()
    assert one.counted == {"faults": 2, "repaired": 1, "passed": 17}
    nine = [fault for fault in one.deficiencies if fault.door.door.number == "9"]
    assert [fault.first.item.title for fault in nine] == ["Closes fully", "Measured, by the rules"]
    closed = nine[0].closed
    assert closed is not None
    assert (closed.run.by, [run.by for run in nine[0].work]) == ("C. Check", ["B. Joiner"])
    (gap,) = [fault for fault in one.deficiencies if fault.door.door.number == "4"]
    assert (gap.closed, len(gap.findings)) == (None, 2), "it failed again"
    seventeen = [fault for fault in one.deficiencies if fault.door.door.number == "17"]
    assert sum(fault.closed is None for fault in seventeen) == 1

    for number in ("4", "17"):
        job("Rope Mill", number, "2027-03-15T09:00", SOUND)
    one = as_it_is()
    assert one.counted == {"repaired": 3, "passed": 17}
    assert one.next is None
    assert len(one.deficiencies) == 12, "history is kept"
    assert as_it_is("2028").counted == {"to-do": 20}


def test_an_inspection_that_was_broken_off_leaves_items_not_reached() -> None:
    job("Rope Mill", "1", "2027-03-01T09:00", TIRED, answers=6, end="paused")
    job("Rope Mill", "2", "2027-03-01T10:00", SOUND, answers=6, end="The school is evacuated.")
    one = as_it_is()
    first, second = one.doors[:2]
    assert (first.state, second.state) == ("in-work", "incomplete")
    results = [item.result for item in second.items]
    assert (results[0], results[-1]) == ("pass", "not reached")
    assert [door.door.door.number for door in one.left][:2] == ["1", "2"]


def test_a_failure_stays_open_until_a_later_inspection_reaches_its_item() -> None:
    job("Rope Mill", "1", "2027-03-01T09:00", AJAR)
    job("Rope Mill", "1", "2027-03-02T09:00", SOUND, answers=6, end="Broken off.")
    (first, *_) = as_it_is().doors
    assert [fault.first.item.fact for fault in first.open] == ["closes_fully", "verdict"]


def test_a_fault_that_comes_back_is_another_deficiency() -> None:
    for day, scenario in ((1, GAP), (2, SOUND), (3, GAP)):
        job("Rope Mill", "1", f"2027-03-0{day}T09:00", scenario)
    (first, *_) = as_it_is().doors
    assert [fault.closed is None for fault in first.deficiencies] == [False, True]


@pytest.mark.parametrize("scenario", [SOUND, GAP, AJAR, TIRED, "inspect-flat-door-uk"])
def test_an_item_fails_where_the_end_says_that_the_check_failed(scenario: str) -> None:
    session = carried(shipped(scenario)).session
    assert session is not None
    failed = [item.fact for item in items_of(session.state) if item.result == "fail"]
    assert bool(failed) == (session.state.ended != "finished")
    assert all(item.result != "not reached" for item in items_of(session.state))


def test_a_door_that_is_no_fire_door_has_no_items() -> None:
    session = carried(shipped("inspect-no-fire-door")).session
    assert session is not None
    results = {item.result for item in items_of(session.state)}
    assert (session.state.ended, results) == ("not-started", set())


def test_the_papers_of_a_round_say_the_same() -> None:
    inspect_all(9)
    one = as_it_is()
    text, data = round_text(one), json.loads(round_json(one))
    rows = list(csv.DictReader(io.StringIO(round_csv(one))))
    pages = PdfReader(io.BytesIO(rendered(summary_paper(one), "pdf"))).pages
    pdf = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert data["counts"] == {"to-do": 11, "faults": 2, "passed": 7}
    for fault in data["deficiencies"]:
        assert fault["title"] in text
        assert fault["title"] in pdf
        same = [
            row for row in rows if row["door"] == fault["door"] and row["item"] == fault["title"]
        ]
        assert [row["result"] for row in same] == ["fail"]
    assert text.count("Found 2027-03-") == 3
    assert "Signature: ________" in text
    assert "three years (NFPA 80 5.2.2, 2013)" in pdf
    assert (
        round_lines(one)[0] == "Rope Mill, round 2027: 20 doors; 11 to do, 2 with faults, 7 passed."
    )


def test_where_another_country_s_rules_hold_the_paper_does_not_name_nfpa() -> None:
    one = round_state(
        MILL, Round("UK", CHECK, DOORS, "2027-01-01", rules="uk"), door_states(MILL, [])
    )
    assert "Inspected: not yet, by ________" in round_text(one)
    assert "NFPA 80 5.2.2" not in round_text(one)


def test_a_photo_stands_at_the_fault_it_was_added_at(tmp_path: Path) -> None:
    seen = read_photo(picture(tmp_path / "gap at the head.jpg"))
    keep_photo(seen)

    class Photographer(Player):
        def look(self) -> None:
            super().look()
            state = self.session.state
            if state.node.id == "note-gaps" and not state.photos:
                self.session.send(replies.note(state, "6 mm at the head, near the hinges"))
                self.session.send(replies.photo(state, seen, "A 6 mm drill in the gap"))

    shape = shipped(GAP)
    about = {"site": "Rope Mill", "door": "4"}
    session = begin_run(shipped_graph(shape.procedure), units="inch", about=about)
    Photographer(session, shape, Rehearsal(shape.scenario, shape.procedure)).play()
    session.close()
    year = Round("now", CHECK, ("4",), "2020-01-01")
    one = round_state(replace(MILL, rounds=(year,)), year, door_states(MILL, list_runs()))
    (fault,) = one.deficiencies
    assert fault.failed.item.photos == (("A 6 mm drill in the gap", seen.digest),)
    assert "Noted: 6 mm at the head, near the hinges" in " ".join(round_text(one).split())
    assert json.loads(round_json(one))["deficiencies"][0]["photos"][0]["sha256"] == seen.digest
    page = rendered(summary_paper(one), "html").decode()
    assert "A 6 mm drill in the gap" in page
    assert "data:image/" in page
    assert rendered(summary_paper(one), "pdf").startswith(b"%PDF-")
