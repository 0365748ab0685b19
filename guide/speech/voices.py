"""Which voice speaks: eSpeak NG where its library loads, else the system's own."""

from typing import Protocol

from guide.speech.synthesis import NoVoice, Synthesiser, available


class Speaks(Protocol):
    """Words to sound."""

    rate: int
    """Samples a second."""

    def speak(self, text: str) -> bytes:
        """The samples of a sentence: 16 bits, one channel. Raises NoVoice."""


def open_voice() -> Speaks:
    """The voice to speak with. Raises NoVoice where there is none, with what to do."""
    if available():
        try:
            return Synthesiser()
        except NoVoice:
            pass  # a library for another machine, or without its data
    from guide.speech.system_voice import SystemVoice

    return SystemVoice()
