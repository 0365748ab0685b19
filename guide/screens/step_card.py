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
from guide.screens.window import PANEL_FROM, panel_width
from guide.screens.words_shown import Piece, Words

_ROWS_OF_HOLES = 14
"""Rows that the holes need to be told apart; where there are fewer the key shows them."""


def card_width(columns: int, rows: int) -> int:
    """Columns for the words of the card in a window of so many."""
    return max(10, columns - panel_width(columns) - (19 if rows >= 34 else 11))


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

    def __init__(self, view: RunView) -> None:
        super().__init__(id="step")
        self._view = view
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

    def show(self, stand: Standpoint | None) -> None:
        """Show the step as it is, done from where `stand` says."""
        view = self._view
        shown, detail = view.shown, view.desk.detail
        looking = step_words.looking_words(view.desk)
        self._tell("stand", looking or (stand.says if stand is not None else ""))
        ending = step_words.ending_words(view.session.state) if view.desk.ending else []
        self._tell("ask", *(ending or step_words.action_words(shown, detail)))
        self._tell("passed", *step_words.passed_words(shown, detail))
        self._tell("lines", *step_words.line_words(shown, detail))
        self._tell("wanted", *step_words.wanted_words(shown, detail))
        self.query_one(Cautions).show(step_words.cautions_of(shown, detail))
        self.query_one(HoldValues).show(shown.read_back)
        self._show_answers()
        self._show_line()
        self._show_pictures()
        long = view.tells_long and not self._timing
        sketched = shown.accepts.fact == "mount" and room_for_pictures(*self.app.size)
        own = shown.drawing if long and not sketched else ""
        width = card_width(*self.app.size)
        self._tell("drawn", own if all(len(line) <= width for line in own.split("\n")) else "")
        self._tell("more", *(step_words.long_words(shown) if long else []))

    def _tell(self, name: str, *pieces: Piece) -> None:
        self.query_one(f"#{name}", Words).tell(*pieces)

    def _show_answers(self) -> None:
        view, accepts = self._view, self._view.shown.accepts
        if accepts.kind not in CHOOSING:
            if self._answers is not None:
                self._answers.show([])
            return
        if self._answers is None:
            self._answers = Answers(id="answers")
            self.mount(self._answers, after="#values")
        pictures = view.answer_pictures(ascii_only=host(self.app).ascii)
        self._answers.show(numbered([one.text for one in accepts.choices], pictures), view.picked)

    def _show_line(self) -> None:
        view = self._view
        wording = view.desk.purpose and not view.desk.ending
        wanted = wording or view.desk.accepts.kind in (*TYPED, "text")
        if not wanted or view.watch.running:
            if self.typed is not None:
                self.typed.display = False
            self.screen.set_focus(None)
            return
        if self.typed is None:
            self.typed = TypedAnswer(view)
            self.mount(self.typed, before="#wanted")
        self.typed.display = True
        self.typed.show()
        self.typed.set_class(view.refused, "-wrong")
        self.typed.set_class(bool(wording) or view.desk.accepts.kind == "text", "-words")
        seen = not view.desk.shown.card_lines  # a card is read first
        self.screen.set_focus(self.typed, scroll_visible=seen)

    def _show_pictures(self) -> None:
        view, timing, draws = self._view, self._timing, self._view.shown.draws
        self.show_watch()
        picture = self.query_one(PicturePanel)
        width, height = self.app.size
        plot = None if view.desk.purpose or width < PANEL_FROM else view.plot
        if plot is not None or timing:
            picture.show_plot(
                plot, min(card_width(width, height), step_words.PLOT_COLUMNS), 7 if timing else 8
            )
            return
        rows = 16 if height >= 34 else 9 if height >= 18 else 0
        if draws is None or (rows < _ROWS_OF_HOLES and draws.view == ELEVATION):
            rows = 0
        if view.desk.accepts.fact == "mount" or view.shown.kind in LOUD:
            rows = 0
        picture.show(view.picture, min(card_width(width, height), 76), rows)

    @property
    def _timing(self) -> bool:
        """Whether the stopwatch is seen: it runs, or has taken a swing."""
        desk, watch = self._view.desk, self._view.watch
        timed = desk.accepts.measure == "time" and not desk.purpose
        return timed and (watch.running or bool(watch.swings))

    def show_watch(self) -> None:
        """Show the stopwatch as it is now, or none."""
        view = self._view
        fact = view.session.state.graph.facts[view.desk.accepts.fact] if self._timing else None
        self.query_one(WatchPanel).show(view.watch, fact)
