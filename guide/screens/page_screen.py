"""The frame of every screen but that of a run: a bar, a page, a line for what became of the last key, and the keys."""

from collections.abc import Callable, Sequence
from typing import Any

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.events import Key
from textual.screen import Screen

from guide.screens.host import Host, host
from guide.screens.key_bar import KeyBar
from guide.screens.key_hint import KeyHint, label_of
from guide.screens.window import TOO_SMALL, too_small
from guide.screens.words_shown import Piece, Words
from guide.translation import _


def key(keys: str, action: str, word: str = "", tells: str = "", label: str = "") -> Binding:
    """A key of a page: `word` is for the key bar, where there is one, and `tells` for the help."""
    shown = label or label_of(keys.partition(",")[0])
    return Binding(keys, action, word, show=bool(word), key_display=shown, tooltip=tells)


MORE = key("space", "focused.page_down", _("More"))
UP = key("pageup", "focused.page_up", _("Up"))
CLOSE = key("escape,left", "dismiss", _("Close"))


class Reading(VerticalScroll, can_focus=True):
    """A long text to page."""


class PageScreen(Screen[Any]):
    """A page with its keys, which are its BINDINGS, the most needed first."""

    AUTO_FOCUS = ""
    heading = "Hingeside"

    def __init__(self, heading: str = "") -> None:
        """`heading` takes the place of that of the class."""
        super().__init__()
        if heading:
            self.heading = heading

    @property
    def hingeside(self) -> Host:
        """The app."""
        return host(self.app)

    def compose(self) -> ComposeResult:
        """The frame around `body`."""
        yield Words(TOO_SMALL, id="too-small")
        with Horizontal(id="top"):
            yield Words(self.heading, classes="name", id="name")
            yield Words(classes="stage", id="corner")
        with Horizontal(id="page"):
            with Vertical(id="leaf"):
                yield from self.body()
            yield from self.beside()
        yield Words(id="page-message")
        yield KeyBar(self.keys())

    def body(self) -> ComposeResult:
        """The widgets of the page."""
        yield Words()

    def beside(self) -> ComposeResult:
        """The widgets beside the page."""
        yield from ()

    def keys(self) -> Sequence[KeyHint]:
        """The keys that can be used now; the last of them is always shown."""
        return [
            KeyHint(one.key.partition(",")[0], one.description, one.key_display or "")
            for one in self.BINDINGS
            if isinstance(one, Binding) and one.show and self.shows(one.action)
        ]

    def shows(self, action: str) -> bool:
        """Whether the key bar names the key of an action now."""
        return self.check_action(action, ()) is True

    def tell(self, name: str, *pieces: Piece) -> None:
        """Show another text in the place of that name."""
        self.query_one(f"#{name}", Words).tell(*pieces)

    def say(self, told: str, *, refused: bool = False) -> None:
        """Show one sentence above the keys."""
        self.tell("page-message", f"! {told}" if refused and told else told)
        self.query_one("#page-message").set_class(refused, "error")

    def on_key(self, event: Key) -> None:
        """A key that no line used goes on to the bindings, where anything can be read; a held Enter does not."""
        held = event.key == "enter" and self.hingeside.held.again("enter")
        if held or too_small(*self.app.size):
            event.stop()
            return
        if len(event.key) == 1 and event.key.isupper():  # caps lock changes no command
            event.stop()
            self.press(event.key.lower())

    def ask_on(self, screen: Screen[Any], then: Callable[[Any], None]) -> None:
        """Open another screen over this one; `then` gets what was chosen there, if anything was."""
        self.app.push_screen(screen, lambda chosen: None if chosen is None else then(chosen))

    def press(self, key: str) -> None:
        """Press a key; not from here, since what a screen sends does not come to its own bindings."""
        self.app.call_later(self.app.simulate_key, key)

    def renew_keys(self) -> None:
        """Show the keys that can be used now."""
        self.query_one(KeyBar).show(self.keys())
