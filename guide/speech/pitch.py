"""Whether a sound has a pitch, as every saying has: what tells a voice from air let off or a board dragged.

The normalised autocorrelation of a frame at the periods of a voice, as in any textbook of speech processing. A drill
has a pitch as well; the other scores are for that.
"""

from array import array
from collections.abc import Sequence
from itertools import accumulate
from operator import mul

from guide.speech.audio import FRAME, samples
from guide.speech.frontend import share

_DOWN = 4
"""Every so many samples become one: 4 kHz is enough for a pitch."""
_LONG = FRAME // _DOWN
"""Samples of a frame at that rate."""
_SHORTEST, _LONGEST = 10, 57
"""Periods looked for, in such samples: 400 to 70 Hz."""
_ALIKE = 0.6
"""Correlation from one period to the next of a frame that has a pitch. In bursts of noise 3 in 100 frames come so far,
in sayings 41 at the least (rms, slt, ked, clean and with pink noise at 20 dB)."""
_LEAST = 0.12
"""Part of the loud frames that must have one; “back” has few."""
_LOUD_DB = 12.0
"""So far below the loud ones a frame still counts as loud."""


def has_pitch(pcm: bytes, levels: Sequence[float]) -> bool:
    """Whether enough of the loud frames of 16 kHz sound have a pitch; `levels` are those of its frames in dB."""
    if not levels:
        return False
    loud = share(levels, 0.75) - _LOUD_DB
    numbers = [number for number, level in enumerate(levels) if level > loud]
    numbers.sort(key=levels.__getitem__, reverse=True)
    sound = _slower(samples(pcm))
    needed = _LEAST * len(numbers)
    found = 0
    for number in numbers:
        found += _repeats(sound[number * _LONG : number * _LONG + _LONG + _LONGEST])
        if found >= needed:
            return True
    return False


def _slower(sound: "array[int]") -> list[int]:
    parts = (sound[start::_DOWN] for start in range(_DOWN))
    return list(map(sum, zip(*parts, strict=False)))


def _repeats(sound: Sequence[int]) -> bool:
    """Whether a frame with what follows it is like itself a period later."""
    long = len(sound) - _LONGEST
    if long < _LONG // 2:
        return False
    frame = sound[:long]
    energies = [0, *accumulate(map(mul, sound, sound))]
    least = _ALIKE**2 * energies[long]
    for period in range(_SHORTEST, _LONGEST):
        alike = sum(map(mul, frame, sound[period : period + long]))
        if alike > 0 and alike * alike >= least * (energies[period + long] - energies[period]) > 0:
            return True
    return False
