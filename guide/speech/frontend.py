"""The front end of recognition: noise suppression, a high-pass filter, the level of a frame and the noise floor.

Steady noise is removed first (`suppressor.py`). A high-pass filter at 300 Hz then removes hum, wind and handling noise;
what tells speech sounds apart remains.
"""

import math
from array import array
from collections import deque
from collections.abc import Sequence
from itertools import accumulate, pairwise
from operator import mul

from guide.speech.audio import FRAME, RATE, clamped
from guide.speech.suppressor import Name, open_suppressor

CUTOFF_HZ = 300.0
SILENCE_DB = -20.0
"""Level of a frame with no sound at all: below the last bit of a 16-bit sample."""


class FrontEnd:
    """Noise suppression and the high-pass filter, over a stream of frames."""

    def __init__(self, suppressor: Name | None = None) -> None:
        """With the best suppressor that works here, if none is named."""
        self._suppressor = open_suppressor(suppressor)
        self._filter = HighPass()
        self._plain_filter = HighPass()

    @property
    def suppressor(self) -> Name:
        """The name of the noise suppressor."""
        return self._suppressor.name

    def push(self, frame: bytes) -> tuple[bytes, bytes]:
        """The frame without noise; and, if there is a suppressor, the same only filtered."""
        quieter, before = self._suppressor.push(frame)
        clean = self._filter.push(quieter).tobytes()
        plain = b""
        if self._suppressor.name != "none":
            plain = self._plain_filter.push(before).tobytes()
        return clean, plain


class HighPass:
    """A one-pole high-pass filter over a stream of samples."""

    def __init__(self, cutoff: float = CUTOFF_HZ) -> None:
        self._keep = 1.0 / (1.0 + 2.0 * math.pi * cutoff / RATE)
        self._input = 0
        self._output = 0.0

    def push(self, chunk: Sequence[int]) -> "array[int]":
        """The chunk, filtered."""
        if not chunk:
            return array("h")
        keep = self._keep
        rises = [later - before for before, later in pairwise((self._input, *chunk))]
        out = list(accumulate(rises, lambda held, rise: keep * (held + rise), initial=self._output))
        self._input, self._output = chunk[-1], out[-1]
        return clamped(out[1:])


def level(frame: Sequence[int]) -> float:
    """Level of a frame in dB over one step of a 16-bit sample (0 to 90); SILENCE_DB for none."""
    energy = sum(map(mul, frame, frame)) / max(1, len(frame))
    return 10.0 * math.log10(energy) if energy > 0.01 else SILENCE_DB


class Floor:
    """The noise floor: the lowest decile of the level over the last seconds."""

    def __init__(self, seconds: float = 4.0) -> None:
        self._levels: deque[float] = deque(maxlen=int(seconds * RATE / FRAME))

    def push(self, frame_level: float) -> None:
        """Take the level of the next frame. Frames of zeros, given while the program speaks, are left out."""
        if frame_level > SILENCE_DB:
            self._levels.append(frame_level)

    @property
    def level(self) -> float:
        """The floor in dB; SILENCE_DB before anything was heard."""
        return share(self._levels, 0.1) if self._levels else SILENCE_DB


def share(levels: "Sequence[float] | deque[float]", part: float) -> float:
    """The level that `part` (0 to 1) of the frames stay below."""
    ordered = sorted(levels)
    return ordered[min(len(ordered) - 1, int(part * len(ordered)))]
