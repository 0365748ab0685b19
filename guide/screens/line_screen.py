"""One line of words, typed on a page of its own."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from guide.screens.page_screen import PageScreen, key
from guide.screens.words_shown import Words
from guide.translation import _

_LONGEST = 200


class LineScreen(PageScreen):
    """Dismissed with what was typed, or with None."""

    AUTO_FOCUS = "Input"
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "submit", _("Go on")),
        key("escape,tab", "before", _("Back")),
    ]

    def __init__(
        self, heading: str, asks: str, text: str = "", example: str = "", longest: int = _LONGEST
    ) -> None:
        super().__init__(heading)
        self._asks, self._text, self._example, self._longest = asks, text, example, longest

    def body(self) -> ComposeResult:
        """What is asked, and the line."""
        yield Words(self._asks, classes="ask")
        yield Input(self._text, max_length=self._longest, classes="-words")
        yield Words(self._example, classes="text")

    def action_before(self) -> None:
        self.dismiss(None)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        self.entered(event.value.strip())

    def entered(self, text: str) -> None:
        """The line was entered."""
        self.dismiss(text)
