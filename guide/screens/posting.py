"""From the thread of speech recognition to that of the app: each report becomes a message in the app's queue."""

from collections.abc import Callable
from functools import partial

from textual.message import Message

from guide.screens.talking import Talking


class VoiceTold(Message):
    """A report from speech recognition."""

    def __init__(self, talking: Talking, tell: Callable[[], None]) -> None:
        super().__init__()
        self.talking = talking
        """Whom it is for; another run may be open by now."""
        self.tell = tell


class Posting:
    """Listens for a `Talking` in another thread: what is reported here is called on it in the app's own."""

    def __init__(self, talking: Talking, post: Callable[[Message], bool]) -> None:
        """`post` is safe in any thread and returns at once."""

        def posts(report: Callable[..., None]) -> Callable[..., None]:
            def called(*told: object) -> None:
                post(VoiceTold(talking, partial(report, *told)))

            return called

        self.ready, self.begins = posts(talking.ready), posts(talking.begins)
        self.heard, self.missed = posts(talking.heard), posts(talking.missed)
        self.trouble = posts(talking.trouble)
