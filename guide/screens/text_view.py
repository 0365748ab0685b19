"""A long text to read: the record of a past job."""

from guide.screens.page import KeyHint, Page
from guide.screens.paging import Paging
from guide.screens.rows import Row

_LEAVING = ("enter", "left", "escape", "q", "backspace")


class TextView:
    """A text that can be paged."""

    def __init__(self, title: str, text: str) -> None:
        self.title = title
        self.text = text
        self.paging = Paging()

    @property
    def offset(self) -> int:
        """The first line to be shown."""
        return self.paging.offset

    def press(self, key: str) -> bool:
        """Page; whether the key leaves the text."""
        return not self.paging.scroll("pagedown" if key == "space" else key) and key in _LEAVING

    def page(self) -> Page:
        """The page to show."""
        rows = [_row(line) for line in self.text.split("\n")]
        keys = [KeyHint("pagedown", "PgDn", "More"), KeyHint("pageup", "PgUp", "Up")]
        return Page(self.title, body=rows, keys=[*keys, KeyHint("enter", "Enter", "Back")])


def _row(line: str) -> Row:
    text = line.lstrip(" ")
    return Row(text, mark=" " * (len(line) - len(text)))
