"""A page to look something up on: headings and lines, the same for every front end."""

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from guide.drawing.plot import Plot


class Section(NamedTuple):
    """A heading with the lines below it."""

    heading: str
    """Empty where the lines need none."""
    lines: tuple[str, ...]
    plot: "Plot | None" = None
    """Drawn under the heading where there is room; the lines say the same."""


class Page(NamedTuple):
    """One page."""

    title: str
    sections: tuple[Section, ...]


def page(title: str, *sections: Section | None) -> Page:
    """A page of the sections that have lines."""
    return Page(title, tuple(one for one in sections if one is not None and one.lines))
