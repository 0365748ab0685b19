"""The frame of every screen but that of a run: a bar, a page, a line for what became of the last key, and the keys."""

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.events import Key, Resize
from textual.screen import Screen

from guide.screens.host import Host, host
from guide.screens.key_bar import KeyBar
from guide.screens.key_hint import KeyHint
from guide.screens.window import TOO_SMALL, too_small
from guide.screens.words_shown import Words


class PageScreen(Screen[object]):
    """A page with its keys. Keys reach `pressed` first; what that does not use goes to the focused widget."""

    AUTO_FOCUS = ""
    heading = "Hingeside"
    corner = ""

    @property
    def hingeside(self) -> Host:
        """The app."""
        return host(self.app)

    def compose(self) -> ComposeResult:
        """The frame around `body`."""
        yield Words(id="too-small")
        with Horizontal(id="top"):
            yield Words(self.heading, classes="name", id="name")
            yield Words(self.corner, classes="stage", id="corner")
        with Horizontal(id="page"), Vertical(id="leaf"):
            yield from self.body()
        yield Words(id="page-message")
        yield KeyBar(self.keys())

    def body(self) -> ComposeResult:
        """The widgets of the page."""
        yield Words()

    def keys(self) -> Sequence[KeyHint]:
        """The keys that matter, the last of them always shown."""
        return [KeyHint("escape", "Esc", "Close")]

    def pressed(self, key: str, character: str | None) -> bool:
        """Do what a key means; whether it means anything here."""
        return False

    def say(self, told: str, *, refused: bool = False) -> None:
        """Show one sentence above the keys."""
        message = self.query_one("#page-message", Words)
        message.tell(f"! {told}" if refused and told else told)
        message.set_class(refused, "error")

    def on_key(self, event: Key) -> None:
        """Hand a key to the page, where anything can be read."""
        if too_small(*self.app.size):
            event.stop()
            event.prevent_default()
            return
        if self.pressed(event.key, event.character):
            event.stop()
            event.prevent_default()

    def on_resize(self, event: Resize) -> None:
        """Say so where nothing can be read."""
        small = too_small(*self.app.size)
        self.query_one("#too-small", Words).tell(TOO_SMALL if small else "")

    def renew_keys(self) -> None:
        """Show the keys that matter now."""
        self.query_one(KeyBar).show(self.keys())
