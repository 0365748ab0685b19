"""A whole job by the mouse: every key that is needed can be clicked, and a number is stepped to by wheel and click."""

from pathlib import Path

from textual.events import MouseScrollDown, MouseScrollUp
from textual.pilot import Pilot

from guide.run.session import Session
from guide.run.settings import Settings
from guide.screens.hingeside_app import HingesideApp
from guide.screens.home_screen import HomeScreen
from guide.screens.run_screen import RunScreen
from tests.screens.back_door import PROCEDURE, app_of, begin_back_door
from tests.screens.seen import place_of, seen, words_seen
from tests.screens.test_stopwatch import Clock


async def click(pilot: Pilot[int], text: str) -> None:
    """Click on a text of the screen once it is there, and wait for what comes of it."""
    app = pilot.app
    assert isinstance(app, HingesideApp)
    for _ in range(200):
        if text in seen(app):
            break
        await pilot.pause(0.02)
    await pilot.click(offset=place_of(app, text))
    await pilot.pause()


async def test_a_job_from_the_first_screen_to_its_end(own_home: Path) -> None:
    folder = own_home / "procedures"
    folder.mkdir()
    (folder / "fit-kick-plate.yaml").write_text(
        PROCEDURE.replace("  - ask: {id: which-colour, fact: colour}\n", ""), "utf-8"
    )
    clock = Clock()
    app = HingesideApp(None, Settings(), clock=clock)
    async with app.run_test(size=(60, 20)) as pilot:

        async def clicks(text: str) -> None:
            clock.now += 2
            await click(pilot, text)

        await pilot.pause()
        await clicks("New job")
        await clicks("Fit a kick plate")
        await clicks("Go on")  # a door needs no name
        await clicks("No sheet")
        await clicks("Done")
        assert isinstance(app.screen, RunScreen)
        await clicks("Done")
        await clicks("Steel")
        await clicks("More")  # the line begins at the least that is usual, 30 in
        for _ in range(2):
            await clicks("More")
        await clicks("Less")
        await clicks("Accept")
        state = app.screen.view.session.state
        assert state.node.id == "before-drilling"
        assert str(state.known("width")) == "30 1/16 in"
        await clicks("All right")
        await clicks("Begin")
        await clicks("Done")
        await clicks("Stopwatch")
        await clicks("Stopwatch")
        await clicks("Accept")
        await clicks("It lies flat")
        await clicks("End the job")
        assert app.screen.view.session.state.ended == "finished"
        await clicks("To the first")
        await clicks("Finished")  # one click opens the record of the job
        await clicks("Back")
        assert "Go on with which job?" in words_seen(app)


async def test_a_double_click_answers_one_question(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter")
        await pilot.pause()
        await pilot.click(offset=place_of(app, "Wood"), times=2)
        await pilot.pause()
        assert session.state.env["leaf"] == "wood"
        assert session.state.node.id == "how-wide"


async def test_the_right_button_lights_a_job_and_does_not_open_it(own_home: Path) -> None:
    for door in ("1", "2"):
        begin_back_door(own_home, door=door).close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        home = app.screen
        assert isinstance(home, HomeScreen)
        below = home.shown[1]
        await pilot.click(offset=place_of(app, below.door), button=3)
        await pilot.pause()
        assert home.lit == below
        assert app.screen is home


async def test_the_wheel_over_a_number_steps_it(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "1")
        await pilot.pause()
        assert isinstance(app.screen, RunScreen)
        typed = app.screen.query_one("#typed")
        for up in (True, True, False):
            await wheel(pilot, typed.region.offset, up=up)
        assert app.screen.view.text == "30 in"


async def wheel(pilot: Pilot[int], place: tuple[int, int], *, up: bool) -> None:
    """Turn the wheel by one notch with the pointer at a place."""
    kind = MouseScrollUp if up else MouseScrollDown
    await pilot._post_mouse_events([kind], offset=place, button=0)
    await pilot.pause()


async def test_the_wheel_over_a_long_step_scrolls_it_and_a_click_pages(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(40, 12)) as pilot:
        await pilot.pause()
        leaf = app.screen.query_one("#leaf")
        await wheel(pilot, (10, 4), up=False)
        assert leaf.scroll_y > 0
        before = leaf.scroll_y
        await click(pilot, "more: Space")
        assert leaf.scroll_y > before


async def test_words_of_a_step_can_be_selected_and_copied(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        column, row = place_of(app, "Wedge the leaf")
        await pilot.mouse_down(offset=(column, row))
        await pilot.hover(offset=(column + 14, row))
        await pilot.mouse_up(offset=(column + 14, row))
        await pilot.pause()
        assert (app.screen.get_selected_text() or "").startswith("Wedge the leaf")
        await pilot.press("ctrl+c")
        await pilot.pause()
        assert app.clipboard.startswith("Wedge the leaf")
        assert session.state.ended == ""
