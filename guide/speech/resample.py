"""Another sample rate to 16 kHz, chunk by chunk, by a windowed sinc filter.

The filter lets through what lies below half of the lower of the two rates; each output sample is the sum of the
inputs around its place, with the weights of the nearest of 256 places between two inputs. (J. O. Smith,
"Digital Audio Resampling", the method of a table of filter values.)
"""

import math
from array import array
from collections.abc import Sequence
from operator import mul

from guide.speech.frames import RATE, clamped

_PLACES = 256
_CROSSINGS = 10
"""Zero crossings of the sinc kept on each side."""


class Resampler:
    """One stream of samples of `rate` (1 to 768 000 a second) as 16 kHz."""

    def __init__(self, rate: int) -> None:
        self._step = rate / RATE
        stretch = max(1.0, self._step)
        self._half = math.ceil(_CROSSINGS * stretch)
        self._table = [_weights(place / _PLACES, self._half, stretch) for place in range(_PLACES)]
        self._held = [0] * self._half
        self._at = float(self._half)
        """The place of the next output among the held inputs."""

    def push(self, chunk: Sequence[int]) -> "array[int]":
        """The output that is certain once `chunk` has come."""
        if self._step == 1.0:
            return array("h", chunk)
        held = self._held
        held.extend(chunk)
        half, step, at, table = self._half, self._step, self._at, self._table
        last = len(held) - half - 1
        found: list[float] = []
        while at < last:
            start = int(at)
            weights = table[int((at - start) * _PLACES)]
            found.append(sum(map(mul, weights, held[start - half + 1 : start + half + 1])))
            at += step
        done = max(0, int(at) - half)
        self._held = held[done:]
        self._at = at - done
        return clamped(found)

    def flush(self) -> "array[int]":
        """What is left when the stream ends."""
        return self.push([0] * (2 * self._half)) if self._step != 1.0 else array("h")


def _weights(place: float, half: int, stretch: float) -> list[float]:
    """The weights of the inputs from `half - 1` before an output to `half` after it."""
    found = []
    for offset in range(1 - half, half + 1):
        away = (offset - place) / stretch
        sinc = math.sin(math.pi * away) / (math.pi * away) if away else 1.0
        window = 0.5 + 0.5 * math.cos(math.pi * min(1.0, abs(offset - place) / half))
        found.append(sinc * window / stretch)
    return found
