"""Lines as the terminal shows them: the one widget of the app.

Texts go to the terminal as segments, never through anything that reads markup. Only the lines that
changed are painted again, which is what keeps a key quick.
"""

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from guide.screens.rows import Line

STYLES = {
    "": Style(),
    "action": Style(bold=True),
    "bold": Style(bold=True),
    "dim": Style(dim=True),
    "rule": Style(color="green", bold=True),
    "label": Style(underline=True),
    "bar": Style(reverse=True),
    "key": Style(reverse=True),
    "picked": Style(reverse=True, bold=True),
    "cursor": Style(reverse=True),
    "error": Style(color="red", bold=True),
    "ok": Style(color="green", bold=True),
    "stop": Style(color="bright_white", bgcolor="red", bold=True),
    "danger": Style(color="bright_white", bgcolor="red", bold=True),
    "warning": Style(color="black", bgcolor="#ff8c1a", bold=True),
    "caution": Style(color="black", bgcolor="bright_yellow", bold=True),
    "notice": Style(color="bright_white", bgcolor="blue", bold=True),
}
"""How each kind of text looks, in the terminal's own colours; 16 colours have no orange and take their
nearest. Signal colours after ANSI Z535.4 (red, orange, yellow, blue); the word is always beside the
colour, which NO_COLOR takes away."""


class Pane(Widget):
    """The whole window, line by line."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "Pane { width: 100%; height: 100%; }"

    def __init__(self) -> None:
        super().__init__()
        self.auto_links = False
        self.lines: list[Line] = []
        """What is shown, from the top."""

    def show(self, lines: list[Line]) -> None:
        """Show these lines; those that are as they were stay untouched."""
        before, self.lines = self.lines, lines
        if len(before) != len(lines):
            self.refresh()
            return
        width = self.size.width
        changed = [y for y, line in enumerate(lines) if line is not before[y] and line != before[y]]
        if changed:
            self.refresh(*(Region(0, y, width, 1) for y in changed))

    def render_line(self, y: int) -> Strip:
        """One line, filled to the edge."""
        if y >= len(self.lines):
            return Strip.blank(self.size.width)
        segments = [Segment(text, STYLES[style]) for text, style in self.lines[y].pieces]
        return Strip(segments).adjust_cell_length(self.size.width, STYLES[""])
