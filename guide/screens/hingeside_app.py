"""The app: opens the first screen, a run or a practice door, and leads from one to the other."""

import os
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.screen import Screen

from guide.errors import HingesideError
from guide.run.journal import JournalError
from guide.run.session import Session
from guide.run.settings import Settings, keep_detail
from guide.screens.glyphs import wants_ascii
from guide.screens.held import HeldKeys
from guide.screens.run_screen import RunScreen
from guide.screens.run_view import RunView
from guide.screens.themes import THEMES, theme_for
from guide.screens.window import HEIGHTS, WIDTHS, size_classes
from guide.translation import _

if TYPE_CHECKING:
    from guide.practice.practice import Practice
    from guide.screens.voice import OpenVoice
    from guide.site.new_job import NewJob

PAUSED = _("The job is paused; nothing is lost. Enter continues it, Ctrl+Q closes.")


class HingesideApp(App[int]):
    """The first screen, a run or a practice door."""

    CSS_PATH = "hingeside.tcss"
    ENABLE_COMMAND_PALETTE = False
    TITLE = "Hingeside"
    HORIZONTAL_BREAKPOINTS = WIDTHS
    VERTICAL_BREAKPOINTS = HEIGHTS
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+q", "leave", _("Close"), show=False, priority=True)
    ]

    def __init__(
        self,
        session: Session | None = None,
        settings: Settings | None = None,
        notice: str = "",
        *,
        ascii: bool | None = None,  # noqa: A002 - the plain word for it
        clock: Callable[[], float] = time.monotonic,
        open_voice: "OpenVoice | None" = None,
        practice: "Practice | None" = None,
        job: "NewJob | None" = None,
    ) -> None:
        """`practice` is opened if there is no session; of a `job` the name of the door is asked first.

        `open_voice` makes the voice of a run, if one is wanted; it is called after the first frame."""
        super().__init__()
        self.animation_level = "none"
        self.settings = settings or Settings()
        self.ascii = wants_ascii(os.environ) if ascii is None else ascii
        self.clock = clock
        self.held = HeldKeys(clock)
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = theme_for(self.settings.theme, self.console.color_system)
        self._theme_read = self.theme
        self.stylesheet.set_variables(self.get_css_variables())
        self.parting = ""
        self.paused = False
        """Whether the app was closed over a job that goes on."""
        """What could not be done on closing, to be said once the screen is gone."""
        self.site: Path | None = None
        self.open_voice = open_voice
        self._first = (session, notice, practice, job)

    def get_default_screen(self) -> Screen[Any]:
        """The screen that is open at the start."""
        session, notice, practice, job = self._first
        if session is not None:
            screen = self._run_screen(session, notice)
            screen.add_class(*size_classes(*self.size), update=False)  # styled once, not twice
            screen.opens_app = True
            return screen
        if practice is not None:
            from guide.screens.practice_screen import PracticeScreen

            return PracticeScreen(practice, self.clock, self.held)
        from guide.screens.home_screen import HomeScreen  # a run opens without it

        return HomeScreen(notice, job)

    def refresh_css(self, animate: bool = True) -> None:
        """Read the style sheet anew for another theme; the library would at the start too, for the same one."""
        if self.theme != self._theme_read:
            self._theme_read = self.theme
            super().refresh_css(animate)

    def on_mount(self) -> None:
        """Without Unicode the style sheet draws in ASCII."""
        self.set_class(self.ascii, "-ascii")

    @property
    def run_view(self) -> RunView | None:
        """The run that is open; None at any other screen."""
        return self.screen.view if isinstance(self.screen, RunScreen) else None

    # Keys

    def action_press(self, key: str) -> None:
        """A click on a key of the key bar."""
        self.simulate_key(key)

    def action_leave(self) -> None:
        """Pause the job and close; a journal that cannot be written does not keep the app open."""
        run = self.run_view
        if run is not None:
            try:
                run.put_by()
            except JournalError as error:
                self.parting = str(error)
            else:
                self.paused = not run.session.state.ended
            run.session.close()
        self.exit(0)

    def action_help_quit(self) -> None:
        """Ctrl-C copies what is selected; with nothing selected it says how to close."""
        self.notify(_("Ctrl+Q closes; a job is paused and nothing is lost."))

    # Screens

    def open_run(self, session: Session, notice: str = "") -> None:
        """Go to a run."""
        self._go_to(self._run_screen(session, notice))

    def open_home(self, notice: str = "") -> None:
        """Go to the first screen, or back to the doors of a site."""
        if self.site is not None and self.site.is_file():
            from guide.screens.site_screen import SiteScreen

            self._go_to(SiteScreen(self.site, notice))
            return
        from guide.screens.home_screen import HomeScreen

        self._go_to(HomeScreen(notice))

    def open_practice(self, practice: "Practice") -> None:
        """Go to a practice door."""
        from guide.screens.practice_screen import PracticeScreen

        self._go_to(PracticeScreen(practice, self.clock, self.held))

    def _go_to(self, screen: Screen[Any]) -> None:
        """Show another screen in place of the one that is open; the first of all stays beneath."""
        if len(self.screen_stack) > 1:
            self.switch_screen(screen)
        else:
            self.push_screen(screen)

    def _run_screen(self, session: Session, notice: str) -> RunScreen:
        return RunScreen(RunView(session, self.settings.detail, notice, self.clock, self.held))

    def follow_run(self, run: RunView) -> None:
        """What a key or a word may have brought: another detail, or a run that is left."""
        if run.desk.detail != self.settings.detail:
            self.settings = self.settings._replace(detail=run.desk.detail)
            run.message += f" {keep_detail(run.desk.detail)}".rstrip()
        if not run.desk.left:
            return
        run.session.close()
        if run.desk.onward:
            from guide.run.next_job import begin_after

            try:
                session = begin_after(run.session.state, run.desk.onward)
            except (HingesideError, OSError) as error:
                run.message = str(error)
            else:
                self.open_run(session, session.told)
                return
        paused = "" if run.session.state.ended else PAUSED
        self.open_home(run.message if run.desk.onward else paused)
