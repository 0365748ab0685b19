"""Pages that are looked up in a job: a key shows them in place of the step, and the next key closes them."""

import pytest

from guide.screens.run_screen import RunScreen
from guide.screens.words_shown import Words
from tests.run.stands import standing_at
from tests.screens.back_door import app_of
from tests.screens.seen import lines_seen, words_seen


async def test_each_page_opens_by_its_key_and_closes_by_the_next() -> None:
    app = app_of(standing_at("demo", "holes/hold-it-up"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, RunScreen)
        before = app.screen.view.session.state
        for key, told in (
            ("h", "Words of the trade in this step"),
            ("b", "Tools and parts for what is left"),
            ("e", "The sheet generic-a"),
            ("f", "The tests so far"),
        ):
            await pilot.press(key)
            await pilot.pause()
            assert told in words_seen(app)
            await pilot.press("enter")
            await pilot.pause()
            assert told not in words_seen(app)
        assert app.screen.view.session.state is before


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_a_plot_of_the_tests_is_drawn_beside_what_is_timed_where_there_is_room(
    size: tuple[int, int],
) -> None:
    app = app_of(standing_at("adjust-office-door", "tune/sweep-now#3"))
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        assert ("2: 4.7" in words_seen(app)) == (size[0] >= 80)
        await pilot.press("f")
        await pilot.pause()
        assert "The tests so far" in words_seen(app)
        if size[1] < 24:
            await pilot.press("space")
            await pilot.pause()
        assert "2: 4.7" in words_seen(app)
        assert all(len(line) == size[0] for line in lines_seen(app))


async def test_minutes_left_stand_in_the_top_bar_of_every_window() -> None:
    for size in ((40, 12), (60, 20), (80, 24), (120, 40)):
        app = app_of(standing_at("demo", "holes/hold-it-up"))
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            assert "+ min" in lines_seen(app)[0]


async def test_one_line_is_enough_for_the_hint_of_a_narrow_window() -> None:
    for block in ("holes/wedge-the-leaf", "mount/which-mount", "holes/drill-pilot-leaf"):
        app = app_of(standing_at("demo", block))
        async with app.run_test(size=(40, 12)) as pilot:
            await pilot.pause()
            assert app.screen.query_one("#foot").size.height == 1


async def test_what_must_be_safe_is_a_list_with_one_yes_below() -> None:
    app = app_of(standing_at("demo", "tune/first-swing"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("x", *"dark", "enter")
        await pilot.pause()
        lines = app.screen.query_one("#ask", Words).text.splitlines()
        assert lines[0] == "Is it safe now?"
        assert lines[1].startswith("- The leaf: wedged or locked")
        assert lines[-1] == "Press Y if all of it is safe, N to go on with the job."
        await pilot.press("n")
        await pilot.pause()
        assert isinstance(app.screen, RunScreen)
        assert app.screen.view.session.state.ended == ""
