"""Words to sound: eSpeak NG, by the library that the package espeakng-loader carries or the system has.

The library (GPL-3.0-or-later, used as it is) is called through ctypes and hands over samples; it makes no sound by
itself. It is meant to be called in the process of `speaker`: a fault in it then ends nothing else.
"""

import ctypes
import ctypes.util
import io
import wave
from functools import lru_cache
from importlib import util
from pathlib import Path
from threading import Lock

from guide.errors import NO_DEVICE, HingesideError

WORDS_A_MINUTE = 165
"""A little slower than the usual 175: it is heard over work."""
_SYNCHRONOUS = 2
"""The samples are handed over in a callback, before the call returns."""
_UTF8, _NO_END_PAUSE = 1, 0x1000
_RATE = 1
_WAV_CALLBACK = ctypes.CFUNCTYPE(
    ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p
)


class NoVoice(HingesideError):
    """Nothing can be said aloud here; `str` is one sentence: what is missing, and how to get it."""

    status = NO_DEVICE


class Synthesiser:
    """One voice. The library holds one at a time for the whole process, so calls are one at a time."""

    def __init__(self, voice: str = "en-us") -> None:
        """Load it. Raises NoVoice where the library or the voice is missing."""
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
        """Speak with this voice from now on. Raises NoVoice where there is none of the name."""
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
    """Where the library lies, and its data where that is not the usual place."""
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
