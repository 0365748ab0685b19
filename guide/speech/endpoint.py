"""Where somebody speaks: from a stream of frames to segments of speech.

The voice detector and endpointer are PocketSphinx's. A window of 0.3 s must be speech, or not, to 0.9: shorter
windows split words, and a ratio below 0.5 splits every utterance.
"""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from guide.speech.frames import FRAME_SECONDS, RATE, samples
from guide.speech.frontend import Floor, level, share

if TYPE_CHECKING:
    from pocketsphinx import Endpointer

WINDOW_SECONDS = 0.3
RATIO = 0.9
LONGEST_SECONDS = 8.0
"""No answer is as long; what does not end by then is noise."""


@dataclass(frozen=True, slots=True)
class Segment:
    """Sound in which somebody seems to speak."""

    pcm: bytes
    start: float
    """Seconds since the stream began."""
    end: float
    levels: tuple[float, ...] = field(repr=False)
    """Level of each frame, in dB over one step of a sample."""
    floor: float
    """Level of the noise around it, in dB."""
    endless: bool = False
    """Cut off because it did not end."""

    @property
    def snr(self) -> float:
        """How far speech stands above the noise, in dB: the loud frames against the floor."""
        return share(self.levels, 0.75) - self.floor if self.levels else 0.0

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.pcm) / (2 * RATE)

    def then(self, later: "Segment", gap: bytes) -> "Segment":
        """This segment and a later one as one, with the sound between them."""
        between = tuple(self.floor for _ in range(len(gap) // 960))
        return Segment(
            self.pcm + gap + later.pcm,
            self.start,
            later.end,
            self.levels + between + later.levels,
            min(self.floor, later.floor),
            later.endless,
        )


class Segmenter:
    """Frames in, segments out."""

    def __init__(self, window: float = WINDOW_SECONDS, longest: float = LONGEST_SECONDS) -> None:
        self._window = window
        self._longest = longest
        self._endpointer: Endpointer | None = None
        self._began = 0.0
        """Where the endpointer in use began, in the time of the stream."""
        self._now = 0.0
        self._speech = bytearray()
        self._floor = Floor()

    @property
    def now(self) -> float:
        """Seconds of sound taken."""
        return self._now

    @property
    def speaking(self) -> bool:
        """Whether somebody speaks now."""
        return self._endpointer is not None and self._endpointer.in_speech

    @property
    def floor(self) -> float:
        """Level of the noise now, in dB."""
        return self._floor.level

    def push(self, frame: bytes) -> Segment | None:
        """Take the next frame; a segment where one ended with it."""
        endpointer = self._ready()
        self._now += FRAME_SECONDS
        self._floor.push(level(samples(frame)))
        speech = endpointer.process(frame)
        if speech is None:
            return None
        self._speech += speech
        if not endpointer.in_speech:
            return self._ended(endpointer.speech_end)
        if len(self._speech) >= self._longest * 2 * RATE:
            found = self._ended(self._now - self._began, endless=True)
            self._endpointer = None
            return found
        return None

    def finish(self) -> Segment | None:
        """The stream ends: the segment that was not yet over."""
        if self._endpointer is None:
            return None
        endpointer, self._endpointer = self._endpointer, None
        rest = endpointer.end_stream(bytes(2))
        if rest:
            self._speech += rest
        return self._ended(endpointer.speech_end or self._now - self._began)

    def _ready(self) -> "Endpointer":
        if self._endpointer is None:
            from pocketsphinx import Endpointer  # no sound library before somebody listens

            self._endpointer = Endpointer(self._window, RATIO, 0, RATE, FRAME_SECONDS)
            self._began = self._now
        return self._endpointer

    def _ended(self, end: float, *, endless: bool = False) -> Segment | None:
        pcm = bytes(self._speech)
        self._speech.clear()
        if not pcm:
            return None
        heard = samples(pcm)
        levels = tuple(level(heard[at : at + 480]) for at in range(0, len(heard), 480))
        floor = min(self._floor.level, share(levels, 0.1))
        last = self._began + end
        return Segment(pcm, last - len(pcm) / (2 * RATE), last, levels, floor, endless)
