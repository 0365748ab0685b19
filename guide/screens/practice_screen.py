"""A practice door on the screen: the leaf moves at a steady scale, ten times a second."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.events import Key
from textual.widgets import OptionList

from guide.run.practice_results import keep
from guide.screens import practice_words as words
from guide.screens.answers import Answers, numbered
from guide.screens.held import HeldKeys
from guide.screens.key_hint import KeyHint
from guide.screens.page_screen import PageScreen
from guide.screens.picture_panel import PicturePanel
from guide.screens.practice_view import HELD, MOVING, STOOD, PracticeView
from guide.screens.step_words import plot_rows
from guide.screens.text_screen import TextScreen
from guide.screens.watch_panel import WatchPanel
from guide.screens.window import COPY, panel_width, too_small
from guide.screens.words_shown import Piece, Words
from guide.translation import _

if TYPE_CHECKING:
    from guide.practice.practice import Practice

FRAME = 0.1
"""Seconds between two pictures of a leaf that moves."""
_OF_MENU = ("up", "down", "home", "end", "pageup", "pagedown", "enter")
"""Keys by which a list is gone through."""


class PracticeScreen(PageScreen):
    """Renders a practice door and sends it what the apprentice did."""

    AUTO_FOCUS = "#answers"
    heading = _("Practice on a model door")

    def __init__(self, practice: "Practice", clock: Callable[[], float], held: HeldKeys) -> None:
        """The result of the door is kept."""
        super().__init__()
        self.view = PracticeView(practice, clock, keep, held)
        self._menu = self.view.menu
        """The one that is shown."""

    def body(self) -> ComposeResult:
        """Every widget that any stage needs."""
        with VerticalScroll(can_focus=False):
            yield Words(classes="ask", id="ask")
            yield Words(classes="text", id="said")
            yield Words(classes="text", id="way")
            yield WatchPanel(id="watch")
            yield Answers(id="answers", can_focus=True)
            yield PicturePanel(classes="picture", id="picture")

    def beside(self) -> ComposeResult:
        """The door, and what was read at it."""
        yield Words(id="door")

    def keys(self) -> Sequence[KeyHint]:
        """The keys of the stage."""
        return self.view.shown_keys()

    def on_mount(self) -> None:
        """Show the door, and the leaf while it moves."""
        self.set_interval(FRAME, self._frame)
        self.show()

    def _frame(self) -> None:
        if self.view.ticking:
            self.show()

    def on_resize(self) -> None:
        """Fit the drawing to the window."""
        self.call_after_refresh(self.show)

    def on_key(self, event: Key) -> None:
        """Hand a key to the door, unless the menu uses it, or it copies what is selected."""
        event.prevent_default()
        small = too_small(*self.app.size)  # nobody can see what a key would do
        of_menu = event.key in _OF_MENU and not self.view.heading and not small
        again = event.key == "enter" and of_menu and self.hingeside.held.again("enter")
        if event.key in COPY or (of_menu and not again):
            return
        event.stop()
        if not small and not of_menu:
            self.view.press(event.key, event.character)
            self._follow()

    @on(OptionList.OptionSelected, "#answers")
    def _picked(self, event: OptionList.OptionSelected) -> None:
        if not too_small(*self.app.size):
            self.view.pick(event.option_index)
            self._follow()

    def _follow(self) -> None:
        """Show what came of it: a text to read, the first screen, or the door."""
        view = self.view
        read, view.reading = view.reading, []
        if read:
            text = TextScreen(self.heading, *read, *self._swung())
            self.app.push_screen(text, self._was_read)
        elif view.leaving:
            self.hingeside.open_home()
        else:
            self.show()

    def _was_read(self, _: object) -> None:
        self._follow()

    def _swung(self) -> list[Piece]:
        """How the leaf swung, drawn and told, after the debrief."""
        plot = self.view.plot
        if plot is None:
            return []
        rows = plot_rows(plot, self.app.size.width - 8, ascii_only=self.hingeside.ascii)
        return [("\n".join(rows), "$primary"), f"\n{plot.says}\n"]

    def show(self) -> None:
        """Show the view as it is."""
        if not self.is_mounted:
            return
        view = self.view
        view.settle()
        at_menu = not view.heading
        self.tell("corner", words.so_far(view.practice))
        self.tell("ask", (view.heading or view.menu.title, "bold"))
        self.tell("said", "\n".join(view.said) if at_menu else "")
        self.tell("way", view.way)
        fact = words.WATCHED if view.watch.running else None
        self.query_one(WatchPanel).show(view.watch, fact)
        items = [item.text for item in view.menu.items] if at_menu else []
        answers = self.query_one(Answers)
        lit = answers.highlighted if view.menu is self._menu else 0
        self._menu = view.menu
        answers.show(numbered(items), lit or 0 if items else -1)
        self._show_picture(len(items))
        self.tell("door", *words.beside(view.practice))
        self.say(view.message or view.hint())
        self.renew_keys()

    def _show_picture(self, listed: int) -> None:
        width, height = self.app.size
        swings = self.view.stage in (HELD, MOVING, STOOD)  # one room and scale from first to last
        rows = max(0, min(20, height - 9 - listed - (7 if swings else 3)))
        picture = self.query_one("#picture", PicturePanel)
        picture.show(self.view.picture, width - panel_width(width) - 8, rows if rows >= 5 else 0)
