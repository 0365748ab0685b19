"""The app itself, driven by keys through Textual's own pilot."""

import gc
import resource
from collections.abc import Iterator
from pathlib import Path

import pytest

from guide.files.library import runs_folder
from guide.files.stored_form import STORED_FORM
from guide.run.catalogue import list_runs
from guide.run.session import Session
from guide.run.settings import Settings, load_settings, settings_path
from guide.run.store import open_run, read_run
from guide.run.texts import block_words
from guide.screens.hingeside_app import HingesideApp
from tests.run.kept_runs import chained_anew, parsed, tamper
from tests.screens.back_door import begin_back_door, slow_clock


def app_of(session: Session | None, *, ascii: bool | None = None) -> HingesideApp:  # noqa: A002
    """The app, with a clock that lets every key count."""
    ticks: Iterator[float] = slow_clock()
    return HingesideApp(session, clock=lambda: next(ticks), ascii=ascii)


def screen(app: HingesideApp) -> str:
    """What is on the screen."""
    return "\n".join(line.text for line in app.pane.lines)


def painted(app: HingesideApp) -> str:
    """What the widget really gives the terminal."""
    return "\n".join(app.pane.render_line(y).text for y in range(app.pane.size.height))


async def test_a_run_opens_at_its_first_step_and_goes_on_by_keys(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        assert "Wedge the leaf" in screen(app)
        await pilot.press("enter", "enter", "1", "3", "6", "enter")
        await pilot.pause()
        assert "Hold." in painted(app)
        await pilot.press("y", "y", "enter")
        await pilot.pause()
        assert "How long does the leaf take" in painted(app)
        await pilot.press("ctrl+q")
    assert app.return_value == 0
    state, events = read_run(list_runs()[0].path)
    assert events[-1].kind == "paused"
    assert state.cuts[0].done


async def test_every_line_is_filled_to_the_edge_and_none_runs_over(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(61, 17)) as pilot:
        await pilot.press("question_mark")
        assert {app.pane.render_line(y).cell_length for y in range(17)} == {61}


async def test_a_resized_window_is_fitted_again(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.resize_terminal(20, 5)
        await pilot.pause()
        app.paint()
        assert screen(app).startswith("This window is too")
        await pilot.press("enter", "enter")
        app.pasted("36 in")
        assert session.state.seq == 1, "nobody could see what they would have answered"
        await pilot.resize_terminal(40, 12)
        await pilot.pause()
        app.paint()
        assert "Wedge the leaf" in screen(app)
        assert len(app.pane.lines) == 12


async def test_a_click_on_an_answer_and_on_a_key_does_what_they_say(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter")
        row = next(y for y, line in enumerate(app.pane.lines) if "Wood" in line.text)
        await pilot.click(offset=(20, row))
        assert session.state.env["leaf"] == "wood"
        keys = app.pane.lines[-1]
        column = next(start for start, _, key in keys.keys if key == "left")
        await pilot.click(offset=(column + 1, 23))
        assert "Answered: Wood." in screen(app)


async def test_a_new_job_is_picked_named_and_begun(own_home: Path, tmp_path: Path) -> None:
    own = own_home / "procedures"
    own.mkdir()
    begin_back_door(tmp_path).close()
    (own / "fit-kick-plate.yaml").write_text(
        (tmp_path / "fit-kick-plate.yaml").read_text("utf-8"), "utf-8"
    )
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "New job" in screen(app)
        await pilot.press("1")
        assert app.home is not None
        place = [item.value for item in app.home.menu.items].index(own / "fit-kick-plate.yaml")
        await pilot.press(*["down"] * place, "enter", *"Mill", "space", *"7", "enter", "1")
        await pilot.pause()
        assert "Wedge the leaf" in screen(app)
        assert "Mill 7" in screen(app)


async def test_an_unfinished_job_is_gone_on_with_from_the_first_screen(session: Session) -> None:
    session.send(("done", {"at": "wedge"}))
    session.send(("paused", {}))
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "Go on with Fit a kick plate · Bakery, back door" in screen(app)
        await pilot.press("2")
        await pilot.pause()
        assert "dust sheet" in screen(app)
        await pilot.press("p")
        await pilot.pause()
        assert "The job is paused" in screen(app)


async def test_the_record_of_a_past_job_can_be_read(session: Session) -> None:
    session.send(("ended", {"outcome": "made-safe", "why": "The frame is loose."}))
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("down", "down", "down", "enter", "enter")
        await pilot.pause()
        assert "Made safe" in screen(app)
        await pilot.press("enter")
        assert "Whose record?" in screen(app)
        await pilot.press("left")
        assert "What do you want to do?" in screen(app)


async def test_a_run_open_elsewhere_says_so(session: Session) -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("2")
        await pilot.pause()
        assert "open in another window" in screen(app)


async def test_a_run_of_another_version_is_named_so_and_left_as_it_is(session: Session) -> None:
    session.close()
    (path,) = runs_folder().glob("*.run")
    header, *lines = parsed(path)
    chained_anew(path, [{**header, "format": STORED_FORM + 1}, *lines])
    before = path.read_bytes()
    app = app_of(None)
    async with app.run_test(size=(120, 24)) as pilot:
        await pilot.pause()
        await pilot.press("2", "enter")
        await pilot.pause()
        assert "was made by a newer version of Hingeside" in " ".join(screen(app).split())
        assert "Y sets it aside" not in screen(app)
        await pilot.press("y")
        await pilot.pause()
    assert [one.name for one in path.parent.iterdir()] == [path.name]
    assert path.read_bytes() == before


async def test_a_damaged_run_is_set_aside_on_a_yes(session: Session) -> None:
    session.close()
    path = list_runs()[0].path
    tamper(path, 1, b'"started"', b'"startle"')
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("2", "enter")
        await pilot.pause()
        assert "Y sets it aside" in screen(app)
        await pilot.press("y")
        await pilot.pause()
        assert "kept aside" in screen(app)
    assert not path.exists()


async def test_a_run_that_ended_leads_back_to_the_first_screen(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("x", *"rain", "enter", "y")
        assert "Made safe" in screen(app)
        await pilot.press("enter")
        await pilot.pause()
        assert "What do you want to do?" in screen(app)


async def test_the_collector_is_out_of_the_way_of_keys_and_left_as_it_was(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert not gc.isenabled()
    assert gc.isenabled()


async def test_five_hundred_looks_keep_nothing(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "left", "right")
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        for number in range(250):
            app.pressed("left", None)
            app.pressed("enter", None)
            if number % 25 == 0:
                await pilot.pause()
        grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    assert grown < 16 * 1024, f"{grown} kB more after 500 keys"


@pytest.mark.parametrize("size", [(40, 12), (80, 24), (200, 60)])
async def test_a_run_can_be_carried_to_its_end_at_every_size(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    session = begin_back_door(tmp_path)
    app = app_of(session)
    async with app.run_test(size=size) as pilot:
        await pilot.press("enter", "enter", "1", "3", "6", "enter")
        await pilot.press("pagedown", "pagedown", "y", "y", "enter", "5", "enter", "y")
        await pilot.press(*"Red", "enter", "enter", "y")
        assert session.state.ended == "finished"
        assert {app.pane.render_line(y).cell_length for y in range(size[1])} == {size[0]}


async def test_a_kill_leaves_a_run_that_can_be_gone_on_with(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "1")
        path = session.journal.path  # type: ignore[attr-defined]
        session.journal.close()
        again = open_run(path)
        assert again.state.env["leaf"] == "steel"
        again.close()
        assert app.run_view is not None
        app.run_view.session.state.paused = True


async def test_how_much_is_told_is_kept_for_the_next_run(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("d")
        assert "Detail: cards." in screen(app)
        assert load_settings() == Settings(detail="cards")
        await pilot.press("d")
    assert load_settings() == Settings(detail="spoken")
    assert app.settings.detail == "spoken"  # for the next run of this call too


async def test_a_detail_that_cannot_be_kept_holds_for_this_run_and_says_so(
    session: Session,
) -> None:
    app = app_of(session)
    settings_path().write_text('units = "furlongs"\n')
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("d")
        assert "Detail: cards. This holds for this run alone" in screen(app)
    assert settings_path().read_text() == 'units = "furlongs"\n'


async def test_the_help_of_the_first_screen_names_its_own_keys() -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("question_mark")
        shown = screen(app)
        assert "PgDn  More" in shown
        assert "Open" not in shown.splitlines()[-1]


async def test_a_job_is_listed_with_the_step_it_stands_at_in_words(session: Session) -> None:
    step = block_words(session.state, session.state.at)
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert f"at “{step}”" in screen(app)
