"""The answers of a question: numbered, each with its picture where there is room. None is lit beforehand."""

from collections.abc import Sequence
from typing import Any, NamedTuple

from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Click
from textual.geometry import Offset, Region
from textual.widgets import OptionList

from guide.run.desk_words import NUMBERED
from guide.screens.hanging import HangingText
from guide.screens.host import host
from guide.screens.words_shown import clean

_COLUMN = 18
"""Columns of an answer's name beside its picture."""
_BESIDE = 56
"""Columns of the window from which pictures stand beside their answers."""
_ROWS = 18
"""Its rows from which they do."""


class Answer(NamedTuple):
    """One line to pick."""

    text: str
    key: str = ""
    """Its number; empty where no key picks it."""
    picture: tuple[str, ...] = ()
    """A small drawing, line by line."""


def room_for_pictures(columns: int, rows: int) -> bool:
    """Whether pictures stand beside their answers in such a window."""
    return columns >= _BESIDE and rows >= _ROWS


def numbered(texts: Sequence[str], pictures: Sequence[tuple[str, ...]] = ()) -> list[Answer]:
    """Answers with their numbers; past the ninth an arrow leads there."""
    drawn = [*pictures, *[()] * (len(texts) - len(pictures))]
    return [
        Answer(text, str(number) if number <= NUMBERED else "↓", picture)
        for number, (text, picture) in enumerate(zip(texts, drawn, strict=True), 1)
    ]


class Answers(OptionList):
    """A list to pick from; hidden while it is empty. Without focus the screen says which line is lit."""

    def __init__(self, id: str, *, can_focus: bool = False) -> None:  # noqa: A002
        super().__init__(id=id, markup=False)
        self.can_focus = can_focus
        self.answers: list[Answer] = []
        self._made_for: tuple[object, ...] = ()
        self.display = False

    def on_click(self, event: Click) -> None:
        """The second click of a double click answers nothing: another question may be there by then."""
        if event.chain > 1:
            event.prevent_default()

    def scroll_to_region(self, region: Region, **options: Any) -> Offset:
        """Bring a line into sight by what the list stands in: the list itself never scrolls."""
        card = next((one for one in self.ancestors if isinstance(one, VerticalScroll)), None)
        if card is None or not self.region:
            return super().scroll_to_region(region, **options)
        down = self.region.y - card.content_region.y + card.scroll_offset.y
        return card.scroll_to_region(region.translate(Offset(0, down)), **options)

    def show(self, answers: list[Answer], lit: int = -1) -> None:
        """Show other answers, or the same in another window, with this one lit (-1 for none)."""
        width, height = self.app.size
        made_for = (answers, width, room_for_pictures(width, height))
        if made_for != self._made_for:
            self._made_for = made_for
            self.answers = answers
            self.set_options([self._content(answer) for answer in answers])
            self.display = bool(answers)
        wanted = lit if lit >= 0 else None
        if self.highlighted != wanted:
            self.highlighted = wanted

    def _content(self, answer: Answer) -> HangingText:
        ascii_wanted = host(self.app).ascii
        width, height = self.app.size
        name = clean(answer.text, ascii=ascii_wanted)
        key = clean(answer.key, ascii=ascii_wanted)
        parts: list[str | tuple[str, str]] = [(f" {key} ", "bold reverse"), " "] if key else []
        drawn = answer.picture if room_for_pictures(width, height) else ()
        if drawn:
            parts.append((f"{name:{_COLUMN}}", "bold"))
            parts.append(drawn[0])
            parts += [f"\n{'':{_COLUMN + 4}}{row}" for row in drawn[1:]]
            parts += ["\n"] if answer is not self.answers[-1] else []  # each picture by itself
        else:
            parts.append(name)
        return HangingText(Content.assemble(*parts), indent=4 if key else 0)
