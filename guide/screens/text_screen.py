"""A long text to read: the record of a past job, or the keys."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from guide.screens.page_screen import MORE, UP, PageScreen, Reading, key
from guide.screens.step_words import help_words, key_rows
from guide.screens.words_shown import Piece, Words, in_lines
from guide.translation import _


class TextScreen(PageScreen):
    """A text that can be paged."""

    AUTO_FOCUS = "#text"
    BINDINGS: ClassVar[list[BindingType]] = [
        MORE,
        UP,
        key("enter,left,escape,q,backspace", "dismiss", _("Back")),
    ]

    def __init__(self, heading: str, *pieces: Piece) -> None:
        super().__init__(heading)
        self.pieces = pieces

    def body(self) -> ComposeResult:
        """The text."""
        with Reading(id="text"):
            yield Words(*self.pieces, id="words")


class HelpScreen(TextScreen):
    """Every key of the screen it was opened from, then every key and word of a job."""

    def __init__(self, keys: Sequence[BindingType] = ()) -> None:
        told = [one for one in keys if isinstance(one, Binding) and one.tooltip]
        own = key_rows((one.key_display or "", one.tooltip) for one in told)
        here, job = (_("Here"), "bold $secondary"), (_("In a job"), "bold $secondary")
        words = in_lines([[here], *own, [], [job], []]) if keys else []
        super().__init__(_("Keys and words"), *words, *help_words())
