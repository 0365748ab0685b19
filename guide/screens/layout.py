"""A page fitted to a window: bar, body with what is known beside it, the typed line, the keys."""

from typing import NamedTuple

from guide.screens.page import FittedPicture, KeyHint, Page
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
_MOST_VOICE = 3
"""Lines of what the voice does and heard."""
_LEAST_DRAWN, _CLEAR_DRAWN = 9, 14
"""Rows below which a step's picture is left out, and rows that it leaves to the words below it."""
_NARROW_DRAWN, _WIDE_DRAWN = 60, 56
"""Columns below which a picture takes the place of what is known, and from which it is beside the
body. All four: looked at on doors of every mount."""


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
    """Columns for what is known, its rule included; 0 if the window is narrow."""
    if width < _NARROW:
        return 0
    return 26 if width < _WIDE else 36 if width < _WIDEST else 48


def arrange(page: Page, width: int, height: int, offset: int, *, ascii: bool = False) -> Fitted:  # noqa: A002
    """Fit a page into `width` columns and `height` rows, the body beginning at line `offset`."""
    message = (
        fit([page.message], min(width - 2, READING_WIDTH), ascii=ascii) if page.message else []
    )
    voice = fit([page.voice], width - 2, ascii=ascii)[:_MOST_VOICE] if page.voice else []
    room = height - _EDGES - len(voice)
    message = message[: room - 2]
    window = room - len(message)
    body, body_width, aside = _body(page, width, window, ascii)
    offset = max(0, min(_with_mark(body, offset, window - 1), len(body) - window))
    shown = body[offset : offset + window]
    more = offset + window < len(body)
    if more:
        shown[-1] = Line(
            ((clean("↓ more: Page Down", ascii=ascii), "dim"),), ((0, body_width, "pagedown"),)
        )
    shown += [Line()] * (window - len(shown))
    middle = [_indented(line) for line in shown]
    across = _beside_body(page, width - aside, body_width)
    if page.picture is not None and across:
        drawn = [*map(_drawn, page.picture.lines(across, window, ascii)), *[Line()] * window]
        middle = [joined(a, b, body_width + 3) for a, b in zip(middle, drawn, strict=False)]
        body_width += across + 2
    if aside:
        beside = _beside(page.side, aside - 3, window, ascii)
        at = body_width + 2
        middle = [joined(left, right, at) for left, right in zip(middle, beside, strict=True)]
    middle += [_indented(line) for line in (*message, *voice)]
    entry, keys = _entry(page, width, ascii), _keys(page.keys, width, ascii)
    return Fitted(_bar(page, width, ascii), middle, entry, keys, offset, max(1, window - 1), more)


def _body(page: Page, width: int, window: int, ascii_wanted: bool) -> tuple[list[Line], int, int]:
    """The lines of the body, its columns, and the columns left for what is known."""
    aside = side_width(width) if page.side else 0
    drawn = max((cells(row.mark + row.text) for row in page.body if row.whole), default=0)
    if drawn > width - aside - 2:
        aside = 0  # a drawing is never wrapped: it takes the place of what is known
    body_width = min(width - aside - 2, max(READING_WIDTH, drawn))
    rows = [row for row in page.body if not row.whole or drawn <= width - 2]
    if page.picture is not None and not _beside_body(page, width - aside, body_width):
        without = aside if body_width >= _NARROW_DRAWN else 0
        columns = width - without - 2
        columns = min(columns, READING_WIDTH) if page.body else columns
        before, after = page.body[: page.picture_at], page.body[page.picture_at :]
        after = [row for row in after if not row.whole or drawn <= columns]
        lines = _with_picture(before, page.picture, after, (columns, window), ascii_wanted)
        if lines:
            return lines, columns, without
    return fit(rows, body_width, ascii=ascii_wanted), body_width, aside


def _beside_body(page: Page, width: int, body_width: int) -> int:
    """Columns for the picture beside a body in so wide a place; 0 if it goes elsewhere."""
    across = width - body_width - 4
    return across if page.picture is not None and page.body and across >= _WIDE_DRAWN else 0


def _with_picture(
    above: list[Row],
    picture: FittedPicture,
    below: list[Row],
    room: tuple[int, int],
    ascii_wanted: bool,
) -> list[Line]:
    """Rows with the picture between them, in so many columns and rows; nothing if it finds no room."""
    columns, window = room
    before = fit(above, columns, ascii=ascii_wanted)
    after = fit(below, columns, ascii=ascii_wanted)
    alone = not before and not after
    free = window - len(before)
    rows = free - len(after)
    if after and rows < _CLEAR_DRAWN:
        rows = min(free - 1, _CLEAR_DRAWN)  # the last row of the window is for the lines below
    if rows < _LEAST_DRAWN and not alone:
        return []
    lines = [_drawn(line) for line in picture.lines(columns, rows, ascii_wanted)]
    if not lines:
        return fit([Row(picture.instead)], columns, ascii=ascii_wanted) if alone else []
    return [*before, *lines, *after]


def _drawn(text: str) -> Line:
    return Line(((text, ""),))


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
