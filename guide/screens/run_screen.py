"""The run on the screen: one screen, whose widgets are updated in place at every step."""

from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.events import Key, Resize
from textual.screen import Screen
from textual.widgets import Input, OptionList

from guide.run.outcomes import DRAWING
from guide.run.stages import minutes_left, standing
from guide.run.standpoint import standpoint
from guide.screens.door_panel import DoorPanel
from guide.screens.edge import Edge
from guide.screens.host import host
from guide.screens.key_bar import KeyBar
from guide.screens.laid_over import ROOM_FOR_HINT, LaidOver
from guide.screens.run_keys import LOUD
from guide.screens.run_view import RunView
from guide.screens.stage_tape import StageTape
from guide.screens.step_card import Card, StepCard
from guide.screens.stop_band import StopBand
from guide.screens.typed_answer import TypedAnswer
from guide.screens.voice_line import VoiceLine
from guide.screens.window import COPY, TOO_SMALL, panel_width, too_small
from guide.screens.words_shown import Words
from guide.translation import _

TICK = 0.1
"""Seconds between two paintings of a running stopwatch."""
_BELOW = 18
"""Columns of the foot that its edges and what is below the window take."""
_PAGES = "@click=app.press('space')"
"""A click on what is below the window pages, as its key does."""


class RunScreen(Screen[None]):
    """Renders a run and sends it what the person did; it has no rules of its own."""

    AUTO_FOCUS = ""

    def __init__(self, view: RunView) -> None:
        super().__init__()
        self.view = view
        self._voice = VoiceLine(view, self.follow)
        self._edges = Edge("left"), Edge("right")
        self.opens_app = False
        """Whether the app opens with this screen, which the library then styles twice."""
        self._parts = 0
        self._just_styled = False
        self._shown_place: object = None
        self._shown_size: object = None
        self._painted_place: object = None
        self._stop: StopBand | None = None
        self._laid: LaidOver | None = None
        """Both are mounted by the first step or key that needs them: a run begins sooner."""

    def compose(self) -> ComposeResult:
        """Every widget that most steps need, made once."""
        yield Words(TOO_SMALL, id="too-small")
        with Horizontal(id="top"):
            yield Words(classes="name", id="job")
            yield StageTape(classes="stage", id="stage")
        with Horizontal(id="page"):
            yield self._edges[0]
            with Card(self._fitted, id="leaf", can_focus=False):
                yield StepCard(self.view)
            yield self._edges[1]
            yield DoorPanel(id="door")
        with Horizontal(id="foot"):
            yield Words(id="message")
            yield Words(id="below")
        yield self._voice
        yield KeyBar()

    def on_mount(self) -> None:
        """Show the step that the run is at."""
        self._parts = len(self.children)
        self.show()
        self._just_styled = self.opens_app
        self.set_interval(TICK, self.tick)
        self.call_after_refresh(self._voice.begin)

    def update_node_styles(self, animate: bool = True) -> None:
        """Apply the style sheet, unless every widget has just been styled."""
        if not self._just_styled:
            super().update_node_styles(animate)
        self._just_styled = False

    # What the person does

    def on_key(self, event: Key) -> None:
        """Hand a key to the run, unless it moves within what is typed, or copies what is selected."""
        typed = self.query_one(StepCard).typed
        if event.key in COPY or (typed is not None and typed.edits(event.key)):
            return
        event.stop()
        event.prevent_default()
        if self._blind():
            return
        key = event.key
        if typed is not None:
            typed.give()
        self._note_read()
        leaf = self.query_one("#leaf", VerticalScroll)
        if key == "space" and not self.view.takes(" ") and self._left_below() > 0:
            self.view.message, self.view.refused = "", False
            leaf.scroll_page_down(animate=False)
            self.show()
            return
        if not self._voice.key(key):
            if not self.view.press(key, event.character):
                self.view.message, self.view.refused = "", False
                self._scroll(key)
            self._voice.keyed(key)
        self.follow()

    @on(OptionList.OptionSelected, "#answers")
    def _answered(self, event: OptionList.OptionSelected) -> None:
        self._clicked(lambda: self.view.pick(event.option_index))

    @on(OptionList.OptionSelected, "#known")
    def _went_back(self, event: OptionList.OptionSelected) -> None:
        self._clicked(lambda: self.view.go_to(event.option_index))

    def _clicked(self, does: Callable[[], None]) -> None:
        if self._blind():
            return
        does()
        self._voice.keyed("")
        self.follow()

    @on(Input.Changed, "#typed")
    def _typed(self, event: Input.Changed) -> None:
        if isinstance(event.input, TypedAnswer) and event.input.give():
            self._voice.keyed("")
            self.show()

    def _scroll(self, key: str) -> None:
        leaf = self.query_one("#leaf", VerticalScroll)
        if key in ("pagedown", "space"):
            leaf.scroll_page_down(animate=False)
        elif key == "pageup":
            leaf.scroll_page_up(animate=False)
        elif key in ("down", "up"):
            leaf.scroll_relative(y=1 if key == "down" else -1, animate=False)

    # What is shown

    def follow(self) -> None:
        """Show what came of a key, a click or a word; from a run that is left, go on."""
        if self.view.desk.left:
            self._voice.close()
        host(self.app).follow_run(self.view)
        self.show()

    def on_resize(self, event: Resize) -> None:
        """Fit the drawings and the figures to the window, where it has another size."""
        if self.app.size != self._shown_size:
            self.call_after_refresh(self.show)

    def show(self) -> None:
        """Show the view as it is."""
        if not self._whole:
            return
        view, state = self.view, self.view.session.state
        self._shown_size = self.app.size
        hold = view.shown.kind in LOUD and not view.desk.over
        self.set_class(hold, "-hold")
        self.set_class(view.desk.over == DRAWING, "-drawing")
        door = str(state.about.get("door", ""))
        self._words("job").tell(f"{door} · {state.graph.title}" if door else state.graph.title)
        minutes, stand = minutes_left(state), standpoint(state)
        self.query_one(StageTape).show(standing(state), minutes, self.app.size.width)
        if hold:
            self._show_stop(view.shown.kind)
        for edge in self._edges:
            edge.show(stand)
        before, self._shown_place = self._shown_place, self._place()
        if before != self._shown_place:
            self.query_one("#leaf", VerticalScroll).scroll_home(animate=False)
            view.read_through = False
        card, over = self.query_one(StepCard), bool(view.desk.over)
        card.display = not over
        if over:
            self.set_focus(None)
            self._lay_over()
        else:
            card.show(stand)
        if self._laid is not None:
            self._laid.display = over
        panel = self.query_one(DoorPanel)
        panel.display = not hold and not over and panel_width(self.app.size.width) > 0
        if panel.display:
            panel.show(state, minutes)
        self._show_foot()
        self.query_one(KeyBar).show(view.shown_keys())
        self.call_after_refresh(self._painted)

    def _show_stop(self, kind: str) -> None:
        if self._stop is None:
            self._stop = StopBand()
            self.mount(self._stop, before="#page")
        self._stop.show(kind)

    def _lay_over(self) -> None:
        if self._laid is None:
            self._laid = LaidOver(self.view)
            self.query_one(Card).mount(self._laid)
        self._laid.show()

    @property
    def _whole(self) -> bool:
        """Whether every widget is there: not before it is mounted, nor while it closes."""
        return 0 < self._parts <= len(self.children) and self.is_attached and not self._closing

    def _words(self, name: str) -> Words:
        return self.query_one(f"#{name}", Words)

    def _place(self) -> object:
        """What is looked at: when it changes, it is shown from its first line."""
        desk, shown = self.view.desk, self.view.desk.shown
        seen = shown.kind, shown.at, shown.accepts.kind, shown.text
        return seen, desk.at, desk.changing, desk.over, desk.purpose, desk.ending

    def _show_foot(self) -> None:
        view = self.view
        hint = view.hint(narrow=self.app.size.width < ROOM_FOR_HINT)
        message = view.message if not (view.desk.purpose and view.message == view.wanted) else ""
        mark = "! " if view.refused else ""
        self._words("message").tell(*([f"{mark}{message}"] if message else [hint]))
        self._words("message").set_class(view.refused and bool(message), "error")
        self._words("message").set_class(not message, "-hint")
        self._voice.show()

    def tick(self) -> None:
        """Show the time of a running stopwatch."""
        if self.view.watch.running and self._whole:
            self.query_one(StepCard).show_watch()

    # Scrolling

    def _left_below(self) -> int:
        """Rows of the card below the window; the blank ones that end it hide nothing."""
        leaf = self.query_one("#leaf", VerticalScroll)
        card = (
            self._laid
            if self.view.desk.over and self._laid is not None
            else self.query_one(StepCard)
        )
        last = next((one for one in reversed(card.children) if one.display), None)
        blank = last.styles.margin.bottom if last is not None else 0
        return round(leaf.max_scroll_y - leaf.scroll_y) - blank

    @property
    def _message_needs_room(self) -> bool:
        """Whether a message has the whole foot: in a narrow window it would be cut off beside what is below."""
        beside = 2 * (self.app.size.width - _BELOW)
        return bool(self.view.message) and len(self._words("message").text) > beside

    def _fitted(self) -> None:
        """Announce what is below the window."""
        if self._whole:
            left = 0 if self._message_needs_room else self._left_below()
            more = _("▼ {left} more: Space").format(left=left)
            self._words("below").tell(*([(more, _PAGES)] if left > 0 else []))

    def _painted(self) -> None:
        """The step is on the screen."""
        self._painted_place = self._shown_place
        self._fitted()

    def _blind(self) -> bool:
        """Whether nobody can see what would be answered: the window is too small, or the hold or the cut is not on the
        screen yet."""
        ahead = self.view.desk.read_first and self._painted_place != self._shown_place
        return ahead or too_small(*self.app.size)

    def _note_read(self) -> None:
        """A hold counts only once its last value was shown: not before it was painted, nor while lines are below."""
        if self._painted_place == self._shown_place and self._left_below() <= 0:
            self.view.read_through = True
