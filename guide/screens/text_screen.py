"""A long text to read: the record of a past job, or the keys."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from guide.screens.page_screen import MORE, UP, PageScreen, Reading, key
from guide.screens.step_words import help_words
from guide.screens.words_shown import Piece, Words
from guide.translation import _


class TextScreen(PageScreen):
    """A text that can be paged."""

    BINDINGS: ClassVar[list[BindingType]] = [
        MORE,
        UP,
        key("enter,left,escape,q,backspace", "dismiss", _("Back")),
    ]

    def __init__(self, heading: str, *pieces: Piece) -> None:
        super().__init__()
        self.heading = heading
        self.pieces = pieces

    def body(self) -> ComposeResult:
        """The text."""
        with Reading(id="text"):
            yield Words(*self.pieces, id="words")

    def on_mount(self) -> None:
        """Keys that page go to the text."""
        self.query_one("#text").focus()


class HelpScreen(TextScreen):
    """Every key of the screen it was opened from, then every key and word of a job."""

    def __init__(self, keys: Sequence[BindingType] = ()) -> None:
        own: list[Piece] = [(_("Here"), "bold $secondary")] if keys else []
        for one in keys:
            if isinstance(one, Binding) and one.tooltip:
                own += ["\n", (f"{one.key_display:<8}", "bold"), one.tooltip]
        own += [(_("\n\nIn a job\n"), "bold $secondary")] if keys else []
        super().__init__(_("Keys and words"), *own, *help_words())
