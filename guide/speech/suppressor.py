"""Noise suppression, by the best library that is installed.

After RNNoise, a small recurrent neural network, most is understood; WebRTC's suppressor exists for more kinds of
machine. Both remove parts of speech too, so that a fifth of the original sound is mixed back. Of the package
pyrnnoise only its shared library is used, never its Python.
"""

import ctypes
from array import array
from functools import lru_cache
from importlib import util
from pathlib import Path
from typing import TYPE_CHECKING, Literal, Protocol

from guide.speech.audio import FRAME, samples

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt
    from webrtc_noise_gain import AudioProcessor

Name = Literal["rnnoise", "webrtc", "none"]

_LIBRARIES = ("librnnoise.so", "rnnoise.dll", "librnnoise.dylib")
_AT_A_TIME = 480
"""Samples at 48 kHz that RNNoise takes, which is 10 ms."""
_UP = 3
"""The ratio of its sample rate to that of recognition."""
_TAPS = 97
"""Of the filter between the two rates: flat to 6.6 kHz, where the recogniser ends, and nothing from 8.2 kHz on."""
_CUTOFF_HZ = 7400.0
RNNOISE_DELAY = 320 + (_TAPS - 1) // _UP
"""Samples by which the sound comes out later: two of its blocks (measured), and half the filter on each way."""
_LEVEL = 2
"""Of WebRTC's 0 to 4: more than 2 gains nothing for the recogniser."""
_TEN_MS = 320
"""Bytes that WebRTC takes at a time."""


class Suppressor(Protocol):
    """Removes steady noise from a stream of frames."""

    name: Name

    def push(self, frame: bytes) -> tuple["array[int]", "array[int]"]:
        """The frame of 30 ms, quieter between words; and as it was, as much later as the other is."""


class Nothing:
    """The sound unchanged, if no library is installed: recognition works, less well in noise."""

    name: Name = "none"

    def push(self, frame: bytes) -> tuple["array[int]", "array[int]"]:
        """The frame, twice."""
        return samples(frame), samples(frame)


class WebRtc:
    """WebRTC's suppressor."""

    name: Name = "webrtc"

    def __init__(self) -> None:
        import webrtc_noise_gain

        self._processor: AudioProcessor = webrtc_noise_gain.AudioProcessor(0, _LEVEL)

    def push(self, frame: bytes) -> tuple["array[int]", "array[int]"]:
        """The frame, and as it was."""
        before = samples(frame)
        process = self._processor.Process10ms
        after = array("h")
        for start in range(0, len(frame), _TEN_MS):
            after.frombytes(process(frame[start : start + _TEN_MS]).audio)
        mixed = [(4 * wet + dry) // 5 for wet, dry in zip(after, before, strict=True)]
        return array("h", mixed), before


class RnNoise:
    """RNNoise, 48 kHz inside."""

    name: Name = "rnnoise"

    def __init__(self) -> None:
        """Raises OSError if the library is missing or does not load, ImportError without numpy."""
        import numpy as np  # no sound library before somebody listens

        self._np = np
        self._library = _library()
        self._state = self._library.rnnoise_create(None)
        places = np.arange(_TAPS) - _TAPS // 2
        taps = np.sinc(2 * _CUTOFF_HZ / (_UP * 16000) * places) * np.hanning(_TAPS + 2)[1:-1]
        self._taps = (taps / taps.sum()).astype(np.float32)
        self._before = np.zeros(_TAPS - 1, np.float32)
        """The end of what was put in, and of what came out, at 48 kHz; and the sound still to be given as it was."""
        self._after = np.zeros(_TAPS - 1, np.float32)
        self._late = np.zeros(RNNOISE_DELAY, np.float32)

    def push(self, frame: bytes) -> tuple["array[int]", "array[int]"]:
        """The frame, and as it was, both RNNOISE_DELAY later."""
        np = self._np
        came = np.frombuffer(frame, "<i2").astype(np.float32)
        wide = np.zeros(_UP * FRAME, np.float32)
        wide[::_UP] = _UP * came
        wide = np.concatenate([self._before, wide])
        self._before = wide[-(_TAPS - 1) :]
        put_in = np.convolve(wide, self._taps, "valid")
        out = np.empty(len(put_in), np.float32)
        for start in range(0, len(put_in), _AT_A_TIME):
            self._library.rnnoise_process_frame(
                self._state, out[start:].ctypes.data, put_in[start:].ctypes.data
            )
        out = np.concatenate([self._after, out])
        self._after = out[-(_TAPS - 1) :]
        wet = np.convolve(out, self._taps, "valid")[::_UP]
        waiting = np.concatenate([self._late, came])
        dry, self._late = waiting[:FRAME], waiting[FRAME:]
        return self._samples(0.8 * wet + 0.2 * dry), self._samples(dry)

    def _samples(self, sound: "npt.NDArray[np.floating]") -> "array[int]":
        return array("h", self._np.clip(sound, -32768, 32767).astype("<i2").tobytes())

    def __del__(self) -> None:
        """The library keeps the state outside Python's memory."""
        if hasattr(self, "_state"):
            self._library.rnnoise_destroy(self._state)


@lru_cache(maxsize=1)
def suppressor_here() -> Name:
    """The best one that works on this machine."""
    try:
        RnNoise()
    except (ImportError, OSError):
        return "webrtc" if util.find_spec("webrtc_noise_gain") is not None else "none"
    return "rnnoise"


def open_suppressor(name: Name | None = None) -> Suppressor:
    """A fresh one, for one stream; the best there is, if none is named."""
    return _KINDS[name or suppressor_here()]()


_KINDS: dict[Name, type[RnNoise | WebRtc | Nothing]] = {
    "rnnoise": RnNoise,
    "webrtc": WebRtc,
    "none": Nothing,
}


@lru_cache(maxsize=1)
def _library() -> ctypes.CDLL:
    found = util.find_spec("pyrnnoise")
    folders = (found.submodule_search_locations if found is not None else None) or ()
    for path in (Path(folder, name) for folder in folders for name in _LIBRARIES):
        if path.is_file():
            library = ctypes.CDLL(str(path))
            library.rnnoise_create.restype = ctypes.c_void_p
            library.rnnoise_create.argtypes = [ctypes.c_void_p]
            library.rnnoise_destroy.argtypes = [ctypes.c_void_p]
            library.rnnoise_process_frame.restype = ctypes.c_float
            library.rnnoise_process_frame.argtypes = [ctypes.c_void_p] * 3
            return library
    raise OSError("pyrnnoise is not installed")
