"""Ten screens as a person sees them, by night and by day, in a usual window and in the smallest."""

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.widgets import Input

from guide.checker.graph_cache import graph_of
from guide.files.library import find, user_folder
from guide.practice.practice import Practice
from guide.procedure.practice_file import find_practice, load_practice
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.store import begin_run
from guide.screens import handbook_screen
from guide.screens.hingeside_app import HingesideApp
from guide.screens.themes import DAY, NIGHT
from tests.run.stands import standing_at
from tests.screens.back_door import begin_back_door
from tests.screens.seen import resized
from tests.screens.snapshot import compare

USUAL, SMALLEST = (80, 24), (40, 12)


def still() -> float:
    """A clock that stands: nothing on the screen moves."""
    return 0.0


def app_on(session: Session | None = None, practice: Practice | None = None) -> HingesideApp:
    return HingesideApp(
        session, Settings(theme=NIGHT.name), ascii=False, clock=still, practice=practice
    )


def first_screen() -> HingesideApp:
    """Two jobs on this device, one of them paused at its first question."""
    closer = begin_run(
        graph_of(find("procedure", "fit-surface-closer")),
        units="inch",
        about={"door": "14, clinic"},
    )
    closer.close()
    begin_back_door(user_folder()).close()
    return app_on()


def at(name: str, block: str) -> Callable[[], HingesideApp]:
    return lambda: app_on(standing_at(name, block))


def practice() -> HingesideApp:
    return app_on(practice=Practice(load_practice(find_practice("1"))))


SCREENS: dict[str, tuple[Callable[[], HingesideApp], tuple[str, ...]]] = {
    "home": (first_screen, ()),
    "question": (at("cloakroom-prepared", "mount/which-mount"), ("down",)),
    "number": (at("cloakroom-prepared", "mount/how-wide"), ()),
    "hold": (at("demo", "holes/before-drilling-numbers"), ()),
    "cut": (at("demo", "holes/drill-pilot-leaf"), ()),
    "tune": (at("adjust-dead-sweep", "tune/sweep-now#3"), ()),
    "practice": (practice, ("1", "2")),
    "handbook": (app_on, ("h",)),
    "end": (at("demo", "done"), ()),
    "safe": (at("demo", "tune/first-swing"), ("x", *"It grows dark.".replace(" ", "_"), "enter")),
}
"""Each screen, and the keys that lead to it."""
PAGES = {"a-job": "A job, from the first screen to the record", "safety": "Safety and limits"}
PAGE = """# A job, from the first screen to the record

Start `hingeside` and press N. Choose the procedure, name the door, and choose the closer's sheet.

- Read the line in bold. It is the one thing to do or to answer.
- Press the number of an answer, or type a measure as your tape has it: `35 7/8`, `900 mm`.

Enter says that a step is done. It never passes a hold, and it never ends a job.
"""


@pytest.mark.parametrize("name", SCREENS)
async def test_a_screen_looks_as_it_did(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The look of the handbook is compared, not its pages.
    monkeypatch.setattr(handbook_screen, "page_names", lambda subject: tuple(PAGES))
    monkeypatch.setattr(handbook_screen, "page_title", lambda subject, page: PAGES[page])
    monkeypatch.setattr(handbook_screen, "page_text", lambda subject, page: PAGE)
    opens, keys = SCREENS[name]
    app = opens()
    async with app.run_test(size=USUAL) as pilot:
        await pilot.pause()
        await pilot.press(*(key.replace("_", "space") for key in keys))
        await pilot.pause(0.1)
        for line in app.screen.query(Input):
            line.cursor_blink = False
        for columns, rows in (USUAL, SMALLEST):
            if (columns, rows) != app.size:
                await resized(app, pilot, columns, rows)
            for theme in (NIGHT, DAY):
                app.theme = theme.name
                await pilot.pause()
                compare(app, f"{name}-{theme.name}-{columns}x{rows}", tmp_path)
