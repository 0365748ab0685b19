"""The opening drawn in its step and over the whole window: which side, which way round, and the leaf swung."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from guide.screens.rows import cells

from guide.run.session import Session
from tests.screens.back_door import Hand, app_of, begin_back_door
from tests.screens.classroom_door import begin_classroom
from tests.screens.seen import seen

TO_THE_BODY = ("enter",) * 5
Open = Callable[..., Hand]
BOTH = ("left", "right")
STANDS = {"regular": "PULL", "top-jamb": "PUSH", "parallel": "PUSH"}
SHOE = {"regular": "frame head", "top-jamb": "on the leaf", "parallel": "under the soffit"}


@pytest.fixture
def at_the_body() -> Iterator[Open]:
    """Opens a classroom's run at the step that holds the body up."""
    opened: list[Session] = []

    def begin(
        mount: str = "regular",
        knuckles: str = "right",
        *keys: str,
        width: int = 80,
        height: int = 24,
    ) -> Hand:
        opened.append(begin_classroom(mount, knuckles))
        hand = Hand(opened[-1], width=width, height=height)
        hand.press(*TO_THE_BODY, *keys)
        return hand

    yield begin
    for session in opened:
        session.close()


def place(shown: str, words: str) -> int:
    """The column in which words stand."""
    return next(line.index(words) for line in shown.split("\n") if words in line)


@pytest.mark.parametrize("knuckles", BOTH)
@pytest.mark.parametrize("mount", list(STANDS))
def test_the_step_shows_which_side_which_way_round_and_where_the_shoe_goes(
    at_the_body: Open, mount: str, knuckles: str
) -> None:
    shown = at_the_body(mount, knuckles, width=120, height=50).look()
    hinges_on_the_left = (knuckles == "left") == (mount == "regular")
    assert f"{STANDS[mount]} SIDE: you stand here" in shown
    assert (place(shown, "butt hinges") < place(shown, "latch")) == hinges_on_the_left
    assert SHOE[mount] in shown
    assert "valves" in shown.split("Right when")[0].split("drawing has them")[1]


@pytest.mark.parametrize(("width", "height"), [(40, 12), (60, 20), (80, 24), (120, 40), (200, 60)])
@pytest.mark.parametrize("knuckles", BOTH)
@pytest.mark.parametrize("mount", list(STANDS))
def test_no_line_runs_over_in_any_window(
    at_the_body: Open, mount: str, knuckles: str, width: int, height: int
) -> None:
    hand = at_the_body(mount, knuckles, width=width, height=height)
    for shown in (hand.look(), hand.press("g"), hand.press("o", "o"), hand.press("g")):
        lines = shown.split("\n")
        assert len(lines) == height
        assert all(cells(line) <= width for line in lines)


@pytest.mark.parametrize(("width", "height"), [(40, 12), (80, 24), (140, 40), (200, 60)])
@pytest.mark.parametrize("mount", list(STANDS))
def test_the_key_gives_the_drawing_the_whole_of_any_window(
    at_the_body: Open, mount: str, width: int, height: int
) -> None:
    hand = at_the_body(mount, "left", width=width, height=height)
    for shown in (hand.press("g"), hand.press("o")):
        assert f"{STANDS[mount]} SIDE: you stand here" in shown
    assert "head of the door" in hand.press("g")


def test_a_small_window_keeps_the_words_and_names_the_key(at_the_body: Open) -> None:
    hand = at_the_body(width=40, height=12)
    assert "you stand here" not in hand.look()
    assert "G  Draw" in hand.look().split("\n")[-1]
    assert "PULL SIDE: you stand here" in hand.press("g")


def test_a_wide_window_has_the_drawing_beside_the_words_and_what_is_known(
    at_the_body: Open,
) -> None:
    shown = at_the_body(width=200, height=60).look()
    action = next(line for line in shown.split("\n") if "Hold the body up" in line)
    assert "Known of this opening" in shown
    assert place(shown, "PULL SIDE: you stand here") > len("Hold the body up")
    assert "Tools: tape, square" in shown
    assert "more: Page Down" not in shown
    assert len(action) > 100


def test_the_sentence_of_the_drawing_is_among_the_long_words(at_the_body: Open) -> None:
    shown = at_the_body(width=120, height=50).look()
    assert "the shoe is on the frame head 13 in from the hinge axis" in " ".join(
        line.split("│")[0].strip() for line in shown.split("\n")
    )


def test_the_leaf_is_swung_between_closed_and_the_opening(at_the_body: Open) -> None:
    hand = at_the_body()
    assert "the leaf closed." in hand.press("g")
    assert "open 15 degrees" in hand.press("o")
    assert "open 30 degrees" in hand.press("right")
    assert "open 100 degrees" in hand.press(*["o"] * 9)
    assert "open 90 degrees" in hand.press("i")
    assert "the leaf closed." in hand.press(*["left"] * 9)


def test_the_frame_stays_where_it_is_while_the_leaf_swings(at_the_body: Open) -> None:
    hand = at_the_body("regular", "left", "g", "o")
    frame = hand.look().split("\n")[2][:30]
    assert "⣿" in frame or "⣶" in frame
    for _ in range(5):
        assert hand.press("o").split("\n")[2][:30] == frame


def test_the_key_again_shows_the_holes_and_any_other_closes_it(at_the_body: Open) -> None:
    hand = at_the_body()
    assert "head of the door" in hand.press("g", "g")
    assert "you stand here" in hand.press("g")
    assert "Hold the body up" in hand.press("enter")
    assert hand.at == "hold-the-body-up"
    hand.press("enter")
    assert hand.at == "mark-holes"


def test_a_step_that_marks_holes_has_them_dimensioned(at_the_body: Open) -> None:
    shown = at_the_body("parallel", "left").press("enter")
    # The sheet's 9 1/2 in is from the pin centre, which the stop hides here; the hinge edge is 1/16 in nearer.
    assert "body 9 7/16 in" in shown
    assert "shoe 9 7/16 in" in shown


def test_before_the_mount_is_known_the_words_say_what_is_wanted() -> None:
    session = begin_classroom("regular", "left")
    hand = Hand(session)
    assert "Wedge the leaf shut" in hand.look()
    assert "G  Draw" not in hand.look()
    assert "This opening cannot be drawn yet: the mount" in hand.press("g")
    session.close()


def test_the_question_for_the_mount_draws_the_answer_that_is_marked() -> None:
    session = begin_classroom("regular", "left")
    hand = Hand(session)
    hand.press("enter", "enter")
    assert hand.at == "which-mount"
    assert "you stand here" not in hand.look()
    assert "PULL SIDE: you stand here" in hand.press("down")
    assert "PUSH SIDE: you stand here" in hand.press("down")
    assert "PUSH SIDE: you stand here" in hand.press("g")
    session.close()


def test_a_step_without_a_drawing_has_the_plan_behind_the_key(at_the_body: Open) -> None:
    hand = at_the_body()
    hand.press("enter", "enter")
    assert hand.at == "ask-again"
    assert "PULL SIDE: you stand here" in hand.press("g")


def test_an_opening_the_sheet_does_not_reach_is_told_in_words() -> None:
    session = begin_classroom("regular", "left", "180 deg")
    hand = Hand(session)
    hand.press(*TO_THE_BODY)
    assert "you stand here" not in hand.look()
    assert "goes up to" in hand.press("g")
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


def test_a_drawing_changes_nothing_in_the_run(at_the_body: Open) -> None:
    hand = at_the_body()
    before = hand.view.session.state.seq
    hand.press("g", "o", "i", "g", "enter")
    assert hand.view.session.state.seq == before


def test_a_run_that_draws_nothing_loads_no_drawings(tmp_path: Path) -> None:
    begin_back_door(tmp_path).close()
    code = (
        "import sys\n"
        "from guide.run.catalogue import list_runs\n"
        "from guide.run.store import open_run\n"
        "from guide.screens.run_view import RunView\n"
        "RunView(open_run(list_runs()[0].path)).page(roomy=True)\n"
        "print([name for name in sys.modules if name.startswith('guide.drawing')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
