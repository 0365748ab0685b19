"""Speech synthesis: eSpeak NG, by the library that the package espeakng-loader carries or the system has; else a voice
that comes with the system.

The library (GPL-3.0-or-later, used as it is) is called through ctypes and hands over samples; it makes no sound by
itself. It is meant to be called in the process of `speaker`: a fault in it then ends nothing else.

The system's own voice is asked for WAV files. On macOS the program `say` writes them, when told the form of the samples
(by itself it would write AIFF, which needs a reader of its own; so does pyttsx3 there). Elsewhere pyttsx3 (MPL-2.0)
writes them, and no more of it is used: its own playing cannot be interrupted, and fails without a word if there is no
device; two files in one of its runs give one; and what it cannot write it does not tell. So each sentence is a run and
a file of its own, which is checked before it is used.
"""

import ctypes
import ctypes.util
import io
import subprocess
import sys
import tempfile
import wave
from collections.abc import Callable
from contextlib import redirect_stdout
from functools import lru_cache
from importlib import util
from pathlib import Path
from threading import Lock
from typing import Any

from guide.errors import NO_DEVICE, HingesideError

WORDS_A_MINUTE = 165
"""A little slower than the usual 175: it is heard over work."""
_SYNCHRONOUS = 2
"""The samples are handed over in a callback, before the call returns."""
_UTF8, _NO_END_PAUSE = 1, 0x1000
_RATE = 1
_SAY_FORM = "LEI16@22050"
"""Samples of 16 bits, lowest byte first, 22 050 a second, as `say` names the form."""
_WAV_CALLBACK = ctypes.CFUNCTYPE(
    ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p
)


class NoVoice(HingesideError):
    """Nothing can be said aloud here; `str` is one sentence: what is missing, and how to get it."""

    status = NO_DEVICE


class Synthesiser:
    """One voice. The library holds one at a time for the whole process, so calls are one at a time."""

    def __init__(self, voice: str = "en-us") -> None:
        """Load it. Raises NoVoice if the library or the voice is missing."""
        self._library = _loaded()
        self._voice = voice
        self.rate = self._library.rate
        self._library.choose(voice)

    def speak(self, text: str, pace: float = 1.0) -> bytes:
        """The samples of a sentence: 16 bits, one channel, `rate` a second. `pace` 0.5 to 2."""
        return self._library.speak(text, self._voice, round(WORDS_A_MINUTE * pace))


class _Library:
    """The library, begun once: begun again and again it faults in the end."""

    def __init__(self, name: str, data: bytes | None) -> None:
        try:
            self._espeak = ctypes.CDLL(name)
        except OSError as error:
            raise NoVoice(f"The library that speaks ({name}) cannot be loaded: {error}.") from error
        self._espeak.espeak_Synth.argtypes = [
            *(ctypes.c_char_p, ctypes.c_size_t, ctypes.c_uint, ctypes.c_int, ctypes.c_uint),
            *(ctypes.c_uint, ctypes.c_void_p, ctypes.c_void_p),
        ]
        self._lock = Lock()
        self._heard = bytearray()
        self._callback = _WAV_CALLBACK(self._take)
        self.rate: int = self._espeak.espeak_Initialize(_SYNCHRONOUS, 0, data, 0)
        if self.rate <= 0:
            raise NoVoice("eSpeak NG does not start; its data may be missing.")

    def _take(self, samples: "ctypes._Pointer[ctypes.c_short]", count: int, _: object) -> int:
        if samples and count > 0:
            self._heard += ctypes.string_at(samples, 2 * count)
        return 0

    def choose(self, voice: str) -> None:
        """Speak with this voice from now on. Raises NoVoice if there is none of the name."""
        if self._espeak.espeak_SetVoiceByName(voice.encode()) != 0:
            raise NoVoice(f"eSpeak NG has no voice “{voice}”; its data may be missing.")

    def speak(self, text: str, voice: str, words_a_minute: int) -> bytes:
        """The samples of a sentence."""
        with self._lock:
            self.choose(voice)
            self._heard.clear()
            # Each time: whatever else in the process speaks by the library sets its own.
            self._espeak.espeak_SetSynthCallback(self._callback)
            self._espeak.espeak_SetParameter(_RATE, words_a_minute, 0)
            said = text.encode() + b"\0"
            self._espeak.espeak_Synth(said, len(said), 0, 0, 0, _UTF8 | _NO_END_PAUSE, None, None)
            return bytes(self._heard)


@lru_cache(maxsize=1)
def _loaded() -> _Library:
    name, data = _found()
    if name is None:
        raise NoVoice(
            "The library that speaks (eSpeak NG) is not installed; “hingeside voice” says how to get it."
        )
    return _Library(name, data)


def synthesise(text: str, *, voice: str = "en-us", pace: float = 1.0) -> bytes:
    """A sentence as a WAV file. Raises NoVoice."""
    synthesiser = Synthesiser(voice)
    made = io.BytesIO()
    with wave.open(made, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(synthesiser.rate)
        file.writeframes(synthesiser.speak(text, pace))
    return made.getvalue()


def available() -> bool:
    """Whether the library can be found, without loading it."""
    return _found()[0] is not None


def _found() -> tuple[str | None, bytes | None]:
    """The path of the library, and that of its data if it is not the usual one."""
    spec = util.find_spec("espeakng_loader")
    if spec is not None and spec.origin is not None:
        try:
            import espeakng_loader
        except ImportError:  # there, and not whole
            return ctypes.util.find_library("espeak-ng"), None
        library = Path(espeakng_loader.get_library_path())
        if library.is_file():
            return str(library), str(Path(espeakng_loader.get_data_path()).parent).encode()
    return ctypes.util.find_library("espeak-ng"), None


# The voice of the system


class SystemVoice:
    """The usual voice of the system; the library behind it takes one in a process."""

    def __init__(self) -> None:
        """Say one word, which shows that it works and how many samples a second it has. Raises NoVoice."""
        self._write: Callable[[str, Path], None] = (
            _by_say if sys.platform == "darwin" else _by_pyttsx3()
        )
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
                    f"The system's voice gave no sound for a sentence ({error}); the words are on the screen."
                ) from error

    def _written(self, text: str) -> tuple[int, bytes]:
        self._said += 1
        path = Path(self._folder.name) / f"{self._said}.wav"
        try:
            self._write(text, path)
            return _read(path)
        finally:
            path.unlink(missing_ok=True)


def _by_say(text: str, path: Path) -> None:
    """Write a sentence as macOS speaks it; the text goes in by standard input, where no word is read as an option."""
    call = ["say", "--file-format=WAVE", f"--data-format={_SAY_FORM}", "-r", str(WORDS_A_MINUTE)]
    subprocess.run([*call, "-o", str(path), "-f", "-"], input=text.encode(), check=True)


def _by_pyttsx3() -> Callable[[str, Path], None]:
    """A function that writes a sentence with the voice that pyttsx3 finds. Raises NoVoice."""
    try:
        import pyttsx3

        engine: Any = pyttsx3.init()
        engine.setProperty("rate", WORDS_A_MINUTE)
    except Exception as error:  # each system's driver has errors of its own
        raise NoVoice(
            "No voice is installed that the system can speak with; "
            "“hingeside voice” says how to get one."
        ) from error

    def write(text: str, path: Path) -> None:
        with redirect_stdout(sys.stderr):  # it tells on standard output what it has written
            engine.save_to_file(text, str(path))
            engine.runAndWait()

    return write


def _read(path: Path) -> tuple[int, bytes]:
    """Rate and samples. Raises OSError, ValueError, EOFError or wave.Error for what holds no sound."""
    with wave.open(str(path), "rb") as file:
        if file.getsampwidth() != 2 or file.getnchannels() != 1:
            raise ValueError("its samples are not of 16 bits and one channel")
        rate, sound = file.getframerate(), file.readframes(file.getnframes())
    if not sound:
        raise ValueError("the file is empty")
    return rate, sound
