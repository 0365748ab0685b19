"""A site: made from a schedule or door by door, kept in a file, and changed."""

import json
from dataclasses import replace
from functools import cache

import pytest

from guide.site.from_schedule import schedule_of, site_of_plan, with_schedule
from guide.site.plan.known import Planning
from guide.site.plan.site_plan import SitePlan, plan_site
from guide.site.schedule.schedule import schedule_facts
from guide.site.site import (
    Round,
    Site,
    UnknownDoor,
    in_order,
    renamed,
    to_inspect,
    with_door,
    with_round,
    without_door,
)
from guide.site.site_files import (
    BadSite,
    UnknownSite,
    change,
    find_site,
    keep_new,
    list_sites,
    read_site,
    rename,
    site_path,
)
from tests.site.schedules import INCH, MESSY, METRIC, procedure, schedule, shipped

MADE = "2026-11-30T08:00:00.000Z"


@cache
def plan(name: str) -> SitePlan:
    read = shipped(name)
    return plan_site(Planning(procedure(), read.units), read)


def school() -> Site:
    return site_of_plan("Elm Lane School", MADE, plan(INCH))


def small(*rows: str) -> SitePlan:
    read = schedule("Mark;Location;Width;Fire rating;Colour", *rows)
    return plan_site(Planning(procedure(), read.units), read)


@pytest.mark.parametrize("name", [INCH, METRIC, MESSY])
def test_a_site_keeps_what_its_schedule_knows_and_is_read_as_it_was_written(name: str) -> None:
    read = plan(name)
    site = site_of_plan("Rope Works", MADE, read)
    assert read_site(keep_new(site)) == site
    assert [len(door.facts) for door in site.doors] == [len(one.door.facts) for one in read.doors]
    assert [door.questions for door in site.doors] == [one.door.questions for one in read.doors]
    left = [cell for one in read.schedule.doors for cell in one.not_understood]
    assert [cell for door in site.doors for cell in door.not_understood] == left
    assert site.beside == read.schedule.beside


def test_every_fact_has_its_cell() -> None:
    corridor = school().door("102")
    assert (corridor.rating, corridor.row) == ("90 MIN", "row 6")
    assert (corridor.facts["width"], corridor.found_at["width"]) == ("36 in", "C6")
    assert [question.where for question in corridor.questions] == ["N6", "N6"]


def test_a_number_that_two_doors_have_is_told_apart_by_their_rows() -> None:
    site = site_of_plan(
        "Mill", MADE, small("7;Stair;36 in;-;red", "7;Loft;30 in;-;red", "8;;;-;red")
    )
    assert [door.number for door in site.doors] == ["7 (row 2)", "7 (row 3)", "8"]
    assert "which is right?" in site.doors[0].questions[-1].text


def test_a_site_grows_door_by_door_where_their_numbers_belong() -> None:
    site = Site("Corner shop", MADE)
    for number in ("10", "9", "101A", "101", "back door"):
        site = with_door(site, number, "", {})
    assert [door.number for door in site.doors] == ["9", "10", "101", "101A", "back door"]
    assert without_door(site, "Back  Door").doors == site.doors[:-1]
    assert in_order("101") < in_order("101a") < in_order("102")


@pytest.mark.parametrize("number", ["", "  ", "102", " 102 ", "add", "x" * 200])
def test_a_door_that_cannot_be_added(number: str) -> None:
    with pytest.raises(UnknownDoor):
        with_door(school(), number, "", {})


def test_a_newer_schedule_brings_new_facts_and_keeps_doors_that_jobs_may_name() -> None:
    before = site_of_plan("Mill", MADE, small("7;Stair;36 in;-;red", "8;Loft;30 in;-;red"))
    before = with_door(before, "9", "added on the day", {})
    after, told = with_schedule(before, small("7;Stair;34 in;-;red", "10;Yard;36 in;-;red"))
    assert [door.number for door in after.doors] == ["7", "8", "9", "10"]
    assert after.door("7").facts["width"] == "34 in"
    assert after.door("8").facts["width"] == "30 in"
    assert told == "1 doors added, 1 with other facts; no longer in the schedule: 8."


def test_a_site_is_found_by_the_beginning_of_its_name() -> None:
    path = keep_new(school())
    assert find_site("elm") == find_site("ELM LANE school") == path
    keep_new(Site("Elm House", MADE))
    with pytest.raises(UnknownSite, match="begins the names of 2 sites"):
        find_site("elm")
    with pytest.raises(UnknownSite, match="did you mean “elm-house”"):
        find_site("elm-hose")
    assert [site.name for site in list_sites()] == ["Elm House", "Elm Lane School"]


def test_a_site_is_never_written_over_by_a_new_one() -> None:
    keep_new(school())
    with pytest.raises(UnknownSite, match="There is a site Elm Lane School already"):
        keep_new(Site("elm lane SCHOOL", MADE))


@pytest.mark.parametrize("name", ["new", "", "///", "x" * 100])
def test_a_name_that_no_site_can_have(name: str) -> None:
    with pytest.raises(UnknownDoor, match="A site needs a name"):
        site_of_plan(name, MADE, plan(INCH))


@pytest.mark.parametrize(
    "damage",
    ["", "{}", "[" * 9000, '{"format": 99}', '{"hingeside": "site", "format": 2, "doors": 3}'],
)
def test_a_site_s_file_that_is_not_one_is_said_and_left_alone(damage: str) -> None:
    path = keep_new(school())
    path.write_text(damage, "utf-8")
    with pytest.raises(BadSite):
        read_site(path)
    with pytest.raises(BadSite):
        change(path, lambda site: site)
    assert path.read_text("utf-8") == damage


def test_a_change_that_is_refused_leaves_the_site_as_it_was() -> None:
    path = keep_new(school())
    before = path.read_bytes()
    with pytest.raises(UnknownDoor):
        change(path, lambda site: without_door(site, "999"))
    assert path.read_bytes() == before
    assert change(path, lambda site: without_door(site, "101")) == read_site(path)


def test_a_site_s_file_can_be_read_by_a_person() -> None:
    path = keep_new(school())
    assert path == site_path("Elm Lane School")
    assert path.name == "elm-lane-school.site.json"
    assert json.loads(path.read_text("utf-8"))["doors"][0]["place"] == "Main entrance"


def test_a_round_is_over_the_doors_that_may_be_fire_doors() -> None:
    site = school()
    assert to_inspect(site) == ("102", "103", "104", "106", "109")
    site = with_round(site, Round("2027", "inspect", ("102", "102 "), MADE))
    assert site.round("2027").doors == site.round().doors == ("102",)


@pytest.mark.parametrize(
    ("title", "doors", "said"),
    [
        ("2027", ("102",), "has a round 2027 already"),
        ("new", ("102",), "needs a title"),
        ("2028", ("999",), "has no door “999”"),
        ("2028", (), "has no door for a round"),
    ],
)
def test_a_round_that_cannot_be(title: str, doors: tuple[str, ...], said: str) -> None:
    site = with_round(school(), Round("2027", "inspect", ("101",), MADE))
    with pytest.raises(UnknownDoor, match=said):
        with_round(site, Round(title, "inspect", doors, MADE))


def test_the_doors_of_a_site_are_planned_again_as_their_schedule_was() -> None:
    site = school()
    doors = [site.door(number) for number in ("102", "106", "107", "108")]
    again = plan_site(
        Planning(procedure(), "inch"), schedule_of(site, doors, schedule_facts(procedure()))
    )
    first = {one.door.number: one for one in plan(INCH).doors}
    for one in again.doors:
        before = first[one.door.number]
        assert replace(one, door=before.door) == before


def test_a_site_is_renamed_and_its_old_name_is_still_its_own() -> None:
    old = keep_new(Site("Elm Lane School", MADE))
    site = rename(old, "Elm Lane Academy")
    assert not old.exists()
    assert read_site(site_path("Elm Lane Academy")) == site
    assert site.keys == {"elm lane school", "elm lane academy"}
    with pytest.raises(UnknownSite, match="it is called Elm Lane Academy now"):
        find_site("Elm Lane School")
    with pytest.raises(UnknownSite, match="is a name of the site Elm Lane Academy"):
        keep_new(Site("Elm Lane School", MADE))
    back = rename(site_path("Elm Lane Academy"), "Elm Lane School")
    assert (back.name, back.earlier_names) == ("Elm Lane School", ("Elm Lane Academy",))


def test_a_name_that_another_site_has_or_had_is_refused() -> None:
    mill = keep_new(Site("Mill", MADE))
    rename(keep_new(Site("Bakery", MADE)), "Rope Works")
    for name in ("Rope Works", "ROPE-works", "Bakery"):
        with pytest.raises(UnknownSite, match="Rope Works"):
            rename(mill, name)
    with pytest.raises(UnknownDoor, match="A site needs a name"):
        rename(mill, "delete")
    assert read_site(mill).name == "Mill"


def test_a_site_that_was_cut_off_while_it_was_renamed_is_found_and_renamed_again() -> None:
    path = keep_new(Site("Mill", MADE))
    change(path, lambda site: renamed(site, "Rope Works"))  # written, and the file not moved yet
    assert read_site(find_site("mill")).name == "Rope Works"
    rename(path, "Rope Works")
    assert find_site("Rope Works") == site_path("Rope Works")
