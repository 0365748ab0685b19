"""The least window that anything can be read in."""

from guide.translation import _

LEAST_WIDTH, LEAST_HEIGHT = 30, 8
TOO_SMALL = _("This window is too small; make it at least 40 by 12.")


def too_small(width: int, height: int) -> bool:
    """Whether nothing but TOO_SMALL is to be shown, so that no key counts."""
    return width < LEAST_WIDTH or height < LEAST_HEIGHT


COPY = ("ctrl+c", "super+c")
"""Keys that copy what the mouse has selected; they are the library's own."""
