"""Words on the screen: never markup, no control characters, no measure broken over two lines."""

import re
from collections.abc import Iterable

from rich.segment import Segment
from textual.content import Content
from textual.selection import Selection
from textual.strip import Strip
from textual.widgets import Static

from guide.measures import held
from guide.screens.glyphs import ascii_only
from guide.screens.hanging import HangingText
from guide.screens.host import host

Piece = str | tuple[str, str]
"""Text, or text with its style."""

_NO_BREAK, _GLUE = "\u00a0", "\ue000"
"""The wrapping of the library breaks at a no-break space too, so a sign of the private area holds a measure together
and is shown as a space."""
_DROPPED = dict.fromkeys(
    code
    for code in (
        *range(0x20),
        *range(0x7F, 0xA0),
        *range(0x202A, 0x202F),  # overrides of the writing direction
        *range(0x2066, 0x206A),
        ord(_GLUE),
    )
    if code != ord("\n")
) | {ord("\t"): " "}
_SPACES = re.compile(f"[{_NO_BREAK}{_GLUE}]")


def in_lines(rows: Iterable[Iterable[Piece]]) -> list[Piece]:
    """The pieces of every row, each row on a line of its own."""
    return [piece for row in rows for piece in ("\n", *row)][1:]


def clean(text: str, *, ascii: bool = False) -> str:  # noqa: A002 - the plain word for it
    """The text without control characters and direction marks."""
    kept = text.translate(_DROPPED)
    return ascii_only(kept) if ascii else kept


class Words(Static):
    """One text; hidden while it is empty."""

    def __init__(self, *pieces: Piece, classes: str = "", id: str | None = None) -> None:  # noqa: A002
        self._pieces: tuple[Piece, ...] = pieces
        self._hanging = HangingText(_content(pieces, ascii=False))
        super().__init__(self._hanging, classes=classes, id=id, markup=False)
        self._seen = True
        self._hide_empty()

    def on_mount(self) -> None:
        """Show what was given before the terminal was known."""
        if host(self.app).ascii:
            self._show()

    def tell(self, *pieces: Piece) -> None:
        """Show another text, where it is another."""
        if pieces != self._pieces:
            self._pieces = pieces
            self._show()

    @property
    def text(self) -> str:
        """What is shown, as a person reads it."""
        return _SPACES.sub(" ", str(self._hanging))

    @property
    def _any(self) -> bool:
        return any(_text(piece) for piece in self._pieces)

    def _show(self) -> None:
        self._hanging = HangingText(_content(self._pieces, ascii=host(self.app).ascii))
        self.update(self._hanging, layout=not self._has_room())
        self._hide_empty()

    def _has_room(self) -> bool:
        """Whether the text takes up just the room that there is: then nothing around it is laid out again."""
        styles, (width, height) = self.styles, self.content_size
        if not width:
            return False
        rules = styles.get_rules()
        wide = styles.width is not None and styles.width.is_auto
        high = styles.height is not None and styles.height.is_auto
        if wide and self._hanging.get_optimal_width(rules, width) != width:
            return False
        return not high or self._hanging.get_height(rules, width) == height

    def _hide_empty(self) -> None:
        """A text decides on its own: a class would have the whole style sheet applied again."""
        if self._any != self._seen:
            self._seen = self._any
            self.styles.display = None if self._seen else "none"  # None: as the style sheet has it

    def render_line(self, y: int) -> Strip:
        """A line of the text, each glue a space."""
        strip = super().render_line(y)
        if _GLUE not in strip.text:
            return strip
        segments = [
            Segment(text.replace(_GLUE, " "), style, control) for text, style, control in strip
        ]
        return Strip(segments, strip.cell_length)

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        """The words that were selected, to be copied."""
        shown = str(self._hanging.at(self.content_size.width))
        return _SPACES.sub(" ", selection.extract(shown)), "\n"


def _text(piece: Piece) -> str:
    return piece if isinstance(piece, str) else piece[0]


def _content(pieces: Iterable[Piece], *, ascii: bool) -> Content:  # noqa: A002
    return Content.assemble(
        *(
            _glued(piece, ascii) if isinstance(piece, str) else (_glued(piece[0], ascii), piece[1])
            for piece in pieces
        )
    )


def _glued(text: str, ascii_wanted: bool) -> str:
    return held(clean(text, ascii=ascii_wanted)).replace(_NO_BREAK, _GLUE)
