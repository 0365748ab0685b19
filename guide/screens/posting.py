"""From the thread of speech recognition to that of the app: each report becomes a message in the app's queue."""

from collections.abc import Callable

from textual.message import Message

from guide.screens.talking import Talking
from guide.words.spoken import Meaning


class VoiceTold(Message):
    """A report from speech recognition."""

    def __init__(self, talking: Talking, tell: Callable[[Talking], None]) -> None:
        super().__init__()
        self.talking = talking
        """Whom it is for; another run may be open by now."""
        self.tell = tell


class Posting:
    """Posts each report to the app; its calls are safe in any thread and return at once."""

    def __init__(self, talking: Talking, post: Callable[[Message], bool]) -> None:
        self._talking = talking
        self._post = post

    def ready(self) -> None:
        """Listening has begun."""
        self._tell(lambda talking: talking.ready())

    def begins(self) -> None:
        """Somebody began to speak."""
        self._tell(lambda talking: talking.begins())

    def heard(self, meaning: Meaning, words: str, confidence: float, turn: object) -> None:
        """Words with a meaning."""
        self._tell(lambda talking: talking.heard(meaning, words, confidence, turn))

    def missed(self, why: str, told: str, confidence: float) -> None:
        """Something was said, or sounded so, and does not count."""
        self._tell(lambda talking: talking.missed(why, told, confidence))

    def trouble(self, sentence: str) -> None:
        """Listening has ended by itself."""
        self._tell(lambda talking: talking.trouble(sentence))

    def _tell(self, tell: Callable[[Talking], None]) -> None:
        self._post(VoiceTold(self._talking, tell))
