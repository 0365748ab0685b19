"""A mark is measured blind in the app: the number wanted is nowhere on the screen, whatever is opened, nor said."""

from collections.abc import Iterator

import pytest
from textual.pilot import Pilot

from guide.run import replies
from guide.run.session import Session
from guide.run.state import label
from guide.screens.hingeside_app import HingesideApp
from tests.run.cinema_marks import (
    MARKED,
    MEASURED,
    NUMBERS,
    READ,
    TO_MEASURING,
    at,
    begin_cinema,
    tells,
)
from tests.run.small_procedures import give
from tests.screens.back_door import app_of
from tests.screens.seen import seen
from tests.screens.test_voice_in_app import fitter

OPENED = ("s", "question_mark", "g", "w", "d", "up", "down", "pagedown", "pageup")
"""What may be opened or pressed at a question of a measure: known, help, drawing, why, detail, steps, paging."""
SIZES = [((80, 24), 2), ((40, 12), 1)]
"""Windows, and how many of the measurings are looked at there."""


@pytest.fixture
def session() -> Iterator[Session]:
    """The cinema's door, marked, and the first mark to be measured."""
    begun = begin_cinema()
    give(begun, *TO_MEASURING)
    yield begun
    begun.close()


async def opened(app: HingesideApp, pilot: Pilot[int], key: str) -> str:
    """What the terminal shows once a key was pressed; the key that closes it again is pressed after."""
    await pilot.press(key)
    await pilot.pause()
    shown = seen(app)
    await pilot.press("escape")
    await pilot.pause()
    return shown


@pytest.mark.parametrize(("size", "looks"), SIZES)
async def test_the_number_wanted_is_nowhere_on_the_screen(
    session: Session, size: tuple[int, int], looks: int
) -> None:
    app = app_of(session)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        for number, read in enumerate(READ):
            assert at(session.state) in MEASURED
            shown = [seen(app)]
            shown += [await opened(app, pilot, key) for key in OPENED if number < looks]
            assert not [line for one in shown for line in one.split("\n") if tells(line)]
            await pilot.press(*(_KEYS.get(sign, sign) for sign in read), "enter")
            await pilot.pause()
        assert at(session.state) == "marks-checked"
        await pilot.press("s")
        await pilot.pause()
        assert tells(seen(app)) or size == (40, 12), "they come back once all is measured"


_KEYS = {" ": "space", "/": "slash"}


async def test_what_is_known_names_what_is_hidden_and_shows_it_after(session: Session) -> None:
    app = app_of(session)
    async with app.run_test(size=(120, 50)) as pilot:
        await pilot.pause()
        await pilot.press("s")
        await pilot.pause()
        assert seen(app).count("hidden") == 8, "four values, and the four steps that marked them"
        await pilot.press("enter", "left")
        await pilot.pause()
        assert "13 in along" in seen(app), "looking back is allowed"
        await pilot.press("right")
        await pilot.pause()
        assert not tells(seen(app))


async def test_a_mount_that_is_changed_makes_marks_and_measurings_due_again(
    session: Session,
) -> None:
    give(session, *NUMBERS)
    mount = next(
        one for one in session.state.path if label(session.state.graph, one) == "which-mount"
    )
    session.send(replies.answer(session.state, "parallel", mount))
    app = app_of(session)
    due = []
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        for read in ("", "", *READ):
            due.append(at(session.state))
            assert not (due[-1] in MEASURED and tells(seen(app)))
            await pilot.press(*(_KEYS.get(sign, sign) for sign in read), "enter")
            await pilot.pause()
    assert due == [*MARKED, *MEASURED]


async def test_nothing_that_is_said_gives_it_away(session: Session) -> None:
    async with fitter(session) as here:
        await here.says("repeat", "why", "status")
        assert len(here.voice.said) >= 4
        assert not tells(" ".join(here.voice.said))
        assert not tells(here.screen)


async def test_by_voice_too_the_marks_are_due_again_with_another_mount(session: Session) -> None:
    give(session, *NUMBERS)
    async with fitter(session) as here:
        assert "How is the closer mounted?" in await here.press("s", "down", "down", "enter")
        await here.press("c")
        await here.says("parallel arm", "yes")
        assert at(session.state) == MARKED[0]
        await here.says("next", "next")
        assert at(session.state) == MEASURED[0]
        assert not tells(here.voice.said[-1])
