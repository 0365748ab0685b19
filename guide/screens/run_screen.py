"""The run on the screen: one screen, whose widgets are updated in place at every step."""

from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.events import Key, Resize
from textual.screen import Screen
from textual.widgets import Input, OptionList

from guide.run.outcomes import DRAWING, HELP, KNOWN, PAGE
from guide.run.prompt import Prompt
from guide.run.stages import minutes_left, standing
from guide.run.standpoint import Standpoint, standpoint
from guide.run.step_drawing import ELEVATION
from guide.screens import step_words
from guide.screens.answers import Answer, Answers, numbered, room_for_pictures
from guide.screens.card import Card
from guide.screens.cautions import Cautions
from guide.screens.door_panel import DoorPanel
from guide.screens.edge import LATCH, NONE, Edge
from guide.screens.figures import in_three_rows
from guide.screens.hold_values import HoldValues
from guide.screens.host import Host, host
from guide.screens.key_bar import KeyBar
from guide.screens.picture_panel import PicturePanel
from guide.screens.run_keys import LOUD
from guide.screens.run_view import CHOOSING, TYPED, RunView
from guide.screens.stage_tape import StageTape
from guide.screens.typed_answer import TypedAnswer
from guide.screens.watch_panel import WatchPanel
from guide.screens.window import COPY, TOO_SMALL, too_small
from guide.screens.words_shown import Piece, Words

READ_EACH = "Read each value off your tape.\nNothing is drilled yet."
STOP_SAYS = "An answer that holes were drilled by has changed."
_PAGES = "@click=app.press('space')"
"""A click on what is below the window pages, as its key does."""
_ROOM_FOR_HINT = 60
"""Columns of the window from which the hint of a drawing has one line."""
_ROWS_OF_HOLES = 14
"""Rows that the holes need to be told apart; where there are fewer the key shows them."""
_PAGE_COLUMNS = 66
_PANEL_FROM = 80
"""Columns of the window from which this door is shown beside the step."""


class RunScreen(Screen[None]):
    """Renders a run and sends it what the person did; it has no rules of its own."""

    AUTO_FOCUS = ""

    def __init__(self, view: RunView) -> None:
        super().__init__()
        self.view = view
        self._parts = 0
        self._showing = False
        self._shown_place: object = None
        self._painted_place: object = None

    @property
    def _hingeside(self) -> Host:
        return host(self.app)

    def compose(self) -> ComposeResult:
        """Every widget that any step needs, made once."""
        yield Words(id="too-small")
        with Horizontal(id="top"):
            yield Words(classes="name", id="job")
            yield StageTape(classes="stage", id="stage")
        with Horizontal(id="stop"):
            yield Words("\n".join(in_three_rows("STOP")), classes="big")
            yield Words("STOP", classes="small")
            yield Words(READ_EACH, classes="said", id="stop-says")
        with Horizontal(id="page"):
            yield Edge()
            with Card(self._fitted, id="leaf", can_focus=False):
                with Vertical(id="step"):
                    yield Words(classes="stand", id="stand")
                    yield Words(classes="text", id="passed")
                    yield Words(classes="ask", id="ask")
                    yield Cautions()
                    yield Words(classes="text", id="lines")
                    yield HoldValues(id="values")
                    yield Answers(id="answers")
                    yield TypedAnswer(self._takes, self._turned, id="typed")
                    yield Words(classes="hint", id="wanted")
                    yield WatchPanel(id="watch")
                    yield PicturePanel(classes="picture", id="picture")
                    yield Words(classes="more", id="more")
                    yield Words(classes="picture", id="drawn")
                with Vertical(id="laid-over"):
                    yield Words(classes="text", id="over")
                    yield Answers(id="known")
                    yield Words(classes="text", id="done")
                    yield PicturePanel(classes="picture", id="drawing")
            yield Edge(right=True)
            yield DoorPanel(id="door")
        with Horizontal(id="foot"):
            yield Words(id="message")
            yield Words(id="below")
        yield Words(id="voice")
        yield KeyBar()

    def on_mount(self) -> None:
        """Show the step that the run is at."""
        self._parts = len(self.children)
        self.show()

    # What the person does

    def on_key(self, event: Key) -> None:
        """Hand a key to the run, unless it moves within what is typed, or copies what is selected."""
        if event.key in COPY or self.query_one(TypedAnswer).edits(event.key):
            return
        event.stop()
        event.prevent_default()
        self.press(event.key, event.character)

    def press(self, key: str, character: str | None) -> None:
        """A key, or a click on one of the key bar."""
        if too_small(*self.app.size):
            return  # nobody can see what it would answer
        if self._typed_ahead():
            return
        self._take_line()
        self._note_read()
        leaf = self.query_one("#leaf", VerticalScroll)
        if key == "space" and not self.view.takes(" ") and self._left_below() > 0:
            self.view.message, self.view.refused = "", False
            leaf.scroll_page_down(animate=False)
            self.show()
            return
        if not self._hingeside.voice_key(key):
            if not self.view.press(key, character):
                self.view.message, self.view.refused = "", False
                self._scroll(key)
            self._hingeside.voice_keyed(key)
        self._hingeside.follow_run()
        self.show()

    @on(OptionList.OptionSelected, "#answers")
    def _answered(self, event: OptionList.OptionSelected) -> None:
        self._clicked(lambda: self.view.pick(event.option_index))

    @on(OptionList.OptionSelected, "#known")
    def _went_back(self, event: OptionList.OptionSelected) -> None:
        self._clicked(lambda: self.view.go_to(event.option_index))

    def _clicked(self, does: Callable[[], None]) -> None:
        if too_small(*self.app.size) or self._typed_ahead():
            return
        does()
        self._hingeside.voice_keyed("")
        self._hingeside.follow_run()
        self.show()

    @on(Input.Changed, "#typed")
    def _typed(self) -> None:
        if self._take_line():
            self._hingeside.voice_keyed("")
            self.show()

    def _takes(self, character: str) -> bool:
        """Whether a character goes to the line, which may hold more than the run was told of yet."""
        self._take_line()
        return self.view.takes(character)

    def _turned(self, way: str) -> None:
        """The wheel over the line moves a number by its step, as the key of that name does."""
        self.press(way, None)

    def _take_line(self) -> bool:
        """Give the run what is on the line now; whether it is something else. The line's own messages come late:
        a key that follows at once must find the whole of what was typed."""
        typed = self.query_one(TypedAnswer)
        if self._showing or not typed.display or typed.value == self.view.text:
            return False
        if too_small(*self.app.size):
            self.show()
            return False
        self.view.write(typed.value)
        return True

    def _scroll(self, key: str) -> None:
        leaf = self.query_one("#leaf", VerticalScroll)
        if key in ("pagedown", "space"):
            leaf.scroll_page_down(animate=False)
        elif key == "pageup":
            leaf.scroll_page_up(animate=False)
        elif key in ("down", "up"):
            leaf.scroll_relative(y=1 if key == "down" else -1, animate=False)

    # What is shown

    def on_resize(self, event: Resize) -> None:
        """Fit the drawings and the figures to the window."""
        self.call_after_refresh(self.show)

    def show(self) -> None:
        """Show the view as it is."""
        if not self._whole:
            return
        view, state = self.view, self.view.session.state
        width, height = self.app.size
        shown, detail = view.shown, view.detail
        self._words("too-small").tell(TOO_SMALL if too_small(width, height) else "")
        hold = shown.kind in LOUD and not view.desk.over and not view.desk.purpose
        self.set_class(hold, "-hold")
        self.set_class(view.desk.over == DRAWING, "-drawing")
        door = str(state.about.get("door", ""))
        self._words("job").tell(f"{state.graph.title} · {door}" if door else state.graph.title)
        minutes, stand = minutes_left(state), standpoint(state)
        self.query_one(StageTape).show(standing(state), minutes, width)
        self._words("stop-says").tell(STOP_SAYS if shown.kind == "stop" else READ_EACH)
        self._show_edges(stand)
        before, self._shown_place = self._shown_place, self._place()
        if before != self._shown_place:
            self.query_one("#leaf", VerticalScroll).scroll_home(animate=False)
            view.read_through = False
        over = bool(view.desk.over)
        self.query_one("#step").display, self.query_one("#laid-over").display = not over, over
        if over:
            self.set_focus(None)
            self._show_over()
        else:
            self._show_step(shown, detail, stand)
        panel = self.query_one(DoorPanel)
        panel.display = not hold and not over and width >= _PANEL_FROM
        if panel.display:
            panel.show(state, minutes)
        self._show_foot()
        self.query_one(KeyBar).show(view.shown_keys())
        self.call_after_refresh(self._painted)

    @property
    def _whole(self) -> bool:
        """Whether every widget is there: not before it is mounted, nor while it closes."""
        return 0 < self._parts <= len(self.children) and self.is_attached and not self._closing

    def _words(self, name: str) -> Words:
        return self.query_one(f"#{name}", Words)

    def _place(self) -> object:
        """What is looked at: when it changes, it is shown from its first line."""
        desk, shown = self.view.desk, self.view.shown
        seen = shown.kind, shown.at, shown.accepts.kind, shown.text
        return seen, desk.at, desk.changing, desk.over, desk.purpose, desk.ending

    def _show_edges(self, stand: Standpoint | None) -> None:
        left, right = self.query(Edge)
        if stand is None:
            left.show(NONE)
            right.show(NONE)
            return
        left.show(stand.shape if stand.hinges == "left" else LATCH)
        right.show(stand.shape if stand.hinges == "right" else LATCH)

    def _show_step(self, shown: Prompt, detail: str, stand: Standpoint | None) -> None:
        view = self.view
        wording = bool(view.desk.purpose)
        looking = "Looking back; nothing changes." if view.at is not None else ""
        self._words("stand").tell(looking or (stand.says if stand is not None else ""))
        self._words("passed").tell(*([] if wording else step_words.passed_words(shown, detail)))
        asked: list[Piece] = [(view.wanted, "bold")] if wording else []
        if view.desk.ending:
            asked = step_words.ending_words(view.session.state)
        self._words("ask").tell(*(asked or step_words.action_words(shown, detail)))
        told = [] if wording else step_words.cautions_of(shown, detail)
        self.query_one(Cautions).show(told)
        self._words("lines").tell(*([] if wording else step_words.line_words(shown, detail)))
        self.query_one(HoldValues).show([] if wording else shown.read_back)
        self._show_answers(shown, wording)
        self._show_line(shown, detail, wording)
        self._show_pictures(wording)
        long = view.tells_long and not wording and not self._timing()
        sketched = shown.accepts.fact == "mount" and room_for_pictures(*self.app.size)
        own = shown.drawing if long and not sketched else ""
        fits = all(len(line) <= self._card_width() for line in own.split("\n"))
        self._words("drawn").tell(own if fits else "")
        words = step_words.long_words(shown) if long else []
        self._words("more").tell(*words)

    def _show_answers(self, shown: Prompt, wording: bool) -> None:
        view = self.view
        answers = self.query_one("#answers", Answers)
        if wording or shown.accepts.kind not in CHOOSING:
            answers.show([])
            return
        texts = [one.text for one in shown.accepts.choices]
        pictures = view.answer_pictures(ascii_only=self._hingeside.ascii)
        answers.show(numbered(texts, pictures), view.picked)

    def _show_line(self, shown: Prompt, detail: str, wording: bool) -> None:
        view = self.view
        typed = self.query_one(TypedAnswer)
        kind = view.accepts.kind
        wanted = (wording and not view.desk.ending) or kind in (*TYPED, "text")
        typed.display = wanted and not view.watch.running
        if typed.display:
            self._showing = True
            typed.write(view.text, retype=view.retype)
            self._showing = False
            if self.focused is not typed:
                self.set_focus(typed, scroll_visible=not shown.card_lines)  # a card is read first
            typed.set_class(view.refused, "-wrong")
        elif self.focused is not None:
            self.set_focus(None)
        words = [] if wording else step_words.wanted_words(shown, detail)
        self._words("wanted").tell(*words)

    def _timing(self) -> bool:
        view = self.view
        return view.accepts.measure == "time" and (view.watch.running or bool(view.watch.swings))

    def _show_pictures(self, wording: bool) -> None:
        view = self.view
        watch = self.query_one(WatchPanel)
        picture = self.query_one("#picture", PicturePanel)
        timing = self._timing() and not wording
        if timing:
            watch.show(view.watch, view.session.state.graph.facts[view.accepts.fact])
        else:
            watch.hide()
        plot = None if wording or self.app.size.width < _PANEL_FROM else view.plot
        if plot is not None or timing:
            picture.show_plot(plot, min(self._card_width(), _PAGE_COLUMNS), 7 if timing else 8)
            return
        height, draws = self.app.size.height, view.shown.draws
        rows = 16 if height >= 34 else 9 if height >= 18 else 0
        if rows < _ROWS_OF_HOLES and draws is not None and draws.view == ELEVATION:
            rows = 0
        if wording or view.accepts.fact == "mount" or view.shown.kind in LOUD:
            rows = 0
        picture.show(view.picture, min(self._card_width(), 76), rows)

    def _card_width(self) -> int:
        width = self.app.size.width
        panel = 24 if width >= _PANEL_FROM else 0
        panel = 34 if width >= 110 else panel
        return max(10, width - panel - 11)

    def _show_over(self) -> None:
        """What lies over the step: the keys, what is known, or the drawing."""
        view, over, state = self.view, self.view.desk.over, self.view.session.state
        told: list[Piece] = step_words.help_words(voice=view.voiced) if over == HELP else []
        listed = step_words.known_answers(state) if over == KNOWN else []
        if over == KNOWN:
            told = [
                ("Known of this opening" if listed else "Nothing is known yet.", "bold $secondary")
            ]
        if over == PAGE and view.desk.page is not None:
            columns = min(self._card_width(), _PAGE_COLUMNS)
            told = step_words.page_words(view.desk.page, columns, ascii_only=self._hingeside.ascii)
        drawing = view.drawing if over == DRAWING else None
        width, height = self.app.size
        foot = (1 if width < _ROOM_FOR_HINT else 0) + (2 if self._hingeside.speaks else 0)
        panel = self.query_one("#drawing", PicturePanel)
        if not panel.show(drawing, width - 2, height - 3 - foot) and drawing is not None:
            told = [drawing.instead]
        self._words("over").tell(*told)
        self._words("done").tell(*(step_words.done_words(state) if over == KNOWN else []))
        known = self.query_one("#known", Answers)
        known.show([Answer(f"- {text}") for text in listed], view.picked)

    def _show_foot(self) -> None:
        view = self.view
        hint = view.hint(narrow=self.app.size.width < _ROOM_FOR_HINT)
        message = view.message if not (view.desk.purpose and view.message == view.wanted) else ""
        mark = "! " if view.refused else ""
        self._words("message").tell(*([f"{mark}{message}"] if message else [hint]))
        self._words("message").set_class(view.refused and bool(message), "error")
        self._words("message").set_class(not message, "-hint")
        self._hingeside.show_voice()

    def voice_says(self, line: str, *, wrong: bool) -> None:
        """Show the line of the voice; empty for none."""
        if self._whole:
            self._words("voice").tell(line)
            self._words("voice").set_class(wrong, "error")

    def tick(self) -> None:
        """Show the time of a running stopwatch."""
        view = self.view
        if view.watch.running and self._whole:
            self.query_one(WatchPanel).show(
                view.watch, view.session.state.graph.facts[view.accepts.fact]
            )

    # Scrolling

    def _left_below(self) -> int:
        leaf = self.query_one("#leaf", VerticalScroll)
        return round(leaf.max_scroll_y - leaf.scroll_y)

    def _fitted(self) -> None:
        """Announce what is below the window."""
        if self._whole:
            left = self._left_below()
            more = f"▼ {left} more: Space"
            self._words("below").tell(*([(more, _PAGES)] if left > 0 else []))

    def _painted(self) -> None:
        """The step is on the screen."""
        self._painted_place = self._shown_place
        self._fitted()

    def _typed_ahead(self) -> bool:
        """Whether a key came before the hold or the cut that it would answer was on the screen."""
        return self.view.desk.read_first and self._painted_place != self._shown_place

    def _note_read(self) -> None:
        """A hold counts only once its last value was shown: not before it was painted, nor while lines are below."""
        if self._painted_place == self._shown_place and self._left_below() <= 0:
            self.view.read_through = True
