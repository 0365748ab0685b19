"""Endpoint detection: from a stream of frames to segments of speech, a finite-state machine over the frames.

A frame counts as speech if PocketSphinx's voice activity detector says so and its level is above the noise floor. The
detector alone keeps a segment open in the steady noise of a room, and goes on for a tenth of a second after a word;
the level alone mistakes every knock for a word.

Sound without pitch is rejected as noise, such as released air or a dragged board. The test is the normalised
autocorrelation of a frame at the periods of a voice (Rabiner, IEEE Transactions on Acoustics, Speech, and Signal
Processing 25, 1977). A drill has a pitch as well; the confidence measure rejects it.
"""

from array import array
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate, islice
from operator import mul
from typing import TYPE_CHECKING, NamedTuple

from guide.speech.audio import FRAME, FRAME_SECONDS, RATE, samples
from guide.speech.frontend import SILENCE_DB, Floor, level, share

if TYPE_CHECKING:
    from pocketsphinx import Vad

AHEAD_SECONDS = 0.18
"""Quiet [s] after which a segment is decoded in advance, although it may go on. Between the sounds of a word there
are up to 0.15 s."""
PAUSE_SECONDS = 0.27
"""Quiet [s] that ends a command that was understood."""
LONG_PAUSE_SECONDS = 0.39
"""Quiet [s] that ends anything else: in a measure people pause."""
LONGEST_SECONDS = 8.0
"""The longest segment [s]: no answer is as long, so that anything longer is noise."""

_WINDOW = 10
"""Frames that are looked at for the beginning."""
_BEGINS = 7
"""Frames of speech among them that are a beginning; “no” has 8, the blow of a hammer 4 to 6."""
_LEAD = 17
"""Frames kept until then, so that the first soft sound is there; and until which the level of the noise is not
known, so that nothing begins."""
_QUIET_PLACE_DB = 27.5
"""If speech is as far above the noise, there is none to leave in, and a second decoding only takes time [dB]."""
_QUIETEST = 0.05
"""Part of the frames of a saying that are as quiet as the noise, if there is no quiet around it to tell the noise
by: before “p” and “t” the mouth is shut."""
_KEPT = int(20.0 / FRAME_SECONDS)
"""Frames kept: two segments, and the wait between them."""
STANDS_OUT_DB = 6.0
"""Speech is at least as far above the noise floor [dB]: noise rarely is, the softest sound that ends a word is."""
_BELOW_LOUDEST_DB = 33.0
"""A frame so far below the loudest of a saying [dB] is breath, or the echo of the room."""

_DOWN = 4
"""Decimation by this factor, to 4 kHz, which is enough for a pitch."""
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


@dataclass(frozen=True, slots=True)
class Segment:
    """A segment of sound that is probably speech."""

    pcm: bytes = field(repr=False)
    first: int
    """The frame of the stream that it begins with."""
    end: float
    """Where speech ended, in seconds since the stream began; the sound of the segment goes on a little."""
    levels: tuple[float, ...] = field(repr=False)
    """Level of each frame, in dB over one step of a sample."""
    floor: float
    """Level of the noise around it after noise suppression [dB]."""
    snr: float
    """Signal-to-noise ratio before noise suppression [dB]."""
    endless: bool = False
    """Cut off because it did not end."""
    plain: bytes = field(default=b"", repr=False)
    """The same sound with its noise; empty in a quiet place."""

    @property
    def start(self) -> float:
        """Seconds since the stream began."""
        return self.first * FRAME_SECONDS

    @property
    def left(self) -> float:
        """Signal-to-noise ratio after noise suppression [dB]."""
        return _distance(self.levels, self.floor)

    @property
    def quiet(self) -> bool:
        """Whether it was said in a quiet place."""
        return self.snr >= _QUIET_PLACE_DB

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.pcm) / (2 * RATE)

    @property
    def spoken(self) -> float:
        """Seconds from the first sound that stands out to the last."""
        heard = [n for n, one in enumerate(self.levels) if one >= self.floor + STANDS_OUT_DB]
        return (heard[-1] - heard[0] + 1) * FRAME_SECONDS if heard else 0.0


class _Frame(NamedTuple):
    clean: bytes
    plain: bytes
    level: float
    noisy: float
    """The level of the plain one."""
    voice: bool
    """What the voice detector says."""


class Segmenter:
    """Frames in, segments out."""

    def __init__(self, longest: float = LONGEST_SECONDS) -> None:
        self.ahead: Segment | None = None
        """With the frame in which AHEAD_SECONDS of quiet are over: the segment, as it is if no more is said."""
        self._longest = longest
        self._vad: Vad | None = None
        self._count = 0
        """Frames taken."""
        self._floor = Floor()
        self._noise = Floor()
        """The same of the sound with its noise."""
        self._kept: deque[_Frame] = deque(maxlen=_KEPT)
        """The last of them."""
        self._first: int | None = None
        """Where the segment at hand begins."""
        self._free = 0
        """The first frame that no segment has."""
        self._loudest = 0.0
        """In it, in dB."""
        self._quiet = 0
        """Quiet frames since somebody last spoke."""
        self._cut = 0
        """Where `ahead` ends; 0 while somebody speaks."""
        self._clicked = False
        """Whether the last frame stood out of a pause."""

    @property
    def now(self) -> float:
        """Seconds of sound taken."""
        return self._count * FRAME_SECONDS

    @property
    def speaking(self) -> bool:
        """Whether somebody speaks now."""
        return self._first is not None

    @property
    def floor(self) -> float:
        """Level of the noise now, in dB."""
        return self._floor.level

    def push(self, frame: bytes, plain: bytes = b"") -> Segment | None:
        """Take the next frame, and the same with its noise; a segment if one ended with it."""
        self._count += 1
        self.ahead = None
        loud = level(samples(frame))
        noisy = _sounds(plain or frame)
        self._floor.push(loud)
        self._noise.push(noisy)
        self._kept.append(_Frame(frame, plain, loud, noisy, self._voice(frame)))
        if self._first is not None:
            return self._goes_on(self._first)
        if self._count >= _LEAD:
            self._begin(_LEAD if self._count == _LEAD else _WINDOW)
        return None

    @property
    def pause(self) -> float:
        """Seconds of quiet since somebody last spoke; 0 while nobody has."""
        return self._quiet * FRAME_SECONDS

    def finish(self) -> Segment | None:
        """The stream ends, or nothing more is waited for: the segment that was not yet over."""
        if self._count < _LEAD:
            self._begin(_LEAD)
        return self._segment(self._first) if self._first is not None else None

    def joined(self, earlier: Segment, later: Segment) -> Segment:
        """Two segments of this stream as one, with the sound between them."""
        until = later.first + len(later.levels)
        return replace(self._made(earlier.first, until), end=later.end, endless=later.endless)

    def _begin(self, window: int) -> None:
        window = min(window, self._count - self._free)
        recent = list(islice(self._kept, max(0, len(self._kept) - window), None))
        least = self._least()
        if sum(frame.voice and frame.level >= least for frame in recent) < _BEGINS:
            return
        self._first = max(self._free, self._count - _LEAD)
        self._loudest = max(frame.level for frame in recent)

    def _goes_on(self, first: int) -> Segment | None:
        frame = self._kept[-1]
        self._loudest = max(self._loudest, frame.level)
        speech = frame.voice and frame.level >= self._least()
        # One frame that stands out of a pause is a click.
        if speech and (self._quiet == 0 or self._clicked):
            self._quiet = self._cut = 0
            self._clicked = False
        else:
            self._clicked = speech
            self._quiet += 1
        if (self._count - first) * FRAME_SECONDS >= self._longest:
            return self._segment(first, endless=True)
        pause = self.pause + 1e-9
        if pause >= LONG_PAUSE_SECONDS:
            return self._segment(first)
        if not self._cut and pause >= AHEAD_SECONDS:
            self._cut = self._count
            self.ahead = self._made(first, self._cut)
        return None

    def _voice(self, frame: bytes) -> bool:
        if self._vad is None:
            from pocketsphinx import Vad  # no sound library before somebody listens

            self._vad = Vad(Vad.LOOSE, RATE, FRAME_SECONDS)
        return bool(self._vad.is_speech(frame))

    def _least(self) -> float:
        """The level that speech has at least, in dB."""
        return max(self._floor.level + STANDS_OUT_DB, self._loudest - _BELOW_LOUDEST_DB)

    def _segment(self, first: int, *, endless: bool = False) -> Segment:
        found = replace(self._made(first, self._cut or self._count), endless=endless)
        self._first = None
        self._free = self._count
        self._loudest = 0.0
        self._quiet = self._cut = 0
        self._clicked = False
        return found

    def _made(self, first: int, until: int) -> Segment:
        before = self._count - len(self._kept)
        frames = list(islice(self._kept, max(0, first - before), until - before))
        levels = tuple(frame.level for frame in frames)
        noise = [one for one in levels if one > SILENCE_DB]
        found = Segment(
            b"".join(frame.clean for frame in frames),
            first,
            (self._count - self._quiet) * FRAME_SECONDS,
            levels,
            min(self._floor.level, share(noise, 0.1)) if noise else SILENCE_DB,
            _distance([frame.noisy for frame in frames], self._noise.level),
        )
        if found.quiet:
            return found
        return replace(found, plain=b"".join(frame.plain for frame in frames))


def _sounds(frame: bytes) -> float:
    """The level of a frame in dB; SILENCE_DB if most of its samples are zero, such as at the start of a recording or
    after a noise gate, because the rest of it then tells nothing of the noise."""
    found = samples(frame)
    return SILENCE_DB if 2 * found.count(0) > len(found) else level(found)


def _distance(levels: Sequence[float], floor: float) -> float:
    """From the noise to the louder of the frames that stand out of it, in dB.

    Of all frames, a short word in a long quiet would seem softer than it is. The quietest frames of the saying are
    as loud as the noise or louder, so that without quiet around it the distance comes out too short, never too far.
    """
    known = [one for one in levels if one > SILENCE_DB]
    if not known:
        return 0.0
    floor = min(floor, share(known, _QUIETEST))
    heard = [one for one in known if one >= floor + STANDS_OUT_DB]
    return share(heard, 0.75) - floor if heard else 0.0


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
