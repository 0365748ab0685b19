"""What lies over a step until the next key: the keys, what is known, a page, or the drawing."""

from textual.containers import Vertical

from guide.run.outcomes import DRAWING, HELP, KNOWN, PAGE
from guide.screens import step_words
from guide.screens.answers import Answer, Answers
from guide.screens.host import host
from guide.screens.picture_panel import PicturePanel
from guide.screens.run_view import RunView
from guide.screens.step_card import PAGE_COLUMNS, card_width
from guide.screens.words_shown import Piece, Words
from guide.translation import _

ROOM_FOR_HINT = 60
"""Columns of the window from which the hint of a drawing has one line."""


class LaidOver(Vertical):
    """A text, a list to go back by, or the drawing in the whole window."""

    def __init__(self) -> None:
        self._told = Words(classes="text", id="over")
        self._known = Answers(id="known")
        self._done = Words(classes="text", id="done")
        self._picture = PicturePanel(classes="picture", id="drawing")
        super().__init__(self._told, self._known, self._done, self._picture, id="laid-over")

    def show(self, view: RunView) -> None:
        """Show what the desk has over the step."""
        over, state, app = view.desk.over, view.session.state, host(self.app)
        width, height = self.app.size
        told: list[Piece] = step_words.help_words(voice=view.voiced) if over == HELP else []
        listed = step_words.known_answers(state) if over == KNOWN else []
        if over == KNOWN:
            heading = _("Known of this opening") if listed else _("Nothing is known yet.")
            told = [(heading, "bold $secondary")]
        if over == PAGE and view.desk.page is not None:
            columns = min(card_width(width, height), PAGE_COLUMNS)
            told = step_words.page_words(view.desk.page, columns, ascii_only=app.ascii)
        drawing = view.drawing if over == DRAWING else None
        foot = (1 if width < ROOM_FOR_HINT else 0) + (2 if view.voiced else 0)
        if not self._picture.show(drawing, width - 2, height - 3 - foot) and drawing is not None:
            told = [drawing.instead]
        self._told.tell(*told)
        done = step_words.done_words(state) if over == KNOWN else []
        self._done.tell(*done)
        self._known.show([Answer(f"- {text}") for text in listed], view.picked)
