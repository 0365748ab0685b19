"""A key that is held down is not a key that is pressed again."""

from guide.run.session import Session
from guide.screens.held import DELIBERATE, REPEAT, HeldKeys
from guide.screens.hingeside_app import HingesideApp
from guide.screens.home_screen import HomeScreen
from guide.screens.run_view import RunView
from tests.screens.back_door import Hand
from tests.screens.seen import seen


class Watch:
    """A clock that is set by hand, in seconds."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


def test_a_held_enter_passes_one_step_only(session: Session) -> None:
    watch = Watch()
    view = RunView(session, clock=watch)
    for _ in range(30):
        view.press("enter", None)
        watch.now += 0.033
    assert session.state.route() == ["wedge"]
    watch.now += REPEAT
    view.press("enter", None)
    assert session.state.route() == ["wedge", "sheet-the-floor"]


def test_the_yes_of_a_hold_does_not_begin_the_cut_behind_it(session: Session) -> None:
    watch = Watch()
    view = RunView(session, clock=watch)
    for key in ("enter", "enter", "1"):
        watch.now += 2
        view.press(key, key if len(key) == 1 else None)
    view.write("36")
    view.press("enter", None)
    view.press("y", "y")
    assert view.desk.shown.at == "drill"
    watch.now += 0.6
    view.press("y", "y")
    assert session.state.cuts == []
    assert "Read it first" in view.message
    watch.now += DELIBERATE
    view.press("y", "y")
    assert len(session.state.cuts) == 1


def test_two_different_keys_do_not_hinder_each_other() -> None:
    watch = Watch()
    held = HeldKeys(watch)
    assert not held.again("enter")
    assert not held.again("y")
    assert held.again("enter")


def test_slow_presses_all_count(hand: Hand) -> None:
    hand.press("enter", "enter")
    assert hand.at == "what-leaf"


async def test_the_key_that_paused_a_job_does_not_begin_a_practice_door(session: Session) -> None:
    app = HingesideApp(session, clock=Watch())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("p")
        await pilot.pause()
        await pilot.press("p")
        await pilot.pause()
        assert isinstance(app.screen, HomeScreen)
        assert "Enter continues it" in seen(app)


def test_an_enter_after_something_was_typed_is_not_held() -> None:
    watch = Watch()
    held = HeldKeys(watch)
    assert not held.again("enter")
    held.let_go("enter")
    assert not held.again("enter")


def test_a_note_that_is_pasted_at_once_is_entered(session: Session) -> None:
    watch = Watch()
    view = RunView(session, clock=watch)
    view.press("enter", None)
    view.press("m", "m")
    view.write("Old holes in the rail")
    view.press("enter", None)
    assert view.message == "Noted."
