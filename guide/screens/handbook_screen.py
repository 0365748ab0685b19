"""The handbook: its pages at the left, the page that is lit at the right."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Markdown, OptionList

from guide.handbook.pages import page_names, page_text, page_title
from guide.screens.hanging import HangingText
from guide.screens.page_screen import CLOSE, MORE, UP, PageScreen, Reading, key
from guide.translation import _

USER = "user"
_BESIDE = 50
"""Columns of the window from which list and page stand beside each other."""


class HandbookScreen(PageScreen):
    """Arrows choose a page, Enter reads it, Space pages it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        MORE,
        UP,
        key("escape,left", "list", _("Pages")),
        key("enter", "read", _("Read")),
        CLOSE,
    ]
    heading = _("Handbook")

    def __init__(self, page: str = "") -> None:
        super().__init__()
        self.names = page_names(USER)
        self.page = page if page in self.names else self.names[0]
        self.reading = bool(page)
        """Whether keys go to the page rather than to the list; in a narrow window it is alone then."""

    def body(self) -> ComposeResult:
        """List and page."""
        with Horizontal(classes="book"):
            yield OptionList(id="list", markup=False)
            with Reading(id="text"):
                yield Markdown(open_links=False)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool:
        """The keys of the page while it is read, those of the list otherwise."""
        return self.reading == (action not in ("read", "dismiss"))

    def on_mount(self) -> None:
        """Show the first page."""
        options = self.query_one("#list", OptionList)
        options.set_options([_entry(page_title(USER, name)) for name in self.names])
        options.highlighted = self.names.index(self.page)
        self._lay_out()

    def on_resize(self) -> None:
        """List and page beside each other, or one of them."""
        self._lay_out()

    def _lay_out(self) -> None:
        wide = self.app.size.width >= _BESIDE
        self.query_one("#list").display = wide or not self.reading
        self.query_one("#text").display = wide or self.reading
        self.query_one("#text" if self.reading else "#list").focus()
        self.renew_keys()

    @on(OptionList.OptionHighlighted, "#list")
    async def _lights(self, event: OptionList.OptionHighlighted) -> None:
        self.page = self.names[event.option_index]
        await self.query_one(Markdown).update(page_text(USER, self.page))
        self.query_one("#text", Reading).scroll_home(animate=False)

    @on(OptionList.OptionSelected, "#list")
    def action_read(self) -> None:
        self.reading = True
        self._lay_out()

    def action_list(self) -> None:
        self.reading = False
        self._lay_out()


def _entry(title: str) -> HangingText:
    """A title in the list: what does not fit on its line is indented, so that each is seen to begin."""
    return HangingText(Content(title), indent=2)
