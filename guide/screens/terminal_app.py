"""The app: one pane, painted from whichever view is open.

The pane is made once; nothing is mounted, recomposed or parsed at a step.
"""

import gc
import os
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice
from typing import TYPE_CHECKING, ClassVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.events import Click, Key, Paste, Resize
from textual.screen import Screen

from guide.run.catalogue import RunSummary
from guide.run.journal import JournalError
from guide.run.session import Session
from guide.run.settings import YES, Settings, keep_detail
from guide.screens.glyphs import wants_ascii
from guide.screens.layout import TOO_SMALL, arrange, roomy, too_small
from guide.screens.paint import Pane
from guide.screens.requests import NewJob, Practise
from guide.screens.rows import Row, fit
from guide.screens.run_view import RunView
from guide.screens.view import RecordText, View
from guide.words.commands import by_name
from guide.words.language_file import LANGUAGES

if TYPE_CHECKING:
    from guide.practice.practice import Practice
    from guide.screens.home_view import HomeView
    from guide.screens.posting import VoiceTold
    from guide.screens.practice_view import PracticeView
    from guide.screens.talking import Talking
    from guide.screens.voice import OpenVoice

TICK = 0.5
"""Seconds between two paintings of a running stopwatch."""
FRAME = 0.1
"""Seconds between two paintings of a leaf that moves."""
AT_ONCE = 16
"""Runs that are read between two looks at the keys; each takes about a millisecond."""
METER = 0.2
"""Seconds between two looks at what the voice does, and how loud it is."""
IDLE = 2.0
"""Seconds without a key after which the garbage of the last steps is collected."""
FULL_COLLECTION = 30
"""Every so many collections a full one."""
VOICE_KEYS = tuple(by_name(name).key for name in ("listen", "hush"))
VOICE_IS_OFF = (
    "Voice is off. “--voice” turns it on for a run, “hingeside settings voice=on” for good."
)


class KeyScreen(Screen[None]):
    """The one screen. Gets every key itself, so that letters are commands if nothing is typed."""

    ALLOW_SELECT = False

    def on_key(self, event: Key) -> None:
        """Hand the key to the view."""
        event.stop()
        event.prevent_default()
        self._app().pressed(event.key, event.character)

    def on_paste(self, event: Paste) -> None:
        """Hand the pasted text to the view."""
        event.stop()
        self._app().pasted(event.text)

    def on_click(self, event: Click) -> None:
        """Press the key of the clicked place."""
        self._app().clicked(event.screen_x, event.screen_y)

    def on_resize(self, event: Resize) -> None:
        """Fit the page to the new size."""
        self._app().paint()

    def _app(self) -> "HingesideApp":
        app = self.app
        assert isinstance(app, HingesideApp)  # no other app has this screen
        return app


class HingesideApp(App[int]):
    """A run, or the first screen."""

    ENABLE_COMMAND_PALETTE = False
    TITLE = "Hingeside"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+q,ctrl+c", "leave", "Close", show=False, priority=True)
    ]

    def __init__(
        self,
        session: Session | None = None,
        settings: Settings | None = None,
        notice: str = "",
        *,
        ascii: bool | None = None,  # noqa: A002 - the plain word for it
        clock: Callable[[], float] = time.monotonic,
        record_text: RecordText | None = None,
        open_voice: "OpenVoice | None" = None,
        practice: "Practice | None" = None,
        job: "NewJob | None" = None,
    ) -> None:
        """`practice` is opened if there is no session; of a `job` the name of the door is asked first.

        `open_voice` makes the voice of a run, if one is wanted; it is called after the first frame."""
        super().__init__(ansi_color=True)
        self.animation_level = "none"
        self.settings = settings or Settings()
        self.ascii = wants_ascii(os.environ) if ascii is None else ascii
        self.clock = clock
        self.pane = Pane()
        self.parting = ""
        """What could not be done on closing, to be said once the screen is gone."""
        self.run_view: RunView | None = None
        """The run that is open; None at the first screen."""
        self.home: HomeView | None = None
        """The first screen, once it was come to."""
        self.practice_view: PracticeView | None = None
        """The practice door that is open."""
        self.talking: Talking | None = None
        """The voice of the run that is open; None if none is wanted."""
        self._open_voice = open_voice
        self.view: View = self._first_view(session, notice, practice)
        if job is not None and self.home is not None:
            self.home.name_door_of(job)
        self._record_text = record_text
        self._unread: Iterator[RunSummary] = iter(())
        self._voice_row: Row | None = None
        self._last_key = 0.0
        self._collections = 0

    # Textual's own

    def get_default_screen(self) -> Screen[None]:
        """The one screen."""
        return KeyScreen()

    def compose(self) -> ComposeResult:
        """The one pane."""
        yield self.pane

    def on_mount(self) -> None:
        """Begin the idle work once the first frame is on its way."""
        self.call_after_refresh(self._settle)
        self.set_interval(TICK, self._tick)
        self._meter = self.set_interval(METER, self._look_at_voice, pause=True)
        self._frames = self.set_interval(FRAME, self._frame, pause=self.practice_view is None)

    def on_unmount(self) -> None:
        """Leave the collector as it was found, and the microphone."""
        gc.enable()
        self._close_voice()

    # Keys

    def pressed(self, key: str, character: str | None) -> None:
        """A key for the view, and what comes of it."""
        if too_small(*self.size):
            return  # nobody can see what it would answer
        self._last_key = time.monotonic()
        talking = self.talking
        if talking is None or not talking.key(key):
            self.view.press(key, character)
            if talking is not None:
                talking.keyed()
            elif key in VOICE_KEYS and self.run_view is not None and not self.run_view.typing:
                self.run_view.message = VOICE_IS_OFF
        self._follow()
        self.paint()

    def pasted(self, text: str) -> None:
        """A pasted text for the view."""
        if too_small(*self.size):
            return
        self.view.paste(text)
        if self.talking is not None:
            self.talking.keyed()
        self.paint()

    def clicked(self, column: int, row: int) -> None:
        """Press the key of a place on the screen."""
        if row < len(self.pane.lines):
            for start, end, key in self.pane.lines[row].keys:
                if start <= column < end:
                    self.pressed(key, key if len(key) == 1 else None)
                    return

    def action_leave(self) -> None:
        """Pause the job and close; a journal that cannot be written does not keep the app open."""
        if self.run_view is not None:
            try:
                self.run_view.put_by()
            except JournalError as error:
                self.parting = str(error)
            self.run_view.session.close()
        self.exit(0)

    def _follow(self) -> None:
        """What a key may have brought: a view that is left, or something to be opened."""
        run, home = self.run_view, self.home
        if run is not None:
            if run.detail != self.settings.detail:
                self.settings = replace(self.settings, detail=run.detail)
                run.message += f" {keep_detail(run.detail)}".rstrip()
            if run.leaving:
                self._close_voice()
                run.session.close()
                ended = bool(run.session.state.ended)
                if not (run.desk.onward and self._go_on_after(run)):
                    told = "" if ended else "The job is paused; nothing is lost."
                    self.view = self._open_home(run.message if run.desk.onward else told)
                    self.call_after_refresh(self._list_runs)
        elif self.practice_view is not None:
            if self.practice_view.leaving:
                self._frames.pause()
                self.view = self._open_home("")
                self.call_after_refresh(self._list_runs)
        elif home is not None and home.request is not None:
            home.say("One moment…")
            self.call_after_refresh(self._carry_out, home)

    # Views

    def _first_view(
        self, session: Session | None, notice: str, practice: "Practice | None"
    ) -> View:
        if session is not None:
            return self._open_run(session, notice)
        return self._open_home(notice) if practice is None else self._open_practice(practice)

    def _go_on_after(self, run: RunView) -> bool:
        """Open the job that follows at the same door; False where it cannot be begun, which its message then says."""
        from guide.screens.opening import job_after

        session = job_after(run)
        if session is None:
            return False
        self.view = self._open_run(session, session.told)
        self.call_after_refresh(self._begin_voice)
        return True

    def _open_practice(self, practice: "Practice") -> "PracticeView":
        from guide.run.practice_results import keep
        from guide.screens.practice_view import PracticeView

        self.practice_view = PracticeView(practice, self.clock, keep)
        return self.practice_view

    def _open_run(self, session: Session, notice: str = "") -> RunView:
        self.run_view = RunView(session, self.settings.detail, notice, self.clock)
        return self.run_view

    def _open_home(self, notice: str) -> "HomeView":
        from guide.screens.home_view import HomeView  # a run opens without it

        self.run_view = self.practice_view = None
        self.home = HomeView(notice, self.clock)
        return self.home

    def _carry_out(self, home: "HomeView") -> None:
        from guide.screens.opening import carry_out, practice_at

        if isinstance(home.request, Practise):
            practice = practice_at(home)
            if practice is not None:
                self.view = self._open_practice(practice)
                self._frames.resume()
            self.paint()
            return
        session = carry_out(home, self.settings, self._record_text)
        if session is not None:
            self.view = self._open_run(session, session.told)
            self.call_after_refresh(self._begin_voice)
        self.paint()

    # Voice

    def _begin_voice(self) -> None:
        """Listen and speak, if that is wanted; never before the step is on the screen."""
        run = self.run_view
        if run is None or self._open_voice is None or self.talking is not None:
            return
        from guide.screens.posting import Posting
        from guide.screens.talking import Talking

        talking = Talking(
            self._open_voice(),
            run,
            push_to_talk=self.settings.push_to_talk == YES,
            in_language=LANGUAGES[self.settings.language],
        )
        run.voiced = True
        self.talking = talking
        talking.start(Posting(talking, self.post_message))
        self._meter.resume()
        self.paint()

    def _close_voice(self) -> None:
        talking, self.talking = self.talking, None
        if talking is not None:
            self._meter.pause()
            talking.close()

    def on_voice_told(self, message: "VoiceTold") -> None:
        """Something was heard, or listening begins or ends."""
        if message.talking is self.talking:
            self._last_key = time.monotonic()
            message.tell(message.talking)
            self._follow()
            self.paint()

    def _look_at_voice(self) -> None:
        if self.talking is not None and self.talking.row() != self._voice_row:
            self.paint()

    # Idle work

    def _settle(self) -> None:
        """After the first frame: take the collector out of the way of keys, and list the runs."""
        gc.collect()
        gc.disable()
        self._begin_voice()
        self._list_runs()

    def _list_runs(self) -> None:
        if self.run_view is None and self.practice_view is None:
            from guide.run.catalogue import at_once, read_now

            known, unread = at_once()
            self._unread = read_now(unread)
            if self.home is not None:
                self.home.add_runs(known)
            self._read_some()

    def _read_some(self) -> None:
        """Read some runs for the first screen; keys come in between."""
        home = self.home
        if home is None or self.view is not home:
            return
        runs = list(islice(self._unread, AT_ONCE))
        if runs:
            home.add_runs(runs)
            self.call_later(self._read_some)
        else:
            home.all_read()
        self.paint()

    def _frame(self) -> None:
        if self.practice_view is not None and self.practice_view.ticking:
            self.paint()

    def _tick(self) -> None:
        if self.view.ticking:
            self.paint()
        elif self._last_key and time.monotonic() - self._last_key > IDLE:
            self._last_key = 0.0
            self._collections += 1
            gc.collect(2 if self._collections % FULL_COLLECTION == 0 else 1)

    # Painting

    def paint(self) -> None:
        """Show the view's page in the window as it is."""
        width, height = self.size
        if too_small(width, height):
            self.pane.show(fit([Row(TOO_SMALL)], width, ascii=self.ascii))
            return
        page = self.view.page(roomy=roomy(height))
        if self.talking is not None:
            page.voice = self._voice_row = self.talking.row()
        fitted = arrange(page, width, height, self.view.offset, ascii=self.ascii)
        self.view.fitted(fitted.offset, fitted.window, fitted.more)
        self.pane.show([fitted.bar, *fitted.middle, fitted.entry, fitted.keys])
