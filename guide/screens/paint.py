"""Lines as Textual shows them. Every text goes through `Content`, which is never read as markup."""

from collections.abc import Iterable

from textual.color import Color
from textual.content import Content, Span
from textual.style import Style

from guide.screens.rows import Line, clean

_BLACK, _WHITE = Color.parse("ansi_black"), Color.parse("ansi_bright_white")
_RED = Color.parse("ansi_red")
_BLUE = Color.parse("ansi_blue")
_BRIGHT_YELLOW = Color.parse("ansi_bright_yellow")
_GREEN = Color.parse("ansi_green")
_ORANGE = Color.parse("#ff8c1a")
"""16 colours have no orange; a terminal that has only those takes its nearest."""

STYLES = {
    "action": Style(bold=True),
    "bold": Style(bold=True),
    "dim": Style(dim=True),
    "rule": Style(foreground=_GREEN, bold=True),
    "label": Style(underline=True),
    "bar": Style(reverse=True),
    "key": Style(reverse=True),
    "picked": Style(reverse=True, bold=True),
    "cursor": Style(reverse=True),
    "error": Style(foreground=_RED, bold=True),
    "ok": Style(foreground=_GREEN, bold=True),
    "stop": Style(foreground=_WHITE, background=_RED, bold=True),
    "danger": Style(foreground=_WHITE, background=_RED, bold=True),
    "warning": Style(foreground=_BLACK, background=_ORANGE, bold=True),
    "caution": Style(foreground=_BLACK, background=_BRIGHT_YELLOW, bold=True),
    "notice": Style(foreground=_WHITE, background=_BLUE, bold=True),
}
"""How each kind of text looks. Signal colours after ANSI Z535.4 (red, orange, yellow, blue); the word
always stands beside the colour, which NO_COLOR takes away."""


def plain(text: str) -> Content:
    """A text of a file or a person, shown as it is written and never read as markup."""
    return Content(clean(text))


def content_of(lines: Iterable[Line]) -> Content:
    """Lines one below the other."""
    text: list[str] = []
    spans: list[Span] = []
    place = 0
    for number, line in enumerate(lines):
        if number:
            text.append("\n")
            place += 1
        for piece, style in line.pieces:
            text.append(piece)
            end = place + len(piece)
            if style:
                spans.append(Span(place, end, STYLES[style]))
            place = end
    return Content("".join(text), spans, strip_control_codes=False)
