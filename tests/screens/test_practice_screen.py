"""A practice door on the screen: by keys from the first look to the debrief, the leaf moving on the plan."""

from collections.abc import Callable
from pathlib import Path

import pytest
from rich.cells import cell_len

from guide.drawing.plot import text_plot
from guide.practice.practice import Practice
from guide.practice.score import Score
from guide.procedure.practice_file import find_practice, load_practice
from guide.run.practice_results import best_of, results
from guide.run.practice_results import keep as keep_result
from guide.screens import practice_words as words
from guide.screens.answers import numbered
from guide.screens.hingeside_app import HingesideApp
from guide.screens.practice_view import PracticeView
from tests.screens.back_door import joined
from tests.screens.seen import lines_seen, place_of, seen, words_seen
from tests.screens.test_stopwatch import Clock


def door(name: str) -> Practice:
    """A practice door by its name."""
    return Practice(load_practice(find_practice(name)))


class Apprentice:
    """Presses keys at a practice door and reads what the window shows."""

    def __init__(
        self,
        name: str,
        *,
        keep: Callable[[Practice, Score], str] | None = None,
    ) -> None:
        self.clock = Clock()
        self.practice = Practice(load_practice(find_practice(name)))
        self.view = PracticeView(self.practice, self.clock, keep)

    def look(self) -> str:
        """What the screen is told to show, the picture in a card of 60 columns."""
        view = self.view
        view.settle()
        read, view.reading = view.reading, []
        if read:
            told = joined(read)
        else:
            picture = view.picture
            drawn = (
                picture.drawing_in(60, 14, ascii_only=False).lines if picture is not None else ()
            )
            listed = numbered([item.text for item in view.menu.items])
            menu = [view.menu.title, *(f"{one.key} {one.text}" for one in listed)]
            told = "\n".join(
                [*([view.heading] if view.heading else [*view.said, *menu]), view.way, *drawn]
            )
        keys = "   ".join(f"{one.shown}  {one.word}" for one in view.shown_keys())
        return "\n".join([told, words.so_far(view.practice), view.message, keys])

    def press(self, *keys: str, after: float = 2.0) -> str:
        for key in keys:
            self.clock.now += after
            self.view.press(key, key if len(key) == 1 else None)
        return self.look()

    def time_a_swing(self, start: str) -> str:
        """Let it go from the numbered place, and press the watch at the mark and when it is shut."""
        self.press("1", start, "t")
        closing = self.practice.swings[-1].closing
        assert closing.s_90_12 is not None
        assert closing.s_12_0 is not None
        if self.practice.swings[-1].start > 12:
            self.press("t", after=closing.s_90_12)
        return self.press("t", after=closing.s_12_0 + 0.01)


def test_the_leaf_moves_on_the_plan_in_the_swings_own_time() -> None:
    hand = Apprentice("lending-library")
    hand.press("1", "2", "enter")
    assert hand.view.ticking
    pictures = []
    for _ in range(4):
        pictures.append(hand.look())
        hand.clock.now += 1.0
    assert len(set(pictures)) == 4
    places = [next(line for line in shown.split("\n") if "shut ├" in line) for shown in pictures]
    columns = [place.index("●") for place in places]
    assert columns == sorted(columns, reverse=True)
    hand.clock.now += 10
    assert "It comes home and latches." in hand.look()
    assert not hand.view.ticking


def test_the_true_times_are_not_shown_before_the_debrief() -> None:
    hand = Apprentice("lending-library")
    hand.press("1", "2", "enter")
    hand.clock.now += 20
    shown = hand.look() + hand.press("s")
    assert "3.8 s" not in shown
    hand.press("enter", "8")
    assert "3.8 s" in hand.press("1")


def test_the_watch_takes_both_parts_of_a_swing() -> None:
    hand = Apprentice("lending-library")
    assert "Your watch: 3.8 s to the mark, 1.5 s to shut." in hand.time_a_swing("2")
    assert hand.practice.swings[0].read == pytest.approx((3.83, 1.51), abs=0.01)


def test_a_swing_from_ten_degrees_has_one_time() -> None:
    hand = Apprentice("lending-library")
    assert "to shut." in hand.time_a_swing("4")
    assert len(hand.practice.swings[0].read) == 1


def test_a_swing_that_stops_short_ends_with_enter_and_keeps_its_first_part() -> None:
    hand = Apprentice("harbour-office")
    hand.press("1", "2", "t")
    hand.press("t", after=5.6)
    assert "It stops short" in hand.press("x", after=10)
    hand.press("enter")
    assert hand.practice.swings[0].read == pytest.approx((5.6,))


def test_a_swing_without_the_watch_says_how_to_get_its_times() -> None:
    hand = Apprentice("lending-library")
    assert "T lets it go and times it; Enter does not time it." in hand.press("1", "2")
    hand.press("enter")
    assert "Not timed. A, then T: the same swing with the watch." in hand.press("x", after=20)
    hand.press("a", "t")
    assert "Not timed" not in hand.press("t", after=3.8)


def test_a_swing_can_be_skipped_and_then_has_no_time() -> None:
    hand = Apprentice("print-shop")
    hand.press("1", "2", "t")
    shown = hand.press("f")
    assert "Skipped: not timed." in shown
    assert "It stands and waits" in shown
    assert hand.practice.swings[0].read == ()


def test_a_held_watch_key_counts_once() -> None:
    hand = Apprentice("lending-library")
    hand.press("1", "2", "t")
    for _ in range(30):
        hand.press("t", after=0.03)
    assert hand.view.watch.parts_left == 2


def test_a_hand_on_the_leaf_keeps_it_from_slamming() -> None:
    hand = Apprentice("choir-room")
    assert "a hand on the leaf" in hand.press("1", "2", "h")
    hand.press("enter")
    assert "Your hand takes the blow" in hand.press("x", after=20)
    assert not hand.practice.swings[0].slammed


def test_the_choir_room_is_tuned_from_the_first_look_to_the_debrief() -> None:
    """What the adviser would do, by keys: a hand first, quarter turns, and every place seen at the end."""
    kept: list[int] = []

    def keep(practice: Practice, score: Score) -> str:
        kept.append(score.points)
        return ""

    hand = Apprentice("choir-room", keep=keep)
    assert "It slams, and the whole choir looks up." in hand.look()
    assert "The body is dry." in hand.press("3", "1")
    for screw, step in (("2", "2"), ("2", "2"), ("1", "2")):
        hand.press("2", screw, step)
    assert hand.practice.settings["latch"] == 3.0
    assert hand.practice.settings["sweep"] == 1.25
    hand.press("1", "2", "h", "enter")
    assert "latches" in hand.press("x", after=20)
    hand.press("enter")
    for start in ("2", "3", "4"):
        hand.time_a_swing(start)
        hand.press("enter")
    shown = hand.press("8", "1")
    assert "As an experienced fitter does it" in shown
    assert "Right: the door as it is left (all within limits)" in shown
    assert "Not yet" not in shown
    assert " of 100" not in shown
    assert kept == [100]
    assert "What an experienced fitter would have done" in shown
    assert hand.view.leaving


def test_a_cause_is_found_put_right_and_the_door_put_right() -> None:
    hand = Apprentice("pottery")
    assert "lip of the strike" in hand.press("3", "2")
    assert "set back flush" in hand.press("7", "4")
    assert "lbf" in hand.press("4")
    assert hand.practice.faults == []


def test_a_push_is_seen_on_the_plan_and_felt() -> None:
    hand = Apprentice("dance-school")
    assert "Pushed briskly open." in hand.press("5")
    assert hand.view.ticking
    pushed = hand.view.leaf.movement
    assert pushed is not None
    hand.clock.now += pushed.seconds / 2
    assert 0 < hand.view.angle < 110
    assert "Skip" in hand.look()
    hand.clock.now += pushed.seconds
    assert "BANGS into its stop" in hand.look()
    assert hand.view.angle == 110
    assert not hand.view.ticking
    assert "Next at this door" in hand.press("enter")
    hand.press("2", "3", "1")
    assert "Pushed briskly open." in hand.press("5")
    assert "Again" in hand.press("f")
    assert len([act for act in hand.practice.acts if act.did.startswith("Pushed")]) == 2


def test_what_was_done_so_far_stands_in_the_bar() -> None:
    hand = Apprentice("lending-library")
    assert "So far: nothing done." in hand.look()
    hand.press("2", "1", "1")
    for _ in range(3):
        hand.press("1", "2", "enter")
        hand.clock.now += 20
        shown = hand.press("enter")
    assert "So far: let go 3 times, screws turned once, 1 min." in shown


def test_what_cannot_be_turned_is_told_in_a_sentence() -> None:
    hand = Apprentice("eye-clinic")
    shown = hand.press("2")
    assert "Delayed action" not in shown
    assert "Spring screw" in shown


def test_a_door_is_left_only_after_a_yes() -> None:
    hand = Apprentice("pottery")
    assert "Y leaves this door" in hand.press("left")
    hand.press("n")
    hand.press("y")
    assert not hand.view.leaving
    hand.press("left", "y")
    assert hand.view.leaving


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_the_watch_and_the_leaf_are_in_sight_while_it_moves(size: tuple[int, int]) -> None:
    clock = Clock()
    app = HingesideApp(practice=door("sound-studio"), clock=clock)
    async with app.run_test(size=size) as pilot:
        for key in ("1", "2", "t"):
            clock.now += 2
            await pilot.press(key)
        clock.now += 3
        await pilot.pause(0.2)
        shown = lines_seen(app)
        assert any("shut ├" in line for line in shown)
        assert sum(bool(set(line) & set("█▀▄")) for line in shown) >= 3
        assert {cell_len(line) for line in shown} == {size[0]}


async def test_nothing_but_ascii_where_there_is_no_more() -> None:
    clock = Clock()
    app = HingesideApp(practice=door("lending-library"), clock=clock, ascii=True)
    async with app.run_test(size=(80, 24)) as pilot:
        for key in ("1", "2", "t", "f", "s"):
            clock.now += 2
            await pilot.press(key)
            await pilot.pause()
            assert seen(app).isascii()
        await pilot.press("enter")
        await pilot.pause()
        assert "shut +*--" in seen(app)


async def test_a_practice_door_is_opened_from_the_first_screen_and_left_again() -> None:
    clock = Clock()
    app = HingesideApp(None, clock=clock)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()

        async def press(*keys: str) -> str:
            for key in keys:
                clock.now += 2
                await pilot.press(key)
                await pilot.pause()
            return words_seen(app)

        assert "P Practise" in words_seen(app)
        assert "Lending library, reading room" in await press("p")
        assert "The door bangs about" in await press("1")  # as `hingeside practice 1`
        assert "The leaf is held at 90 degrees" in await press("1", "2")
        await press("t")
        clock.now += 3
        await pilot.pause(0.2)
        assert "██" in seen(app)
        clock.now += 20
        await pilot.pause(0.2)
        assert "latches" in seen(app)
        assert "Not yet: the door as it is left" in await press("enter", "8", "1")
        assert "Begin with N" in await press("enter")


async def test_readings_stay_in_sight_beside_the_menu() -> None:
    app = HingesideApp(practice=door("lending-library"), clock=Clock())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("4")
        await pilot.pause()
        assert "8.0 lbf opened it" in seen(app)


def test_a_key_that_is_no_number_of_the_menu_says_which_are() -> None:
    assert "Pick by a number, 1 to 8." in Apprentice("pottery").press("9")


async def test_the_menu_can_be_clicked() -> None:
    clock = Clock()
    app = HingesideApp(practice=door("pottery"), clock=clock)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.click(offset=place_of(app, "Inspect"))
        await pilot.pause()
        assert "Inspect what?" in seen(app)


def test_the_best_result_stands_beside_the_door() -> None:
    hand = Apprentice("choir-room", keep=keep_result)
    hand.press("8", "1")
    assert best_of() == {"choir-room": f"best so far: {results()[0]['points']} points"}


async def test_the_list_of_doors_shows_what_was_reached_and_writes_the_results(
    own_home: Path,
) -> None:
    hand = Apprentice("choir-room", keep=keep_result)
    hand.press("8", "1")
    app = HingesideApp(clock=Clock())
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.pause()
        await pilot.press("p")
        await pilot.pause()
        assert f"best so far: {results()[0]['points']} points" in words_seen(app)
        await pilot.press("r")
        await pilot.pause()
        written = own_home / "papers" / "practice-results.csv"
        assert "1 result: " in words_seen(app)
    assert "choir-room,right" in written.read_text("utf-8-sig")


def test_the_debrief_draws_the_swing_and_tells_it() -> None:
    hand = Apprentice("choir-room", keep=keep_result)
    assert hand.view.plot is None
    hand.practice.swing(90.0)
    hand.press("8", "1")
    plot = hand.view.plot
    assert plot is not None
    assert plot.says.startswith("Swing 1 from 90 degrees: at the mark after ")
    assert plot.curves[0].points[0] == (0.0, 90.0)
    assert text_plot(plot, 60, 12)
