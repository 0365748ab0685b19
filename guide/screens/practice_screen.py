"""A practice door on the screen: the leaf moves at a steady scale, ten times a second."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.events import Key, Resize
from textual.screen import Screen
from textual.widgets import OptionList

from guide.run.practice_results import keep
from guide.screens import practice_words as words
from guide.screens.answers import Answers, numbered
from guide.screens.host import Host, host
from guide.screens.key_bar import KeyBar
from guide.screens.picture_panel import PicturePanel
from guide.screens.practice_view import DEBRIEF, HELD, HELP, MOVING, STOOD, PracticeView
from guide.screens.step_words import plot_rows
from guide.screens.watch_panel import WatchPanel
from guide.screens.window import COPY, TOO_SMALL, too_small
from guide.screens.words_shown import Piece, Words

if TYPE_CHECKING:
    from guide.practice.practice import Practice

FRAME = 0.1
"""Seconds between two pictures of a leaf that moves."""
_PANEL_FROM = 80
_PLOT_COLUMNS = 66
HEADING = "Practice on a model door"


class PracticeScreen(Screen[None]):
    """Renders a practice door and sends it what the apprentice did."""

    AUTO_FOCUS = ""

    def __init__(self, view: PracticeView) -> None:
        super().__init__()
        self.view = view

    @staticmethod
    def of(practice: "Practice", clock: Callable[[], float]) -> "PracticeScreen":
        """The screen of a door; its result is kept."""
        return PracticeScreen(PracticeView(practice, clock, keep))

    @property
    def _hingeside(self) -> Host:
        return host(self.app)

    def compose(self) -> ComposeResult:
        """Every widget that any stage needs."""
        yield Words(id="too-small")
        with Horizontal(id="top"):
            yield Words(HEADING, classes="name")
            yield Words(classes="stage", id="corner")
        with Horizontal(id="page"):
            with VerticalScroll(id="leaf", can_focus=False):
                yield Words(classes="ask", id="ask")
                yield Words(classes="text", id="said")
                yield Words(classes="text", id="way")
                yield WatchPanel(id="watch")
                yield Answers(id="answers")
                yield PicturePanel(classes="picture", id="picture")
                yield Words(classes="text", id="over")
            yield Words(id="door")
        yield Words(id="page-message")
        yield KeyBar()

    def on_mount(self) -> None:
        """Show the door, and the leaf while it moves."""
        self.set_interval(FRAME, self._frame)
        self.show()

    def _frame(self) -> None:
        if self.view.ticking:
            self.show()

    def on_resize(self, event: Resize) -> None:
        """Fit the drawing to the window."""
        self.call_after_refresh(self.show)

    def on_key(self, event: Key) -> None:
        """Hand a key to the door, unless it copies what is selected."""
        if event.key in COPY:
            return
        event.stop()
        event.prevent_default()
        if too_small(*self.app.size):
            return  # nobody can see what it would do
        if not self.view.press(event.key, event.character):
            leaf = self.query_one("#leaf", VerticalScroll)
            if event.key in ("pagedown", "space"):
                leaf.scroll_page_down(animate=False)
            elif event.key == "pageup":
                leaf.scroll_page_up(animate=False)
            else:
                leaf.scroll_relative(y=1 if event.key == "down" else -1, animate=False)
        self._follow()

    @on(OptionList.OptionSelected, "#answers")
    def _picked(self, event: OptionList.OptionSelected) -> None:
        if not too_small(*self.app.size):
            self.view.pick(event.option_index)
            self._follow()

    def _follow(self) -> None:
        if self.view.leaving:
            self._hingeside.open_home()
        else:
            self.show()

    def show(self) -> None:
        """Show the view as it is."""
        if not self.is_mounted:
            return
        view = self.view
        view.settle()
        width, height = self.app.size
        self._words("too-small").tell(TOO_SMALL if too_small(width, height) else "")
        reading = bool(view.over) or view.stage == DEBRIEF
        heading = "" if reading else view.heading
        self._words("corner").tell(words.so_far(view.practice))
        at_menu = not heading and not reading
        self._words("ask").tell((heading or view.menu.title, "bold") if not reading else "")
        self._words("said").tell("\n".join(view.said) if at_menu else "")
        self._words("way").tell(view.way if not reading else "")
        watch = self.query_one(WatchPanel)
        if view.watch.running and not reading:
            watch.show(view.watch, words.WATCHED)
        else:
            watch.hide()
        items = [item.text for item in view.menu.items] if at_menu else []
        self.query_one(Answers).show(numbered(items), view.menu.picked if items else -1)
        self._show_picture(width, height, len(items))
        if view.over:
            told = (
                words.help_on_practice() if view.over == HELP else words.done_so_far(view.practice)
            )
            self._words("over").tell(*told)
        else:
            self._words("over").tell(*self._debrief(width) if view.stage == DEBRIEF else [])
        panel = self.query_one("#door", Words)
        panel.tell(*words.beside(view.practice))
        panel.display = width >= _PANEL_FROM and not reading
        hint = view.message or view.hint()
        self._words("page-message").tell(hint)
        self.query_one(KeyBar).show(view.shown_keys())

    def _debrief(self, width: int) -> list[Piece]:
        """How the leaf swung, drawn and told, before the rest."""
        plot = self.view.plot
        if plot is None:
            return self.view.debrief
        rows = plot_rows(plot, min(_PLOT_COLUMNS, width - 8), ascii_only=self._hingeside.ascii)
        drawn: list[Piece] = [("\n".join(rows), "$primary"), "\n"] if rows else []
        return [*self.view.debrief, *drawn, f"{plot.says}\n"]

    def _show_picture(self, width: int, height: int, listed: int) -> None:
        panel = 34 if width >= 110 else 24 if width >= _PANEL_FROM else 0
        swings = self.view.stage in (
            HELD,
            MOVING,
            STOOD,
        )  # one room and one scale from first to last
        taken = 9 + listed + (7 if swings else 0)
        rows = max(0, min(20, height - taken))
        picture = self.query_one("#picture", PicturePanel)
        picture.show(self.view.picture, width - panel - 8, rows if rows >= 5 else 0)

    def _words(self, name: str) -> Words:
        return self.query_one(f"#{name}", Words)
