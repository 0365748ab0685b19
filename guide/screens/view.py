"""The protocol of a view: what the app needs of the run, list or text that is open."""

from collections.abc import Callable
from typing import Protocol

from guide.run.events import Event
from guide.run.state import State
from guide.screens.page import Page

RecordText = Callable[[State, list[Event]], str]
"""The record of a run as plain lines; handed in, because screens do not import papers."""


class View(Protocol):
    """Gets keys and gives a page; knows nothing of the terminal."""

    @property
    def offset(self) -> int:
        """The first line of the body to be shown."""

    @property
    def ticking(self) -> bool:
        """Whether the page changes by itself, as a running stopwatch does."""

    def press(self, key: str, character: str | None) -> None:
        """Do what a key means. `key` as Textual names it, `character` if it prints one."""

    def paste(self, text: str) -> None:
        """Accept a pasted text as if it were typed."""

    def page(self, *, roomy: bool) -> Page:
        """The page to show."""

    def fitted(self, offset: int, window: int, more: bool) -> None:
        """Told what was shown: the first line, the lines of one Page Down, whether any are left."""
