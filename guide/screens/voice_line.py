"""The line of the voice on a run's screen: it opens the voice, shows what it does, and leaves the microphone."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from guide.run.settings import YES
from guide.screens.host import host
from guide.screens.run_view import RunView
from guide.screens.words_shown import Words
from guide.translation import _
from guide.words.commands import by_name
from guide.words.language_file import LANGUAGES

if TYPE_CHECKING:
    from guide.screens.talking import Talking

METER = 0.2
"""Seconds between two looks at what the voice does, and how loud it is."""
VOICE_KEYS = tuple(by_name(name).key for name in ("listen", "hush"))
VOICE_IS_OFF = _("Voice is off. P, then S turns it on in the settings; “--voice” for one job only.")


class VoiceLine(Words):
    """What the voice does, and the last thing heard; empty where no voice is wanted."""

    def __init__(self, view: RunView, told: Callable[[], None]) -> None:
        """`told` is called after anything was heard, and when listening begins or ends."""
        super().__init__(id="voice")
        self.talking: Talking | None = None
        """The voice; None if none is wanted, or the run is left."""
        self._view, self._after = view, told

    def on_mount(self) -> None:
        """The meter stands until there is a voice."""
        self._meter = self.set_interval(METER, self.show, pause=True)

    def on_unmount(self) -> None:
        """Leave the microphone."""
        self.close()

    def begin(self) -> None:
        """Listen and speak, if that is wanted; never before the step is on the screen."""
        app = host(self.app)
        if app.open_voice is None:
            return
        from guide.screens.talking import Talking

        self.talking = Talking(
            app.open_voice(),
            self._view,
            push_to_talk=app.settings.push_to_talk == YES,
            in_language=LANGUAGES[app.settings.language],
        )
        self._view.voiced = True
        self.talking.start(Reports(self.talking, self._post))
        self._meter.resume()
        self._after()

    def close(self) -> None:
        """Listen no longer and be silent."""
        talking, self.talking = self.talking, None
        if talking is not None:
            self._meter.pause()
            talking.close()

    def key(self, key: str) -> bool:
        """Whether a key was the voice's own; any key ends what is being said."""
        return self.talking is not None and self.talking.key(key)

    def keyed(self, key: str) -> None:
        """A key went to the run: the voice says the step it came to."""
        if self.talking is not None:
            self.talking.keyed()
        elif key in VOICE_KEYS and not self._view.typing:
            self._view.message = VOICE_IS_OFF

    def show(self) -> None:
        """Show what the voice does now."""
        line, wrong = self.talking.line() if self.talking is not None else ("", False)
        self.tell(line)
        self.set_class(wrong, "error")

    def _post(self, report: Callable[[], None]) -> None:
        """Called in any thread; returns at once."""
        self.call_later(self._told, report)

    def _told(self, report: Callable[[], None]) -> None:
        if self.talking is not None:
            report()
            self._after()


class Reports:
    """Listens in the thread of speech recognition: what is reported here is done on a `Talking` in the app's own."""

    def __init__(self, talking: "Talking", post: Callable[[Callable[[], None]], None]) -> None:
        def posts(report: Callable[..., None]) -> Callable[..., None]:
            return lambda *told: post(partial(report, *told))

        self.ready, self.begins = posts(talking.ready), posts(talking.begins)
        self.heard, self.missed = posts(talking.heard), posts(talking.missed)
        self.trouble = posts(talking.trouble)
