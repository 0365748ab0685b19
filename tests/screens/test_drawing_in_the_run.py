"""The opening drawn in its step and over the whole window: which side, which way round, and the leaf swung."""

import subprocess
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from rich.cells import cell_len
from textual.pilot import Pilot

from guide.run.session import Session
from guide.screens.edge import LATCH, Edge
from guide.screens.hingeside_app import HingesideApp
from tests.screens.back_door import Hand, app_of, begin_back_door
from tests.screens.classroom_door import begin_classroom
from tests.screens.seen import lines_seen, resized, seen, words_seen

TO_THE_BODY = ("enter", "enter")
"""The wedge, and all that the schedule says."""
SIZES = ((40, 12), (60, 20), (80, 24), (120, 40), (200, 60))
BOTH = ("left", "right")
STANDS = {"regular": "PULL", "top-jamb": "PUSH", "parallel": "PUSH"}
SHOE = {"regular": "frame head", "top-jamb": "on the leaf", "parallel": "under the soffit"}
Size = tuple[int, int]


class Window:
    """The app at the step that holds the body up."""

    def __init__(self, app: HingesideApp, pilot: Pilot[int], session: Session) -> None:
        self.app, self.pilot, self.session = app, pilot, session

    async def press(self, *keys: str) -> str:
        """Press keys; what is seen then."""
        await self.pilot.press(*keys)
        await self.pilot.pause()
        return seen(self.app)


@asynccontextmanager
async def at_the_body(
    mount: str = "regular", knuckles: str = "right", size: Size = (80, 24)
) -> AsyncIterator[Window]:
    """A classroom's door, the body held up."""
    session = begin_classroom(mount, knuckles)
    app = app_of(session)
    async with app.run_test(size=size) as pilot:
        await pilot.press(*TO_THE_BODY)
        await pilot.pause()
        yield Window(app, pilot, session)
    session.close()


def hand_at_the_body(mount: str = "regular", knuckles: str = "right") -> Hand:
    """The same without a window."""
    hand = Hand(begin_classroom(mount, knuckles))
    hand.press(*TO_THE_BODY)
    return hand


def place(shown: str, words: str) -> int:
    """The column in which words stand."""
    return next(line.index(words) for line in shown.split("\n") if words in line)


@pytest.mark.parametrize("knuckles", BOTH)
@pytest.mark.parametrize("mount", list(STANDS))
async def test_the_step_shows_which_side_which_way_round_and_where_the_shoe_goes(
    mount: str, knuckles: str
) -> None:
    async with at_the_body(mount, knuckles, size=(120, 50)) as window:
        shown = seen(window.app)
        hinges_on_the_left = (knuckles == "left") == (mount == "regular")
        assert f"{STANDS[mount]} SIDE: you stand here" in shown
        assert (place(shown, "butt hinges") < place(shown, "latch")) == hinges_on_the_left
        assert SHOE[mount] in words_seen(window.app)
        side = "left" if hinges_on_the_left else "right"
        assert f"{STANDS[mount].capitalize()} side. The hinges are on your {side}." in shown
        edges = [one.shape for one in window.app.screen.query(Edge)]
        assert edges == (["butts", LATCH] if hinges_on_the_left else [LATCH, "butts"])


@pytest.mark.parametrize("mount", list(STANDS))
async def test_the_key_gives_the_drawing_any_window_and_no_line_runs_over(mount: str) -> None:
    async with at_the_body(mount, "left") as window:
        for size in SIZES if mount == "regular" else SIZES[1:3]:
            await resized(window.app, window.pilot, *size)
            assert "you stand here" in await window.press("g")
            assert f"{STANDS[mount]} SIDE: you stand here" in await window.press("o", "o")
            assert {cell_len(line) for line in lines_seen(window.app)} == {size[0]}
            assert "head of the door" in await window.press("g")
            assert {cell_len(line) for line in lines_seen(window.app)} == {size[0]}
            await window.press("escape")
            assert {cell_len(line) for line in lines_seen(window.app)} == {size[0]}


async def test_a_small_window_keeps_the_words_and_names_the_key() -> None:
    async with at_the_body(size=(40, 12)) as window:
        assert "you stand here" not in seen(window.app)
        assert "G  Draw" in lines_seen(window.app)[-1]
        assert "PULL SIDE: you stand here" in await window.press("g")


async def test_a_wide_window_has_the_drawing_with_the_words_and_what_is_known() -> None:
    async with at_the_body(size=(200, 60)) as window:
        shown = seen(window.app)
        assert "This door" in shown
        assert "PULL SIDE: you stand here" in shown
        assert "Tools: tape, square" in shown
        assert "more: Space" not in shown


def test_the_leaf_is_swung_between_closed_and_the_opening() -> None:
    hand = hand_at_the_body()
    assert "the leaf closed." in hand.press("g")
    assert "open 15 degrees" in hand.press("o")
    assert "open 30 degrees" in hand.press("right")
    assert "open 100 degrees" in hand.press(*["o"] * 9)
    assert "open 90 degrees" in hand.press("i")
    assert "the leaf closed." in hand.press(*["left"] * 9)


async def test_the_frame_stays_where_it_is_while_the_leaf_swings() -> None:
    async with at_the_body("regular", "left") as window:
        await window.press("g")
        lines = (await window.press("o")).split("\n")
        row = next(n for n, line in enumerate(lines) if "⣿" in line or "⣶" in line)
        frame = lines[row][:30]
        for _ in range(5):
            assert (await window.press("o")).split("\n")[row][:30] == frame


async def test_the_key_again_shows_the_holes_and_any_other_closes_it() -> None:
    async with at_the_body() as window:
        assert "head of the door" in await window.press("g", "g")
        assert "you stand here" in await window.press("g")
        assert "Hold the body up" in await window.press("enter")
        assert window.session.state.node.id == "hold-the-body-up"
        await window.press("enter")
        assert window.session.state.node.id == "mark-holes"


async def test_a_step_that_marks_holes_has_them_dimensioned() -> None:
    async with at_the_body("parallel", "left", size=(80, 40)) as window:
        shown = await window.press("enter")
        # The sheet's 9 1/2 in is from the pin centre, which the stop hides here; the hinge edge is 1/16 in nearer.
        assert "body 9 7/16 in" in shown
        assert "shoe 9 7/16 in" in shown


def test_before_the_mount_is_known_the_words_say_what_is_wanted() -> None:
    session = begin_classroom("regular", "left")
    hand = Hand(session)
    assert "Wedge the leaf shut" in hand.look()
    assert "G  Draw" not in hand.look()
    refusal = "This opening cannot be drawn yet: the side the hinges are on and the mount must"
    assert refusal in hand.press("g")
    session.close()


async def test_the_question_for_the_mount_has_a_sketch_beside_each_answer() -> None:
    session = begin_classroom("regular", "left")
    app = app_of(session)
    async with app.run_test(size=(80, 30)) as pilot:
        await pilot.press("enter", "1")
        await pilot.pause()
        assert session.state.node.id == "which-mount"
        assert seen(app).count("███████") == 3
        await pilot.press("down", "down", "g")
        await pilot.pause()
        assert "PUSH SIDE: you stand here" in seen(app)
    session.close()


def test_a_step_without_a_drawing_has_the_plan_behind_the_key() -> None:
    hand = hand_at_the_body()
    hand.press("enter", "enter")
    assert hand.at == "ask-again"
    hand.press("g")
    assert hand.view.desk.drawing is not None


async def test_an_opening_the_sheet_does_not_reach_is_told_in_words() -> None:
    session = begin_classroom("regular", "left", "180 deg")
    app = app_of(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*TO_THE_BODY)
        await pilot.pause()
        assert "you stand here" not in seen(app)
        await pilot.press("g")
        await pilot.pause()
        assert "goes up to" in seen(app)
    session.close()


async def test_the_drawing_keeps_to_ascii_where_the_terminal_does() -> None:
    session = begin_classroom("regular", "right")
    app = app_of(session, ascii=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*TO_THE_BODY)
        assert "PULL SIDE: you stand here" in seen(app)
        for keys in (("g",), ("o", "o"), ("g",)):
            await pilot.press(*keys)
            assert seen(app).isascii()


def test_a_drawing_changes_nothing_in_the_run() -> None:
    hand = hand_at_the_body()
    before = hand.view.session.state.seq
    hand.press("g", "o", "i", "g", "enter")
    assert hand.view.session.state.seq == before


def test_a_run_that_draws_nothing_loads_no_drawings(tmp_path: Path) -> None:
    begin_back_door(tmp_path).close()
    code = (
        "import sys\n"
        "from guide.run.run_list import list_runs\n"
        "from guide.run.store import open_run\n"
        "from guide.screens.run_view import RunView\n"
        "RunView(open_run(list_runs()[0].path)).shown_keys()\n"
        "print([name for name in sys.modules if name.startswith('guide.drawing')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_an_answer_from_the_schedule_names_the_key_that_accepts_it() -> None:
    hand = Hand(begin_classroom("regular", "left"))
    shown = hand.press("enter")
    assert "Enter accepts all of these (the schedule). Another answer changes the first." in shown
    assert "Enter accepts; a number answers otherwise." in shown
    assert "Enter  Accept   1-2  Answer" in shown
    hand.view.session.close()
