"""What the size of the window brings: the classes of the style sheet, and the least that can be read in."""

from guide.translation import _

LEAST_WIDTH, LEAST_HEIGHT = 30, 8
NOTHING = (0, "-unreadable")
WIDTHS = [NOTHING, (LEAST_WIDTH, "-tiny"), (50, "-small"), (80, "-wide"), (110, "-huge")]
HEIGHTS = [NOTHING, (LEAST_HEIGHT, "-low"), (18, "-mid"), (24, "-tall"), (34, "-high")]
"""Columns and rows of the window from which the style sheet has another class."""
TOO_SMALL = _("This window is too small; make it at least 40 by 12.")


def size_classes(width: int, height: int) -> tuple[str, str]:
    """The classes that a window of this size brings."""
    wide = max(step for step in WIDTHS if step[0] <= width)
    return wide[1], max(step for step in HEIGHTS if step[0] <= height)[1]


PANEL_FROM = 80
"""Columns of the window from which this door is shown beside the step."""


def panel_width(columns: int) -> int:
    """Columns of what is shown of this door; 0 where there is no room for it."""
    return 34 if columns >= 110 else 24 if columns >= PANEL_FROM else 0


def too_small(width: int, height: int) -> bool:
    """Whether nothing but TOO_SMALL is to be shown, so that no key counts."""
    return width < LEAST_WIDTH or height < LEAST_HEIGHT


COPY = ("ctrl+c", "super+c")
"""Keys that copy what the mouse has selected; they are the library's own."""
