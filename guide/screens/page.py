"""A page: what a view shows, independent of the size of the window."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple, Protocol

from guide.screens.rows import Row


class KeyHint(NamedTuple):
    """One key along the bottom."""

    key: str
    """As Textual names it: what a click presses."""
    shown: str
    word: str


class FittedPicture(Protocol):
    """A drawing that fits itself to the room."""

    instead: str
    """What to read if nothing could be drawn, once that was tried."""

    def lines(self, columns: int, rows: int, ascii_only: bool) -> Sequence[str]:
        """At most so many rows of at most so many characters one column wide; none without room."""


@dataclass(slots=True)
class Page:
    """One screenful, or more: the body can be paged."""

    title: str
    """At the left of the bar."""
    corner: str = ""
    """At the right of the bar."""
    body: list[Row] = field(default_factory=list)
    side: list[Row] = field(default_factory=list)
    """Beside the body, its heading first; left out if the window is narrow."""
    picture: FittedPicture | None = None
    """Beside the body in a wide window, else within it if that leaves room; alone on the page
    if there is no body."""
    picture_at: int = 0
    """The row of the body that the picture is put before."""
    message: Row | None = None
    """Shown at the foot of the body, whatever the body shows."""
    voice: Row | None = None
    """What the voice does and heard; above the typed line on every page. None without a voice."""
    typed: str | None = None
    """The text being typed; None if there is no line to type on."""
    cursor: int = 0
    hint: str = ""
    """Beside the typed text, or in its place."""
    keys: list[KeyHint] = field(default_factory=list)
    """The last is always shown; as many of the others as fit."""
    loud: bool = False
    """Whether the bar itself warns."""
