"""The protocol of a voice in the app. `guide.speech` fills it; the two parts do not import each other."""

from collections.abc import Callable
from typing import Protocol

from guide.run.listening import SpeechListener, Takes
from guide.words.spoken import Grammar


class Voice(Protocol):
    """Listens and speaks. No call waits for sound."""

    @property
    def level(self) -> float:
        """How loud it is at the microphone, 0 to 1."""

    @property
    def deaf(self) -> str:
        """What is wrong with the sound although listening goes on, in one sentence; empty if nothing is."""

    @property
    def speaking(self) -> bool:
        """Whether something is being said aloud."""

    @property
    def silent(self) -> str:
        """Why nothing can be said aloud here, in one sentence; empty while it can."""

    def start(self, hears: SpeechListener) -> None:
        """Begin to listen; after trouble, begin again."""

    def listen_for(self, grammar: Grammar, takes: Takes, turn: object) -> None:
        """Hear what this grammar allows, and give `turn` back with it."""

    def shut(self, closed: bool) -> None:
        """Turn the microphone off, or on."""

    def say(self, text: str) -> None:
        """Begin to say it aloud; what was being said is cut off."""

    def hush(self) -> None:
        """Be silent, at once."""

    def close(self) -> None:
        """Listen no longer and be silent."""


OpenVoice = Callable[[], Voice]
"""Makes the voice, once it is wanted: nothing of sound is imported before."""
