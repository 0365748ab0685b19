"""Rows of text and the lines they become at a given width. Texts are never read as markup."""

from collections.abc import Iterable
from typing import NamedTuple

from rich.cells import cell_len

from guide.measures import freed, held
from guide.screens.glyphs import ascii_only

_DROPPED = {
    code: None
    for code in (
        *range(0x20),
        *range(0x7F, 0xA0),
        *range(0x202A, 0x202F),  # overrides of the writing direction
        *range(0x2066, 0x206A),
    )
    if chr(code) != "\n"
} | {ord("\t"): " "}


class Row(NamedTuple):
    """A paragraph, a choice or a line of a drawing, before it is fitted to a width."""

    text: str = ""
    style: str = ""
    """A name in `paint.STYLES`; empty for the terminal's own."""
    mark: str = ""
    """The sign before the text; the lines below are indented by its width."""
    mark_style: str = ""
    key: str = ""
    """The key that a click on the row presses; empty for none."""
    whole: bool = False
    """Never wrapped: a line of a drawing."""
    fill: bool = False
    """Whether the style runs on to the edge."""
    spaced: bool = False
    """Whether an empty line stands between its lines, as large type has it."""


class Line(NamedTuple):
    """One line of the screen: pieces of text, each with the name of its style."""

    pieces: tuple[tuple[str, str], ...] = ()
    keys: tuple[tuple[int, int, str], ...] = ()
    """From column, to column (not included), key: what a click there presses."""

    @property
    def text(self) -> str:
        """What a person reads."""
        return "".join(text for text, _ in self.pieces)

    @property
    def width(self) -> int:
        """Columns taken."""
        return cells(self.text)


def cells(text: str) -> int:
    """Columns that a text takes."""
    return len(text) if text.isascii() else cell_len(text)


def clean(text: str, *, ascii: bool = False) -> str:  # noqa: A002 - the plain word for it
    """The text without control characters and direction marks."""
    kept = text.translate(_DROPPED)
    return ascii_only(kept) if ascii else kept


def wrap(text: str, width: int) -> list[str]:
    """Lines of at most `width` columns, broken at spaces but never inside a measure; a word that is longer is
    broken anywhere."""
    lines: list[str] = []
    for paragraph in held(text).split("\n"):
        line = ""
        for word in paragraph.split(" "):
            longer = f"{line} {word}" if line else word
            if cells(longer) <= width:
                line = longer
                continue
            if line:
                lines.append(line.rstrip())
            line = word
            while cells(line) > width:
                head = cut(line, width)
                lines.append(head)
                line = line[len(head) :]
        lines.append(line.rstrip())
    return [freed(line) for line in lines]


def cut(text: str, width: int) -> str:
    """The beginning of a text that fits; at least one character, so that cutting goes on."""
    if cells(text) <= width:
        return text
    end, taken = 0, 0
    while end < len(text) and (taken := taken + cells(text[end])) <= width:
        end += 1
    return text[: max(1, end)]


def fit(rows: Iterable[Row], width: int, *, ascii: bool = False) -> list[Line]:  # noqa: A002
    """Rows as lines of at most `width` columns."""
    lines: list[Line] = []
    for row in rows:
        lines.extend(_fitted(row, max(1, width), ascii))
    return lines


def _fitted(row: Row, width: int, ascii_wanted: bool) -> list[Line]:
    text, mark = clean(row.text, ascii=ascii_wanted), clean(row.mark, ascii=ascii_wanted)
    indent = cells(mark)
    if indent > width // 2:
        text, mark, indent = f"{mark.strip()} {text}", "", 0
    keys = ((0, width, row.key),) if row.key else ()
    texts = [cut(text, width - indent)] if row.whole else wrap(text, width - indent)
    lines = []
    for number, part in enumerate(texts):
        head = mark if number == 0 or row.mark_style == "rule" else " " * indent
        tail = part + " " * (width - indent - cells(part)) if row.fill else part
        pieces = [(head, row.mark_style if head.strip() else ""), (tail, row.style)]
        lines.append(Line(tuple(piece for piece in pieces if piece[0]), keys))
        if row.spaced and number < len(texts) - 1:
            lines.append(Line(((mark, row.mark_style),)) if row.mark_style == "rule" else Line())
    return lines


def joined(left: Line, right: Line, at: int) -> Line:
    """Two lines beside each other, the right one beginning at column `at`."""
    gap = " " * max(0, at - left.width)
    keys = left.keys + tuple((a + at, b + at, key) for a, b, key in right.keys)
    return Line((*left.pieces, (gap, ""), *right.pieces), keys)
