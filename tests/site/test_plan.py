"""The plan of a schedule: mount, size, plates, fasteners, what is open, and what should not be started."""

import pytest

from guide.files.library import find
from guide.procedure.sheet_cache import sheet_of
from guide.site.plan.door_plan import BEST, NO_CLOSER, DoorPlan
from guide.site.plan.known import Planning
from guide.site.plan.site_plan import SitePlan, plan_site
from guide.site.schedule.schedule import Schedule
from guide.trade import registry
from tests.site.schedules import INCH, MESSY, METRIC, procedure, schedule, shipped

HEADINGS = "Mark;Size;Hand;Door material;Core;Frame;Fire rating;Hinge type;Int/Ext;Prep;Remarks"
CLASSROOM = "103;3'-0” x 7'-0” x 1 3/4”;RH;WD;Lumber core;WD;NR;Butt;INT;None;"


def plan(read: Schedule, sheet: str = "generic-a") -> SitePlan:
    """The plan of a schedule, with a shipped sheet or none."""
    loaded = sheet_of(find("sheet", sheet)) if sheet else None
    return plan_site(Planning(procedure(), read.units, loaded, {"rules": "us"}), read)


def one(row: str, sheet: str = "generic-a", headings: str = HEADINGS) -> DoorPlan:
    """The plan of the one door of a schedule."""
    (found,) = plan(schedule(headings, row), sheet).doors
    return found


# --- the three buildings ---


def test_a_school() -> None:
    found = plan(shipped(INCH))
    assert [door.door.number for door in found.planned] == [
        *("101", "102", "103", "104", "105", "108", "109")
    ]
    assert {door.door.number: door.set_aside for door in found.set_aside} == {
        "106": "Do not drill this frame. Ask the foreman for a plan for a filled or unknown frame.",
        "107": NO_CLOSER,
    }
    assert [door.size for door in found.planned] == [5, 4, 3, 3, 3, 4, 3]


def test_offices_in_millimetres() -> None:
    found = plan(shipped(METRIC), sheet="")
    sizes = {door.door.number: door.size for door in found.planned}
    assert sizes == {"T01": 4, "T02": 3, "T04": 4, "T05": 5, "T07": None}
    assert "lead" not in found.set_aside[1].set_aside
    assert found.set_aside[1].set_aside.startswith("Drill nothing in this leaf.")
    assert [pick.part for pick in found.pick_list if pick.kind == "closer"] == [
        *("closer, EN size 3", "closer, EN size 4", "closer, EN size 5", "closer, size open")
    ]


def test_a_messy_workbook() -> None:
    found = plan(shipped(MESSY))
    aside = {door.door.number: door.set_aside for door in found.set_aside}
    assert aside["003"] == NO_CLOSER
    assert aside["2A"].startswith("These steps do not fit it.")  # a powered operator
    twice = [door for door in found.planned if door.door.number == "2A"]
    assert any("is given 2 times" in question.text for question in twice[0].open)


# --- mount ---


def test_the_strongest_mount_that_nothing_rules_out() -> None:
    found = one(CLASSROOM)
    assert (found.mount, found.mount_why, found.ruled_out) == ("regular", BEST, ())


def test_a_door_that_opens_into_the_weather_keeps_its_body_inside() -> None:
    found = one(CLASSROOM.replace("RH", "LHR").replace("INT", "EXT"))
    assert found.mount == "top-jamb"
    assert found.ruled_out == (
        ("regular", "Do not hang it outside. Ask the foreman for a top jamb, or a body made for outdoors."),
    )  # fmt: skip


def test_the_mount_of_the_schedule_is_kept() -> None:
    found = one(f"{CLASSROOM}Parallel arm")
    assert (found.mount, found.mount_why) == ("parallel", "the schedule names it")


def test_a_mount_of_the_schedule_that_cannot_be_is_set_aside() -> None:
    row = CLASSROOM.replace("RH", "LHR").replace("INT", "EXT")
    found = one(f"{row};Reg", headings=f"{HEADINGS};Closer")
    assert found.mount == ""
    assert found.set_aside.startswith("Do not hang it outside.")


# --- size, by the computation itself ---


@pytest.mark.parametrize(
    ("size", "mount", "inputs"),
    [
        ("3'-0” x 7'-0”", "", {"width": "36 in", "height": "84 in"}),
        ("3'-0” x 8'-2”", "", {"width": "36 in", "height": "98 in"}),
        ("3'-8” x 7'-0”", "Parallel arm", {"width": "44 in", "mount": "parallel"}),
        ("4'-2” x 7'-0”", "Top jamb", {"width": "50 in", "mount": "top-jamb"}),
    ],
)
def test_the_size_is_that_of_spring_size(size: str, mount: str, inputs: dict[str, str]) -> None:
    row = f"{CLASSROOM}{mount}".replace("3'-0” x 7'-0” x 1 3/4”", size)
    computation = registry.find("spring-size")
    given = {"mount": "regular", **inputs}
    expected = registry.run("spring-size", registry.read_inputs(computation, given))
    assert one(row, sheet="").size == expected.value


def test_a_leaf_past_the_table_is_set_aside() -> None:
    wide = one(CLASSROOM.replace("3'-0” x 7'-0”", "4'-6” x 8'-6”").replace("INT", "EXT"))
    assert "the sheet" in wide.set_aside or "EN size" in wide.set_aside


def test_the_spring_is_told_in_the_turns_of_the_sheet() -> None:
    outside = CLASSROOM.replace("3'-0” x", "3'-6” x").replace("INT", "EXT")
    assert one(outside).turns.startswith("10 full turns stronger")


def test_inside_the_spring_begins_where_the_opening_limit_lets_it() -> None:
    assert one(CLASSROOM).turns == (
        "EN size 1 to begin with, 10 full turns weaker than the factory's EN size 3"
    )
    assert one(CLASSROOM, sheet="").turns == ""


# --- what it takes ---


def test_screws_by_the_sheet_and_the_leaf() -> None:
    wood, steel = one(CLASSROOM), one(CLASSROOM.replace("WD;Lumber core;WD", "HM;Honeycomb;HM"))
    assert [(row.part, row.fixing.kind, row.count) for row in wood.fasteners] == [
        ("leaf", "wood-screw", 4),
        ("frame face", "wood-screw", 2),
    ]
    assert [(row.part, row.fixing.kind) for row in steel.fasteners] == [
        ("leaf", "through-bolt"),
        ("frame face", "not-known"),
    ]
    assert "Is the metal frame reinforced where this closer's holes fall?" in [
        question.text for question in steel.open
    ]


def test_a_coordinator_in_the_remarks_brings_its_bracket_until_somebody_looks() -> None:
    found = one(f"{CLASSROOM}Coordinator, parallel arm")
    assert [part.name for part in found.accessories] == ["coordinator bracket"]
    assert found.supposed == {"head_item": "coordinator"}
    assert found.open[0].where == "K2"


def test_without_a_sheet_the_bracket_s_own_template_is_wanted() -> None:
    (part,) = one(f"{CLASSROOM}Coordinator, parallel arm", sheet="").accessories
    assert part.name == "bracket"
    assert part.told.endswith("lay the template packed with the bracket, or do not start.")


def test_a_hinge_that_wants_a_special_template_is_said() -> None:
    found = one(CLASSROOM.replace("Butt", "Swing clear"))
    assert any("get the maker's special template" in caution for caution in found.cautions)


def test_minutes_and_tools_are_those_of_the_procedure_s_steps() -> None:
    found = one(CLASSROOM)
    assert 60 < found.least < found.most < 300
    assert {"drill", "step ladder", "countersink"} - set(found.tools) <= set(found.perhaps)
    assert "rivet nut tool" not in (*found.tools, *found.perhaps)  # nothing to rivet in wood


def test_what_is_known_is_not_asked() -> None:
    facts = {question.fact for question in one(CLASSROOM).open}
    assert {"width", "leaf", "behind", "frame", "hinge", "exterior", "prep"}.isdisjoint(facts)
    assert {"arm", "opening", "leaves", "accessible"} <= facts


# --- what should not be started ---


@pytest.mark.parametrize(
    ("row", "why"),
    [
        (CLASSROOM.replace("WD;Lumber core", "WD lead-lined;"), "Drill nothing in this leaf."),
        (CLASSROOM.replace("WD;Lumber core", "Glass;"), "Drill nothing in this leaf."),
        (CLASSROOM.replace("WD;NR", "HM grouted;NR"), "Do not drill this frame."),
        (CLASSROOM.replace("WD;Lumber core", "WD;Hollow core"), "Drill nothing. Find out"),
        (f"{CLASSROOM}No closer", NO_CLOSER),
    ],
)
def test_doors_that_should_not_be_started(row: str, why: str) -> None:
    assert one(row).set_aside.startswith(why)


def test_a_hold_open_arm_on_a_fire_door_is_set_aside() -> None:
    row = CLASSROOM.replace("NR", "90 MIN")
    found = one(f"{row};Hold-open", headings=f"{HEADINGS};Arm")
    assert found.set_aside.startswith("No mechanical hold-open on a fire door.")
    assert one(f"{CLASSROOM};Hold-open", headings=f"{HEADINGS};Arm").set_aside == ""


# --- the van ---


def test_the_pick_list_counts_over_all_doors() -> None:
    found = plan(schedule(HEADINGS, CLASSROOM, CLASSROOM.replace("103", "104", 1)))
    picks = {pick.part: (pick.count, pick.doors) for pick in found.pick_list}
    both = ("103", "104")
    assert picks["closer, EN size 3"] == (2, both)
    assert picks["wood screws No. 14, leaf"] == (8, both)
    assert picks["wood screws No. 14, frame face"] == (4, both)
    assert picks["drill 7/64 in"] == (1, both)


def test_alike_doors_have_alike_plans() -> None:
    rows = [CLASSROOM.replace("103", str(number), 1) for number in range(200, 230)]
    found = plan(schedule(HEADINGS, *rows))
    assert len(found.planning.ways) == len(found.planning.parts)
    assert len({(one.mount, one.size, one.least, one.tools) for one in found.doors}) == 1
