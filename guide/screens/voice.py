"""What the app needs of a voice. The real one is handed in, since speech stands beside screens."""

from collections.abc import Callable
from typing import Protocol

from guide.run.listening import Takes
from guide.words.spoken import Grammar, Meaning


class Hears(Protocol):
    """Who is told what was heard; called in the voice's own thread."""

    def ready(self) -> None:
        """Listening has begun."""

    def begins(self) -> None:
        """Somebody began to speak."""

    def heard(self, meaning: Meaning, words: str, confidence: float, turn: object) -> None:
        """Words with a meaning; `turn` is that of the `listen_for` they were heard under."""

    def missed(self, why: str, told: str, confidence: float) -> None:
        """Something was said, or sounded so, and does not count: a code for why, a sentence, and how surely
        (0 to 1) it was anything that may be said here."""

    def trouble(self, sentence: str) -> None:
        """Listening has ended by itself."""


class Voice(Protocol):
    """Listens and speaks. No call waits for sound."""

    @property
    def level(self) -> float:
        """How loud it is at the microphone, 0 to 1."""

    @property
    def deaf(self) -> str:
        """What is amiss with hearing though listening goes on, in one sentence; empty while nothing is."""

    @property
    def speaking(self) -> bool:
        """Whether something is being said aloud."""

    @property
    def silent(self) -> str:
        """Why nothing can be said aloud here, in one sentence; empty while it can."""

    def start(self, hears: Hears) -> None:
        """Begin to listen; after trouble, begin again."""

    def listen_for(self, grammar: Grammar, takes: Takes, turn: object) -> None:
        """Hear what this grammar allows, and give `turn` back with it."""

    def shut(self, closed: bool) -> None:
        """Shut the ear, or open it."""

    def say(self, text: str) -> None:
        """Begin to say it aloud; what was being said is cut off."""

    def hush(self) -> None:
        """Be silent, at once."""

    def close(self) -> None:
        """Listen no longer and be silent."""


OpenVoice = Callable[[], Voice]
"""Makes the voice, once it is wanted: nothing of sound is imported before."""
