"""The app itself, driven by keys through Textual's own pilot."""

import gc
import resource
from collections.abc import Iterator
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.css.stylesheet import Stylesheet
from textual.events import Key, Paste

from guide.files.library import runs_folder
from guide.files.stored_form import STORED_FORM
from guide.run.bin import bin_folder
from guide.run.carried import offered_again
from guide.run.run_list import list_runs
from guide.run.session import Session
from guide.run.settings import Settings, load_settings, settings_path
from guide.run.store import open_run, read_run
from guide.run.texts import block_words
from guide.screens.app import EVERYDAY
from guide.screens.home_screen import HomeScreen
from guide.screens.pick_screen import PickScreen
from guide.screens.run_screen import RunScreen
from guide.screens.themes import DAY
from tests.run.kept_runs import chained_anew, parsed, tamper
from tests.run.shipped_runs import carried_shipped
from tests.screens.back_door import app_of, begin_back_door
from tests.screens.seen import lines_seen, place_of, resized, seen, words_seen


async def test_a_run_opens_at_its_first_step_and_goes_on_by_keys(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        assert "Wedge the leaf" in seen(app)
        await pilot.press("enter", "enter", "1", "3", "6", "enter")
        await pilot.pause()
        assert "Hold." in seen(app)
        await pilot.press("y", "y", "enter")
        await pilot.pause()
        assert "How long does the leaf take" in seen(app)
        await pilot.press("ctrl+q")
    assert app.return_value == 0
    state, events = read_run(list_runs()[0].path)
    assert events[-1].kind == "paused"
    assert state.cuts[0].done


async def test_every_line_is_filled_to_the_edge_and_none_runs_over(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(61, 17)) as pilot:
        await pilot.press("question_mark")
        assert {cell_len(line) for line in lines_seen(app)} == {61}


async def test_in_a_window_too_small_to_read_no_key_counts(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await resized(app, pilot, 20, 5)
        assert seen(app).startswith("This window is too")
        await pilot.press("enter", "1", "y", "3", "6", "enter")
        app.screen.post_message(Paste("36 in"))
        await pilot.pause()
        assert session.state.seq == 1, "nobody could see what they would have answered"
        await resized(app, pilot, 40, 12)
        assert "Wedge the leaf" in seen(app)
        assert len(lines_seen(app)) == 12


async def test_the_answer_that_is_lit_in_a_long_list_is_in_sight() -> None:
    """Enter would go back to it."""
    found, _ = carried_shipped("seminar-room-continuous")
    assert found.session is not None
    app = app_of(found.session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("s")
        assert "Height under the closer?" not in words_seen(app)
        await pilot.press("up")
        await pilot.pause()
        assert "Height under the closer?" in words_seen(app)
        await pilot.press("down")
        await pilot.pause()
        assert "What kind of leaf?" in words_seen(app)


async def test_in_a_window_too_small_to_read_nothing_is_typed_or_picked(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "1")
        await resized(app, pilot, 20, 5)
        await pilot.press("3", "6")
        await resized(app, pilot, 80, 24)
        assert app.run_view is not None
        assert app.run_view.text == ""


async def test_a_click_on_an_answer_and_on_a_key_does_what_they_say(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter")
        await pilot.pause()
        await pilot.click(offset=place_of(app, "Wood"))
        await pilot.pause()
        assert session.state.env["leaf"] == "wood"
        await pilot.click(offset=place_of(app, "←"))
        await pilot.pause()
        assert "Answered: Wood." in seen(app)


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
        await pilot.press("N")  # with caps lock on
        await pilot.pause()
        await pilot.pause()
        picker = app.screen
        assert isinstance(picker, PickScreen)
        place = [item.value for item in picker.items].index(own / "fit-kick-plate.yaml")
        await pilot.press(*["down"] * place, "enter")
        await pilot.pause()
        await pilot.press(*"Mill", "space", *"7", "enter")
        await pilot.pause()
        assert "An invented closer, to practise with: never drill from it" in seen(app)
        await pilot.press("1")
        await pilot.pause()
        assert "Wedge the leaf" in seen(app)
        assert "Mill 7" in seen(app)


async def test_what_a_search_finds_is_whole_in_the_first_painting_after_it(
    session: Session,
) -> None:
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("slash", *"bakery")
        home = app.screen
        assert isinstance(home, HomeScreen)
        home.fill()
        # Nothing is awaited: the table, which is as large as before, would not be painted a second time.
        assert "Bakery, back door" in seen(app)


async def test_an_unfinished_job_is_gone_on_with_from_the_first_screen(session: Session) -> None:
    session.send(("done", {"at": "wedge"}))
    session.send(("paused", {}))
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "Go on with which job?" in seen(app)
        assert "Bakery, back door" in seen(app)
        await pilot.press("enter")
        await pilot.pause()
        assert "dust sheet" in seen(app)
        await pilot.press("p")
        await pilot.pause()
        assert "The job is paused" in seen(app)


async def test_the_record_of_a_past_job_can_be_read(session: Session) -> None:
    session.send(("ended", {"outcome": "made-safe", "why": "The frame is loose."}))
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert "Made safe" in seen(app)
        await pilot.press("enter")
        await pilot.pause()
        assert "Go on with which job?" in seen(app)


async def test_a_job_is_found_by_its_door(session: Session) -> None:
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("slash", *"crypt")
        await pilot.pause()
        assert "No job has these words." in seen(app)
        await pilot.press("escape", "slash", *"bakery", "enter")
        await pilot.pause()
        assert "Bakery, back door" in seen(app)


async def test_a_job_is_deleted_into_the_bin_and_put_back(session: Session) -> None:
    session.close()
    (path,) = runs_folder().glob("*.run")
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("delete", "n", "escape")
        await pilot.pause()
        assert path.is_file(), "only Y moves it"
        await pilot.press("delete", "y")
        await pilot.pause()
        assert not path.exists()
        await pilot.press("b")
        await pilot.pause()
        assert "Bakery, back door" in seen(app)
        await pilot.press("enter")
        await pilot.pause()
        assert path.is_file()
        await pilot.press("escape", "delete", "y", "b", "e", "y")
        await pilot.pause()
    assert not path.exists()
    assert not list(bin_folder().iterdir())


async def test_a_job_that_is_open_elsewhere_is_not_deleted(session: Session) -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("delete", "y")
        await pilot.pause()
        assert "open in another window" in words_seen(app)
    assert len(list(runs_folder().glob("*.run"))) == 1


async def test_the_opening_of_one_job_is_offered_to_another(session: Session) -> None:
    for draft in (("done", {"at": "wedge"}), ("done", {"at": "sheet-the-floor"})):
        session.send(draft)
    session.send(("answered", {"at": "what-leaf", "value": "steel"}))
    session.send(("answered", {"at": "how-wide", "value": "36 in"}))
    graph = session.state.graph
    assert offered_again(session.state, graph) == {"width": session.state.env["width"]}


async def test_a_run_open_elsewhere_says_so(session: Session) -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert "open in another window" in seen(app)


async def test_a_run_of_another_version_is_named_so_and_left_as_it_is(session: Session) -> None:
    session.close()
    (path,) = runs_folder().glob("*.run")
    header, *lines = parsed(path)
    chained_anew(path, [{**header, "format": STORED_FORM + 1}, *lines])
    before = path.read_bytes()
    app = app_of(None)
    async with app.run_test(size=(120, 24)) as pilot:
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert "was made by a newer version of Hingeside" in " ".join(seen(app).split())
        assert "Y sets it aside" not in seen(app)
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
        await pilot.press("enter")
        await pilot.pause()
        assert "Y sets it aside" in seen(app)
        await pilot.press("y")
        await pilot.pause()
        assert "kept aside" in seen(app)
    assert not path.exists()


async def test_a_run_that_ended_leads_back_to_the_first_screen(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("x", *"rain", "enter", "y")
        assert "Made safe" in seen(app)
        await pilot.press("enter")
        await pilot.pause()
        assert "Go on with which job?" in seen(app)


async def test_the_style_sheet_is_read_once_at_the_start_and_again_for_other_colours(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    reparse = Stylesheet.reparse

    def reads(sheet: Stylesheet) -> None:
        read.append("again")
        reparse(sheet)

    monkeypatch.setattr(Stylesheet, "reparse", reads)
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert read == []
        app.theme = "day"
        await pilot.pause()
        assert read == ["again"]
        assert app.screen.styles.background.hex == (DAY.background or "").upper()


@pytest.fixture
def garbage_as_in_the_app() -> Iterator[None]:
    """Looked for as often as while the app is open."""
    seldom = gc.get_threshold()
    gc.set_threshold(*EVERYDAY)
    yield
    gc.set_threshold(*seldom)


@pytest.mark.usefixtures("garbage_as_in_the_app")
async def test_five_hundred_looks_keep_nothing(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "enter", "left", "right")
        screen = app.screen
        assert isinstance(screen, RunScreen)
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        for number in range(250):
            screen.on_key(Key("left", None))
            screen.on_key(Key("enter", None))
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
        await pilot.pause()
        await pilot.press("pagedown", "pagedown", "y", "y", "enter", "5", "enter", "y")
        await pilot.press(*"Red", "enter", "enter", "y")
        assert session.state.ended == "finished"
        assert {cell_len(line) for line in lines_seen(app)} == {size[0]}


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
        assert "Detail: cards." in seen(app)
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
        assert "Detail: cards. This holds for this run alone" in seen(app)
    assert settings_path().read_text() == 'units = "furlongs"\n'


async def test_the_help_of_the_first_screen_names_its_own_keys() -> None:
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("question_mark")
        shown = seen(app)
        assert "Space  More" in shown
        assert "Open" not in shown.splitlines()[-1]


async def test_a_job_is_listed_with_the_step_it_stands_at_in_words(session: Session) -> None:
    step = block_words(session.state, session.state.at)
    session.close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert step in seen(app)
