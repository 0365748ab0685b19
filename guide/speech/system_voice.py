"""Words to sound by the voices that come with the system, through pyttsx3 (MPL-2.0): Windows, macOS, eSpeak.

Only its writing to a file is used. Its own playing cannot be interrupted, and fails without a word where there is
no device; two files in one of its runs give one; and what it cannot write it does not tell. So each sentence is a
run and a file of its own, which is looked at before it is believed. Meant for the process of `speaker`.
"""

import sys
import tempfile
import wave
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

from guide.speech.aiff import read_aiff
from guide.speech.synthesis import WORDS_A_MINUTE, NoVoice

_ENDING = ".aiff" if sys.platform == "darwin" else ".wav"
"""What the system's voices write; macOS writes AIFF whatever the file is called."""


class SystemVoice:
    """The usual voice of the system; the library behind it takes one in a process."""

    def __init__(self) -> None:
        """Say one word, which shows that it works and how many samples a second it has. Raises NoVoice."""
        try:
            import pyttsx3

            self._engine: Any = pyttsx3.init()
            self._engine.setProperty("rate", WORDS_A_MINUTE)
        except Exception as error:  # each system's driver has errors of its own
            raise NoVoice(
                "No voice is installed that the system can speak with; "
                "“hingeside voice” says how to get one."
            ) from error
        self._folder = tempfile.TemporaryDirectory(prefix="hingeside-")
        self._said = 0
        self.rate, _ = self._sound("Ready.")

    def speak(self, text: str) -> bytes:
        """The samples of a sentence: 16 bits, one channel, `rate` a second. Raises NoVoice."""
        return self._sound(text)[1]

    def _sound(self, text: str) -> tuple[int, bytes]:
        """Rate and samples of a sentence; tried twice, because on a busy machine the library now and then
        writes a file with nothing in it."""
        try:
            return self._written(text)
        except Exception:  # noqa: BLE001 - each system's driver has errors of its own
            try:
                return self._written(text)
            except Exception as error:
                raise NoVoice(
                    f"The system's voice gave no sound for a sentence ({error}); the words stand on the screen."
                ) from error

    def _written(self, text: str) -> tuple[int, bytes]:
        self._said += 1
        path = Path(self._folder.name) / f"{self._said}{_ENDING}"
        try:
            with redirect_stdout(sys.stderr):  # it tells on standard output what it has written
                self._engine.save_to_file(text, str(path))
                self._engine.runAndWait()
            return _read(path)
        finally:
            path.unlink(missing_ok=True)


def _read(path: Path) -> tuple[int, bytes]:
    """Rate and samples. Raises OSError, ValueError or wave.Error for what holds no sound."""
    data = path.read_bytes()
    if data[:4] == b"FORM":
        rate, sound = read_aiff(data)
    else:
        with wave.open(str(path), "rb") as file:
            if file.getsampwidth() != 2 or file.getnchannels() != 1:
                raise ValueError("its samples are not of 16 bits and one channel")
            rate, sound = file.getframerate(), file.readframes(file.getnframes())
    if not sound:
        raise ValueError("the file is empty")
    return rate, sound
