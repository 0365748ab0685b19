"""The doors of a site in the app: five doors carried through, one made safe and taken up again; and a round."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
from textual.pilot import Pilot

from guide.run.run_list import list_runs
from guide.run.settings import Settings
from guide.screens.hingeside_app import HingesideApp
from guide.screens.home_screen import HomeScreen
from guide.screens.run_screen import RunScreen
from guide.screens.site_screen import SiteScreen
from guide.site.door_state import door_states
from guide.site.new_job import NewJob, begin_new
from guide.site.site import Planned, Round, Site, SiteDoor, with_round
from guide.site.site_files import change, keep_new, read_site
from tests.screens.back_door import app_of
from tests.screens.seen import lines_seen, seen, words_seen
from tests.site.site_jobs import GAP, SOUND, job

PROCEDURE = """\
procedure: fit-kick-plate
title: Fit a kick plate
facts:
  width:
    length: {from: 24 in, to: 48 in, step: 1/16 in}
    ask: How wide is the leaf?
    say: How wide?
    schedule: true
steps:
  - do: {id: wedge, text: Wedge the leaf so that it cannot move., say: Wedge it.}
  - ask: {id: how-wide, fact: width}
  - end: {id: fitted, outcome: finished, text: The plate is fitted., say: Finished.}
"""
PLATE = ("enter", "enter", "y", "enter")
"""The keys of the whole job: the wedge, the width that the site offers, a yes to the end, and back to the doors."""
BAKERY = Site(
    "Bakery",
    "2026-11-30T08:00:00.000Z",
    procedure="fit-kick-plate",
    doors=(
        *(SiteDoor(str(n), f"Oven {n}", facts={"width": "36 in"}) for n in range(1, 6)),
        SiteDoor("6", "Cold store", planned=Planned("", None, 0, 0, "Its leaf is of ice.")),
    ),
)


@pytest.fixture
def bakery(own_home: Path) -> Path:
    """The site, and its procedure among the person's own."""
    folder = own_home / "procedures"
    folder.mkdir()
    (folder / "fit-kick-plate.yaml").write_text(PROCEDURE, "utf-8")
    return keep_new(BAKERY)


def states(path: Path) -> list[str]:
    return [one.state for one in door_states(read_site(path), list_runs())]


async def until(pilot: Pilot[int], holds: Callable[[], bool]) -> None:
    """Wait until the app has come so far."""
    for _ in range(200):
        await pilot.pause(0.01)
        if holds():
            return
    raise AssertionError(seen(pilot.app))  # type: ignore[arg-type]


async def at_the_site(app: HingesideApp, pilot: Pilot[int]) -> SiteScreen:
    await until(pilot, lambda: isinstance(app.screen, SiteScreen) and app.screen.is_current)
    await pilot.pause()
    screen = app.screen
    assert isinstance(screen, SiteScreen)
    return screen


async def in_a_job(app: HingesideApp, pilot: Pilot[int]) -> None:
    await until(pilot, lambda: isinstance(app.screen, RunScreen))
    await pilot.pause()


async def test_five_doors_one_made_safe_and_taken_up_again(bakery: Path) -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        for number in range(1, 6):
            screen = await at_the_site(app, pilot)
            assert screen.lit is not None
            assert screen.lit.door.number == str(number), "the next door is lit"
            await pilot.press("enter")
            await in_a_job(app, pilot)
            assert f" {number} · Fit" in seen(app)
            if number == 3:
                await pilot.press("enter", "x", *"Rain", "enter", "y", "enter")
                assert states(bakery)[2] == "made-safe"
                continue
            await pilot.press(*PLATE)
        screen = await at_the_site(app, pilot)
        assert "made safe" in words_seen(app)
        assert "1 not started, 4 finished, 1 made safe." in words_seen(app)

        await pilot.press("home", "down", "down")
        assert screen.lit is not None
        assert screen.lit.door.number == "3"
        assert "Enter Go on" in words_seen(app)
        await pilot.press("enter")
        await in_a_job(app, pilot)
        await pilot.press("a", *"Dry", "enter", *PLATE[1:])
        await at_the_site(app, pilot)
        assert "1 not started, 5 finished." in words_seen(app)
        await pilot.press("home", "enter")
        await pilot.pause()
        assert "The record of which job?" in words_seen(app)
        await pilot.press("1")
        await pilot.pause()
        assert "RECORD: Fit a kick plate" in words_seen(app)
    assert states(bakery) == ["finished"] * 5 + ["not-started"]


async def test_a_door_that_the_plan_sets_aside_is_begun_only_after_a_yes(bakery: Path) -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        await at_the_site(app, pilot)
        await pilot.press("end", "enter")
        assert "Its leaf is of ice. Y begins it all the same." in words_seen(app)
        await pilot.press("n", "y")
        assert list_runs() == [], "another key takes the question back"
        await pilot.press("end", "enter", "y")
        await in_a_job(app, pilot)
    assert states(bakery)[5] == "in-work"


async def test_doors_are_found_added_and_looked_at(bakery: Path) -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        screen = await at_the_site(app, pilot)
        await pilot.press("slash", "4", "enter")
        assert [one.door.number for one in screen.shown] == ["4"]
        await pilot.press("d")
        await pilot.pause()
        assert "How wide: 36 in" in seen(app)
        await pilot.press("escape", "slash", "escape", "a", *"4,x", "enter")
        await pilot.pause()
        assert "Bakery has a door 4 already" in words_seen(app)
        await pilot.press(*["backspace"] * 3, *"7,loft", "enter")
        await pilot.pause()
        assert screen.lit is not None
        assert (screen.lit.door.number, screen.lit.door.place) == ("7", "loft")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, HomeScreen))
    assert read_site(bakery).door("7").place == "loft"


async def test_a_round_is_begun_and_gone_through_from_the_same_screen(bakery: Path) -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        screen = await at_the_site(app, pilot)
        await pilot.press("r")
        assert "over 6 doors that may be fire doors" in words_seen(app)
        await pilot.press("y")
        await pilot.pause()
        assert "6 to do." in words_seen(app)
        begun = read_site(bakery).rounds[0].begun
        await pilot.press("escape", "escape")
        year = int(begun[:4]) + 1
        job("Bakery", "1", f"{year}-01-01T09:00", SOUND)
        job("Bakery", "2", f"{year}-01-01T10:00", GAP)
        await until(pilot, lambda: isinstance(app.screen, HomeScreen))
        await pilot.press("l")
        screen = await at_the_site(app, pilot)
        await pilot.press("r")
        await pilot.pause()
        assert "4 to do, 1 with faults, 1 passed." in words_seen(app)
        assert screen.lit is not None
        assert screen.lit.door.number == "3"
        await pilot.press("enter")
        await in_a_job(app, pilot)
        assert "Yearly check" in seen(app)


async def test_an_earlier_round_is_looked_at_and_nothing_is_begun_in_it(bakery: Path) -> None:
    for year in ("2027", "2028"):
        begun = Round(year, "inspect-a-closing-door", ("1", "2"), f"{year}-03-01T08:00:00.000Z")
        change(bakery, partial(with_round, new=begun))
    job("Bakery", "1", "2027-03-02T09:00", GAP)
    job("Bakery", "1", "2028-03-02T09:00", SOUND)
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        screen = await at_the_site(app, pilot)
        await pilot.press("r")
        assert "Round 2028: 1 to do, 1 passed." in words_seen(app)
        await pilot.press("r")
        await pilot.pause()
        assert "Round 2027 1 to do, 1 with faults." in words_seen(app)
        await pilot.press("2")
        await at_the_site(app, pilot)
        assert "Round 2027: 1 to do, 1 with faults." in words_seen(app)
        assert "This round is over: a later one has begun." in words_seen(app)
        await pilot.press("end", "enter")
        await pilot.pause()
        assert screen.lit is not None
        assert screen.lit.door.number == "2"
        assert "The record of which job?" in words_seen(app), "an inspection would be of 2028"


async def test_a_narrow_window_has_the_doors_and_their_states(bakery: Path) -> None:
    app = app_of(None)
    async with app.run_test(size=(40, 12)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        await at_the_site(app, pilot)
        assert "6 not started." in words_seen(app)
        assert {len(line) for line in lines_seen(app)} == {40}


async def test_without_a_site_the_key_says_how_to_make_one() -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        assert "hingeside site new NAME SCHEDULE" in words_seen(app)


async def test_of_several_sites_one_is_picked_and_a_damaged_one_is_said(bakery: Path) -> None:
    keep_new(Site("Mill", "2026-11-30T08:00:00.000Z"))
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("l")
        await pilot.pause()
        assert "The doors of which site?" in words_seen(app)
        await pilot.press("2")
        await at_the_site(app, pilot)
        assert "No door yet. A adds one." in words_seen(app)
        await pilot.press("escape")
        bakery.write_text("{}", "utf-8")
        await until(pilot, lambda: isinstance(app.screen, HomeScreen))
        await pilot.press("l", "1")
        await pilot.pause()
        assert "changed or damaged" in words_seen(app)


def test_another_job_at_the_same_door_belongs_to_its_site(bakery: Path, own_home: Path) -> None:
    path = job("Bakery", "2", "2027-03-01T09:00", SOUND)
    fit = own_home / "procedures" / "fit-kick-plate.yaml"
    begin_new(NewJob(fit, "2", None, path), Settings()).close()
    begin_new(NewJob(fit, "44, attic", None, path), Settings()).close()
    begun = [run for run in list_runs() if run.procedure == "fit-kick-plate"]
    assert {(run.site, run.door) for run in begun} == {("", "44"), ("Bakery", "2")}
