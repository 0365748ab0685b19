"""The voice of a run: microphone, recognition and synthesis together, behind the protocol that front ends use."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Protocol

from guide.run.listening import SpeechListener, Takes
from guide.speech.ear import Heard, Missed, Report
from guide.speech.listener import EarApart, FrameSource, Hearing, Listener
from guide.speech.microphone import Microphone
from guide.speech.mouth import Mouth
from guide.words.spoken import Grammar, Meaning, grammar_for

STOP_WORD = "hush"
"""The command that is heard while the program speaks, if a headset keeps its voice out of the microphone."""

DEAD_SECONDS = 3.0
NO_SIGNAL = "Nothing comes from the microphone; is it muted or not plugged in?"


class Speaker(Protocol):
    """Says sentences aloud: a `Mouth`, or another in its place."""

    @property
    def speaking(self) -> bool:
        """Whether something is being said."""

    @property
    def trouble(self) -> str:
        """Why nothing can be said here; empty while it can."""

    def say(self, text: str) -> None:
        """Begin to say it; what was being said is cut off."""

    def hush(self) -> None:
        """Be silent, at once."""

    def close(self) -> None:
        """End it."""


class RunVoice:
    """Listens in a thread of its own from `start` on. Every call returns at once."""

    def __init__(
        self,
        open_ear: Callable[[], Hearing] = EarApart,
        open_source: Callable[[], AbstractContextManager[FrameSource]] = Microphone,
        mouth: Speaker | None = None,
        *,
        headset: bool = False,
        language: str = "english",
        fault: str = "",
    ) -> None:
        """With a `headset`, the word for silence is heard while the program speaks; otherwise nothing is.

        `fault` is a sentence about speech recognition, to be shown while no other is.
        """
        self._open_ear = open_ear
        self._open_source = open_source
        self._mouth: Speaker = mouth or Mouth()
        self._stop = grammar_for("nothing", commands=[STOP_WORD], in_language=language)
        self._headset = headset
        self._fault = fault
        self._closed = False
        self._spoke = False
        self._wanted: tuple[Grammar, Takes, object] | None = None
        self._listener: Listener | None = None
        self._hears: SpeechListener | None = None

    # Listening

    def start(self, hears: SpeechListener) -> None:
        """Begin to listen; after trouble, begin again."""
        self.stop_listening()
        self._hears = hears
        self._listener = Listener(
            self._open_ear,
            self._open_source(),
            self._report,
            hears.trouble,
            self._shut,
            hears.ready,
        )
        if self._wanted is not None:
            self._listener.listen_for(*self._wanted)
        self._listener.start()

    def listen_for(self, grammar: Grammar, takes: Takes, turn: object = None) -> None:
        """From the next frame on, hear what this grammar allows."""
        self._wanted = (grammar, takes, turn)
        if self._listener is not None and not self._spoke:
            self._listener.listen_for(grammar, takes, turn)

    def shut(self, closed: bool) -> None:
        """Turn the microphone off, or on."""
        self._closed = closed

    @property
    def level(self) -> float:
        """How loud it is at the microphone, 0 to 1."""
        return self._listener.level if self._listener is not None else 0.0

    @property
    def deaf(self) -> str:
        """What is wrong with the sound although the microphone opened; empty if nothing is."""
        dead = self._listener is not None and self._listener.dead_seconds >= DEAD_SECONDS
        return NO_SIGNAL if dead else self._fault

    def stop_listening(self) -> None:
        """Listen no longer."""
        if self._listener is not None:
            self._listener.stop()
            self._listener = None

    def _shut(self) -> bool:
        """Called at every frame. With a headset, the grammar is changed when speech output begins and ends."""
        speaking = self._mouth.speaking
        if self._headset and speaking != self._spoke:
            self._spoke = speaking
            if self._listener is not None and self._wanted is not None:
                _, _, turn = self._wanted
                now = (self._stop, _anything, turn) if speaking else self._wanted
                self._listener.listen_for(*now)
        return (speaking and not self._headset) or (self._closed and not speaking)

    def _report(self, report: Report, turn: object) -> None:
        hears = self._hears
        assert hears is not None  # it was given before listening began
        if isinstance(report, Heard):
            hears.heard(report.meaning, report.words, report.confidence, turn)
        elif self._spoke:
            return  # its own voice, or talk: only the word for silence counts while it speaks
        elif isinstance(report, Missed):
            hears.missed(report.why, report.told, report.confidence)
        else:
            hears.begins()

    # Speaking

    def say(self, text: str) -> None:
        """Begin to say it; what was being said is cut off."""
        self._mouth.say(text)

    def hush(self) -> None:
        """Be silent, at once."""
        self._mouth.hush()

    @property
    def speaking(self) -> bool:
        """Whether something is being said."""
        return self._mouth.speaking

    @property
    def silent(self) -> str:
        """Why nothing can be said here; empty while it can."""
        return self._mouth.trouble

    def close(self) -> None:
        """Listen no longer and be silent."""
        listener = self._listener
        self.stop_listening()
        self._mouth.close()
        if listener is not None:
            listener.wait(1.0)  # so that the device is given back before the program ends


def _anything(_: Meaning) -> str:
    return ""
