"""The process that speaks: a line of JSON in, sound out, a line of JSON when it is over.

It is a process of its own so that it can be ended in the middle of a word. In: {"say": text}. Out: {"said": seconds} or
{"trouble": sentence}. Called as `python -m guide.speech.speaker [--nowhere]`; with `--nowhere` the sound is
played in its time, into nothing.
"""

import json
import sys
import time
from collections.abc import Generator
from typing import Protocol

from guide.speech.synthesis import NoVoice, Synthesiser, SystemVoice, available

NO_DEVICE = "Nothing can be said aloud: no loudspeaker found. The words are on the screen."
NO_PLAYER = (
    "The library that plays sound (miniaudio) is not installed; "
    "“hingeside voice” says how to get it."
)


class Speaks(Protocol):
    """Words to sound."""

    rate: int
    """Samples a second."""

    def speak(self, text: str) -> bytes:
        """The samples of a sentence: 16 bits, one channel. Raises NoVoice."""


def open_voice() -> Speaks:
    """The voice to speak with. Raises NoVoice if there is none, with what to do."""
    if available():
        try:
            return Synthesiser()
        except NoVoice:
            pass  # a library for another machine, or without its data
    return SystemVoice()


class _Player:
    def __init__(self, rate: int, *, nowhere: bool) -> None:
        import miniaudio

        backends = [miniaudio.Backend.NULL] if nowhere else None
        self._device = miniaudio.PlaybackDevice(
            output_format=miniaudio.SampleFormat.SIGNED16,
            nchannels=1,
            sample_rate=rate,
            buffersize_msec=60,
            backends=backends,
        )
        self._rate = rate

    def play(self, sound: bytes) -> None:
        """Play it to its end."""
        over = False

        def stream() -> Generator[bytes, int, None]:
            nonlocal over
            wanted = yield b""
            place = 0
            while place < len(sound):
                part = sound[place : place + 2 * wanted]
                place += len(part)
                wanted = yield part
            over = True
            while True:
                wanted = yield bytes(2 * wanted)

        source = stream()
        next(source)
        self._device.start(source)
        while not over:
            time.sleep(0.01)
        time.sleep(0.06)  # what the device still holds
        self._device.stop()


def main(arguments: list[str]) -> int:
    """Speak until the input ends; status 1 if nothing can be said here."""
    try:
        voice = open_voice()
        player = _Player(voice.rate, nowhere="--nowhere" in arguments)
        for line in sys.stdin:
            sound = voice.speak(json.loads(line)["say"])
            player.play(sound)
            print(json.dumps({"said": len(sound) / 2 / voice.rate}), flush=True)
    except NoVoice as error:
        return _trouble(str(error))
    except ImportError:
        return _trouble(NO_PLAYER)
    except Exception as error:
        if type(error).__name__ != "MiniaudioError":
            raise
        return _trouble(NO_DEVICE)
    return 0


def _trouble(sentence: str) -> int:
    print(json.dumps({"trouble": sentence}), flush=True)
    return 1


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
