"""A list to pick one line from: by arrow and Enter, by its number, or with the mouse."""

from collections.abc import Sequence
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import OptionList

from guide.screens.hanging import HangingText
from guide.screens.menu import Item
from guide.screens.page_screen import PageScreen, key
from guide.screens.words_shown import Words, clean
from guide.translation import _

PICK = key("enter", "pick", _("Pick"))
MOVE = key("down", "focused.cursor_down", _("Move"), label="↑↓")
BACK = key("escape,left", "dismiss", _("Back"))
NUMBERS = [key(str(number), f"pick({number})") for number in range(1, 10)]


class PickScreen(PageScreen):
    """Dismissed with the value of the line that was picked, or with None."""

    AUTO_FOCUS = "#list"
    BINDINGS: ClassVar[list[BindingType]] = [PICK, MOVE, BACK, *NUMBERS]

    def __init__(self, heading: str, asks: str, items: Sequence[Item[Any]]) -> None:
        super().__init__(heading)
        self.asks = asks
        self.items = list(items)

    def body(self) -> ComposeResult:
        """The question and the list."""
        yield Words(self.asks, classes="ask")
        options = OptionList(id="list", markup=False)
        options.add_options([self._line(n, item) for n, item in enumerate(self.items, 1)])
        yield options

    def on_mount(self) -> None:
        """Light the first line."""
        self.query_one("#list", OptionList).highlighted = 0 if self.items else None

    def action_pick(self, number: int) -> None:
        """Pick a line by its number, from 1."""
        if number <= len(self.items):
            self.dismiss(self.items[number - 1].value)

    @on(OptionList.OptionSelected, "#list")
    def _picked(self, event: OptionList.OptionSelected) -> None:
        self.action_pick(event.option_index + 1)

    def _line(self, number: int, item: Item[Any]) -> HangingText:
        key = str(number) if number < 10 else " "
        said = clean(item.text)
        below = f"\n     {clean(item.below)}" if item.below else ""
        front = (f" {key} ", "bold reverse" if key.strip() else "")
        return HangingText(Content.assemble(front, f"  {said}{below}"))
