"""What is done at a step: the one thing to do, its answer, and what helps; made once, and updated in place."""

from collections.abc import Callable

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll

from guide.run.standpoint import Standpoint
from guide.run.step_drawing import ELEVATION
from guide.screens import step_words
from guide.screens.answers import Answers, numbered, room_for_pictures
from guide.screens.cautions import Cautions
from guide.screens.hold_values import HoldValues
from guide.screens.host import host
from guide.screens.picture_panel import PicturePanel
from guide.screens.run_keys import LOUD
from guide.screens.run_view import RunView
from guide.screens.shown_run import CHOOSING, TYPED
from guide.screens.typed_answer import TypedAnswer
from guide.screens.watch_panel import WatchPanel
from guide.screens.words_shown import Piece, Words
from guide.translation import _

PAGE_COLUMNS = 66
"""The most columns of a plot."""
PANEL_FROM = 80
"""Columns of the window from which this door is shown beside the step."""
_ROWS_OF_HOLES = 14
"""Rows that the holes need to be told apart; where there are fewer the key shows them."""


def card_width(columns: int, rows: int) -> int:
    """Columns for the words of the card in a window of so many."""
    panel = 34 if columns >= 110 else 24 if columns >= PANEL_FROM else 0
    return max(10, columns - panel - (19 if rows >= 34 else 11))


class Card(VerticalScroll):
    """What is done at a step; tells when more or less of it is below the window."""

    def __init__(self, fitted: Callable[[], None], id: str, can_focus: bool) -> None:  # noqa: A002
        super().__init__(id=id, can_focus=can_focus)
        self._fitted = fitted

    def on_resize(self) -> None:
        """The window, or what is around the card, has changed."""
        self._fitted()

    def watch_virtual_size(self) -> None:
        """What is in the card has changed."""
        self._fitted()

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """It was scrolled."""
        super().watch_scroll_y(old_value, new_value)
        self._fitted()


class StepCard(Vertical):
    """The step of a run."""

    def __init__(self, takes: Callable[[str], bool], turned: Callable[[str], None]) -> None:
        """`takes` and `turned` as the line for an answer has them."""
        super().__init__(id="step")
        self._takes, self._turned = takes, turned
        self._answers: Answers | None = None
        self.typed: TypedAnswer | None = None
        """The line. It and the list of answers are mounted by the first step that needs them: a run begins sooner."""

    def compose(self) -> ComposeResult:
        """Every text that any step needs."""
        yield Words(classes="stand", id="stand")
        yield Words(classes="text", id="passed")
        yield Words(classes="ask", id="ask")
        yield Cautions()
        yield Words(classes="text", id="lines")
        yield HoldValues(id="values")
        yield Words(classes="hint", id="wanted")
        yield WatchPanel(id="watch")
        yield PicturePanel(classes="picture", id="picture")
        yield Words(classes="more", id="more")
        yield Words(classes="picture", id="drawn")

    def show(self, view: RunView, stand: Standpoint | None) -> None:
        """Show the step as it is, done from where `stand` says."""
        shown, detail = view.desk.shown, view.desk.detail
        wording = bool(view.desk.purpose)
        looking = _("Looking back; nothing changes.") if view.desk.at is not None else ""
        self._tell("stand", looking or (stand.says if stand is not None else ""))
        asked: list[Piece] = [(view.wanted, "bold")] if wording else []
        if view.desk.ending:
            asked = step_words.ending_words(view.session.state)
        self._tell("ask", *(asked or step_words.action_words(shown, detail)))
        self._tell("passed", *([] if wording else step_words.passed_words(shown, detail)))
        self._tell("lines", *([] if wording else step_words.line_words(shown, detail)))
        self._tell("wanted", *([] if wording else step_words.wanted_words(shown, detail)))
        told = [] if wording else step_words.cautions_of(shown, detail)
        self.query_one(Cautions).show(told)
        self.query_one(HoldValues).show([] if wording else shown.read_back)
        self._show_answers(view)
        self._show_line(view)
        self._show_pictures(view)
        long = view.tells_long and not wording and not _timing(view)
        sketched = shown.accepts.fact == "mount" and room_for_pictures(*self.app.size)
        own = shown.drawing if long and not sketched else ""
        width = card_width(*self.app.size)
        self._tell("drawn", own if all(len(line) <= width for line in own.split("\n")) else "")
        self._tell("more", *(step_words.long_words(shown) if long else []))

    def _tell(self, name: str, *pieces: Piece) -> None:
        self.query_one(f"#{name}", Words).tell(*pieces)

    def _show_answers(self, view: RunView) -> None:
        accepts = view.desk.shown.accepts
        if view.desk.purpose or accepts.kind not in CHOOSING:
            if self._answers is not None:
                self._answers.show([])
            return
        if self._answers is None:
            self._answers = Answers(id="answers")
            self.mount(self._answers, after="#values")
        pictures = view.answer_pictures(ascii_only=host(self.app).ascii)
        self._answers.show(numbered([one.text for one in accepts.choices], pictures), view.picked)

    def _show_line(self, view: RunView) -> None:
        wording = view.desk.purpose and not view.desk.ending
        wanted = wording or view.desk.accepts.kind in (*TYPED, "text")
        if not wanted or view.watch.running:
            if self.typed is not None:
                self.typed.display = False
            self.screen.set_focus(None)
            return
        if self.typed is None:
            self.typed = TypedAnswer(self._takes, self._turned, id="typed")
            self.mount(self.typed, before="#wanted")
        self.typed.display = True
        self.typed.write(view.text, retype=view.retype)
        self.typed.set_class(view.refused, "-wrong")
        self.typed.set_class(bool(wording) or view.desk.accepts.kind == "text", "-words")
        seen = not view.desk.shown.card_lines  # a card is read first
        self.screen.set_focus(self.typed, scroll_visible=seen)

    def _show_pictures(self, view: RunView) -> None:
        wording = bool(view.desk.purpose)
        timing = _timing(view) and not wording
        self.show_watch(view, timing=timing)
        picture = self.query_one(PicturePanel)
        width, height = self.app.size
        plot = None if wording or width < PANEL_FROM else view.plot
        if plot is not None or timing:
            picture.show_plot(
                plot, min(card_width(width, height), PAGE_COLUMNS), 7 if timing else 8
            )
            return
        rows, draws = 16 if height >= 34 else 9 if height >= 18 else 0, view.desk.shown.draws
        if rows < _ROWS_OF_HOLES and draws is not None and draws.view == ELEVATION:
            rows = 0
        if wording or view.desk.accepts.fact == "mount" or view.desk.shown.kind in LOUD:
            rows = 0
        picture.show(view.picture, min(card_width(width, height), 76), rows)

    def show_watch(self, view: RunView, *, timing: bool) -> None:
        """Show the stopwatch as it is now, or none."""
        fact = view.session.state.graph.facts[view.desk.accepts.fact] if timing else None
        self.query_one(WatchPanel).show(view.watch, fact)


def _timing(view: RunView) -> bool:
    return view.desk.accepts.measure == "time" and (view.watch.running or bool(view.watch.swings))
