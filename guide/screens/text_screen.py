"""A long text to read: the record of a past job, or the keys."""

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import VerticalScroll

from guide.screens.key_hint import KeyHint
from guide.screens.page_screen import PageScreen
from guide.screens.step_words import help_words
from guide.screens.words_shown import Piece, Words

_LEAVING = ("enter", "left", "escape", "q", "backspace")


class TextScreen(PageScreen):
    """A text that can be paged."""

    def __init__(self, heading: str, *pieces: Piece) -> None:
        super().__init__()
        self.heading = heading
        self.pieces = pieces

    def body(self) -> ComposeResult:
        """The text."""
        with VerticalScroll(id="text", can_focus=True):
            yield Words(*self.pieces, id="words")

    def keys(self) -> Sequence[KeyHint]:
        """How to page, and how to leave."""
        more = [KeyHint("space", "Space", "More"), KeyHint("pageup", "PgUp", "Up")]
        return [*more, KeyHint("enter", "Enter", "Back")]

    def on_mount(self) -> None:
        """Keys that page go to the text."""
        self.query_one("#text").focus()

    def pressed(self, key: str, character: str | None) -> bool:
        """Space pages; Enter, Esc and ← leave."""
        if key == "space":
            self.query_one("#text", VerticalScroll).scroll_page_down(animate=False)
            return True
        if key in _LEAVING:
            self.dismiss(None)
            return True
        return False


class HelpScreen(TextScreen):
    """Every key of the screen it was opened from, then every key and word of a job."""

    def __init__(self, keys: Sequence[tuple[str, str]] = ()) -> None:
        own: list[Piece] = [("Here", "bold $secondary")] if keys else []
        for key, meaning in keys:
            own += ["\n", (f"{key:<8}", "bold"), meaning]
        own += [("\n\nIn a job\n", "bold $secondary")] if keys else []
        super().__init__("Keys and words", *own, *help_words())
