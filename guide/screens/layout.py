"""A page fitted to a window: bar, body with what is known beside it, the typed line, the keys."""

from typing import NamedTuple

from guide.screens.page import KeyHint, Page
from guide.screens.rows import Line, Row, cells, clean, cut, fit, joined

LEAST_WIDTH, LEAST_HEIGHT = 30, 8
TOO_SMALL = "This window is too small; make it at least 40 by 12."
READING_WIDTH = 76
"""Columns of the body at most: longer lines are hard to follow at arm's length."""
ROOMY_HEIGHT = 18
"""Rows from which the action has air around it."""
_NARROW, _WIDE, _WIDEST = 60, 100, 160
_EDGES = 3
"""The rows of bar, typed line and keys."""


class Fitted(NamedTuple):
    """The four parts of the screen as lines."""

    bar: Line
    middle: list[Line]
    entry: Line
    keys: Line
    offset: int
    """The first line of the body that is shown, once kept within the body."""
    window: int
    """Lines of the body that are shown at once."""
    more: bool
    """Whether lines of the body are left below."""


def too_small(width: int, height: int) -> bool:
    """Whether nothing but TOO_SMALL is to be shown."""
    return width < LEAST_WIDTH or height < LEAST_HEIGHT


def roomy(height: int) -> bool:
    """Whether a window of this height leaves air around the action."""
    return height >= ROOMY_HEIGHT


def side_width(width: int) -> int:
    """Columns for what is known, its rule included; 0 where the window is narrow."""
    if width < _NARROW:
        return 0
    return 26 if width < _WIDE else 36 if width < _WIDEST else 48


def arrange(page: Page, width: int, height: int, offset: int, *, ascii: bool = False) -> Fitted:  # noqa: A002
    """Fit a page into `width` columns and `height` rows, the body beginning at line `offset`."""
    aside = side_width(width) if page.side else 0
    drawn = max((cells(row.mark + row.text) for row in page.body if row.whole), default=0)
    if drawn > width - aside - 2:
        aside = 0  # a drawing is never wrapped: it takes the place of what is known
    body_width = min(width - aside - 2, max(READING_WIDTH, drawn))
    rows = [row for row in page.body if not row.whole or drawn <= width - 2]
    body = fit(rows, body_width, ascii=ascii)
    message = (
        fit([page.message], min(width - 2, READING_WIDTH), ascii=ascii) if page.message else []
    )
    room = height - _EDGES
    message = message[: room - 2]
    window = room - len(message)
    offset = max(0, min(_with_mark(body, offset, window - 1), len(body) - window))
    shown = body[offset : offset + window]
    more = offset + window < len(body)
    if more:
        shown[-1] = Line(
            ((clean("↓ more: Page Down", ascii=ascii), "dim"),), ((0, body_width, "pagedown"),)
        )
    shown += [Line()] * (window - len(shown))
    middle = [_indented(line) for line in shown]
    if aside:
        beside = _beside(page.side, aside - 3, window, ascii)
        at = body_width + 2
        middle = [joined(left, right, at) for left, right in zip(middle, beside, strict=True)]
    middle += [_indented(line) for line in message]
    entry, keys = _entry(page, width, ascii), _keys(page.keys, width, ascii)
    return Fitted(_bar(page, width, ascii), middle, entry, keys, offset, max(1, window - 1), more)


def _with_mark(body: list[Line], offset: int, window: int) -> int:
    """The offset moved so far that a marked answer is in sight."""
    marked = [
        n for n, line in enumerate(body) if any(style == "picked" for _, style in line.pieces)
    ]
    if not marked:
        return offset
    return min(max(offset, marked[-1] - window + 1), marked[0])


def _indented(line: Line) -> Line:
    keys = tuple((a + 1, b + 1, key) for a, b, key in line.keys)
    return Line(((" ", ""), *line.pieces), keys)


def _beside(side: list[Row], width: int, height: int, ascii_wanted: bool) -> list[Line]:
    """What is known: the heading, and the latest that there is room for."""
    heading = fit(side[:1], width, ascii=ascii_wanted)
    lines = fit(side[1:], width, ascii=ascii_wanted)
    room = max(0, height - len(heading))
    if len(lines) > room:
        lines = lines[len(lines) - room :] if room else []
    lines = [*heading, *lines][:height]
    lines += [Line()] * (height - len(lines))
    rule = clean("│ ", ascii=ascii_wanted)
    return [joined(Line(((rule, "dim"),)), line, cells(rule)) for line in lines]


def _bar(page: Page, width: int, ascii_wanted: bool) -> Line:
    corner = clean(page.corner, ascii=ascii_wanted)
    title = clean(page.title, ascii=ascii_wanted)
    room = width - cells(corner) - 3
    left = title if cells(title) <= room else cut(title, max(1, room - 1)) + "~"
    gap = " " * max(1, width - cells(left) - cells(corner) - 2)
    return Line(((f" {left}{gap}{corner} ", "stop" if page.loud else "bar"),))


def _entry(page: Page, width: int, ascii_wanted: bool) -> Line:
    hint = clean(page.hint, ascii=ascii_wanted)
    if page.typed is None:
        return Line(((" ", ""), (cut(hint, width - 2), "bold")))
    text = clean(page.typed, ascii=ascii_wanted) if ascii_wanted else page.typed
    before, under, after = (
        text[: page.cursor],
        text[page.cursor : page.cursor + 1],
        text[page.cursor + 1 :],
    )
    room = width - 6
    while cells(before) > room:
        before = before[1:]
    after = cut(after, room - cells(before)) if after and room > cells(before) else ""
    pieces = [(" > ", "bold"), (before, "bold"), (under or " ", "cursor"), (after, "bold")]
    left = width - sum(cells(text) for text, _ in pieces) - 4
    if hint and cells(hint) <= left:
        pieces.append((f"   {hint}", "dim"))
    return Line(tuple(piece for piece in pieces if piece[0]))


def _keys(hints: list[KeyHint], width: int, ascii_wanted: bool) -> Line:
    """As many keys as fit, the last always among them."""
    pieces: list[tuple[str, str]] = []
    keys: list[tuple[int, int, str]] = []
    column = 0
    last = hints[-1:]
    reserve = sum(_key_width(hint, ascii_wanted) for hint in last)
    for hint in [*hints[:-1], *last]:
        wide = _key_width(hint, ascii_wanted)
        final = bool(last) and hint is last[0]
        if not final and column + wide + reserve > width:
            continue
        shown = clean(hint.shown, ascii=ascii_wanted)
        pieces += [(f" {shown} ", "key"), (f" {hint.word} ", "")]
        keys.append((column, column + wide, hint.key))
        column += wide
    return Line(tuple(pieces), tuple(keys))


def _key_width(hint: KeyHint, ascii_wanted: bool) -> int:
    return cells(clean(hint.shown, ascii=ascii_wanted)) + cells(hint.word) + 4
