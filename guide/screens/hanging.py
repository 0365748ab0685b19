"""Text of which each line that has to be broken goes on beneath its own words, not beneath its dash or its key."""

import re

from textual.content import Content
from textual.css.styles import RulesMap
from textual.strip import Strip
from textual.style import Style
from textual.visual import RenderOptions, Visual

_HEAD = re.compile(r"^(?: *(?:- |\S.{0,18}? {2,})| +)", re.MULTILINE)
"""What stands before the words of a line: a dash, an indent, or a key in its column."""


class HangingText(Visual):
    """A text as the library shows it, with hanging indents."""

    def __init__(self, content: Content, indent: int = 0) -> None:
        """`indent`: the columns that every line goes on beneath; 0 if each line says so itself."""
        self._content = content
        self._indent = indent
        self._hangs = indent > 0 or bool(_HEAD.search(content.plain))
        self._at: tuple[int, Content] = (0, content)

    def __str__(self) -> str:
        """The text with no line broken."""
        return str(self._content)

    def at(self, width: int) -> Content:
        """The text broken to lines of at most so many cells, where it has lines to indent."""
        if self._at[0] != width and self._hangs:
            lines = [
                part
                for line in self._content.split(allow_blank=True)
                for part in _broken(line, width, self._indent)
            ]
            self._at = (width, Content("\n").join(lines))
        return self._at[1]

    def _as(self, rules: RulesMap, width: int) -> Content:
        return self._content if rules.get("text_wrap") == "nowrap" else self.at(width)

    def render_strips(
        self, width: int, height: int | None, style: Style, options: RenderOptions
    ) -> list[Strip]:
        """The lines, painted."""
        return self._as(options.rules, width).render_strips(width, height, style, options)

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        """The columns that it needs to stand unbroken."""
        return self._content.get_optimal_width(rules, container_width)

    def get_height(self, rules: RulesMap, width: int) -> int:
        """The lines that it needs in so many columns."""
        return self._as(rules, width).get_height(rules, width)


def _broken(line: Content, width: int, indent: int) -> list[Content]:
    """A line in parts of at most so many cells, all but the first indented: as its own words are, if by 0."""
    if not indent:
        head = _HEAD.match(line.plain)
        indent = head.end() if head is not None else 0
    if not 0 < indent <= width // 3 or line.cell_length <= width:
        return [line]
    first, *further = line[indent:].wrap(width - indent)
    return [line[:indent] + first, *(part.pad_left(indent) for part in further)]
