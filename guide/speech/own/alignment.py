"""Which state of the model each frame of a known saying is, and what the recogniser sees in that frame.

The recogniser aligns the words with the sound in two passes, first words, then states; and it writes the cepstra that
it works on into a folder, so that what is learned from is exactly what it hears.
"""

import struct
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from guide.speech.own.model import WIDTH

if TYPE_CHECKING:
    from pocketsphinx import Decoder

Vector = tuple[float, ...]
Frame = tuple[Vector, Vector, Vector]
"""Cepstrum, slope and bend of 10 ms."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Some frames of one state."""

    phone: str
    state: int
    frames: tuple[Frame, ...]


class Aligner:
    """Aligns sayings by the model, or by it with other means."""

    def __init__(self, means: Path | None = None) -> None:
        """Load the model; `means` is a file to be used in place of its own."""
        self._means = means
        self._folder = tempfile.TemporaryDirectory(prefix="hingeside-cepstra-")
        self._decoder = self._loaded()

    def _loaded(self) -> "Decoder":
        from pocketsphinx import Decoder  # nothing of sound is imported before it is wanted

        own = {"mean": str(self._means)} if self._means is not None else {}
        return Decoder(lm=None, mfclogdir=self._folder.name, loglevel="FATAL", **own)

    def align(self, words: str, pcm: bytes) -> list[Stretch]:
        """The stretches of a saying; none where the words do not fit the sound or are not known."""
        decoder = self._decoder
        if any(decoder.lookup_word(word) is None for word in words.split()):
            return []
        decoder.set_align_text(words)
        try:
            self._hear(pcm)
            if decoder.hyp() is None:
                return []
            decoder.set_alignment()
            cepstra = self._hear(pcm)
        except RuntimeError:
            # No path ends with the last state. The recogniser is of no use after that.
            self._decoder = self._loaded()
            return []
        frames = streams(cepstra)
        found = []
        for word in decoder.get_alignment():
            for phone in word:
                for state in phone:
                    some = frames[state.start : state.start + state.duration]
                    found.append(Stretch(phone.name, int(state.name), tuple(some)))
        return found

    def close(self) -> None:
        """Take the cepstra away."""
        self._folder.cleanup()

    def _hear(self, pcm: bytes) -> list[Vector]:
        for old in Path(self._folder.name).iterdir():
            old.unlink()
        self._decoder.reinit_feat()  # forgets the noise of the saying before, as the ear does
        self._decoder.start_utt()
        self._decoder.process_raw(pcm, full_utt=True)
        self._decoder.end_utt()
        (path,) = Path(self._folder.name).iterdir()
        return read_cepstra(path.read_bytes())


def read_cepstra(data: bytes) -> list[Vector]:
    """The cepstra of a file, whose numbers have their highest byte first."""
    count = int.from_bytes(data[:4], "big")
    if len(data) != 4 + 4 * count or count % WIDTH:
        raise RuntimeError("a file of cepstra is cut off")
    numbers = struct.unpack(f">{count}f", data[4:])
    return [numbers[place : place + WIDTH] for place in range(0, count, WIDTH)]


def streams(cepstra: list[Vector]) -> list[Frame]:
    """What the model looks at: the cepstra about their mean, their slope over 4 frames, and the bend of that.

    The mean is that of the frames with any sound in them, and the first and last frames go on for ever, as in the
    recogniser.
    """
    loud = [one for one in cepstra if one[0] >= 0]
    if not loud:
        return []
    mean = [sum(column) / len(loud) for column in zip(*loud, strict=True)]
    about = [tuple(a - b for a, b in zip(one, mean, strict=True)) for one in cepstra]
    padded = [about[0]] * 3 + about + [about[-1]] * 3
    slopes = [_less(padded[at + 5], padded[at + 1]) for at in range(len(about))]
    bends = [
        _less(_less(padded[at + 6], padded[at + 2]), _less(padded[at + 4], padded[at]))
        for at in range(len(about))
    ]
    return list(zip(about, slopes, bends, strict=True))


def _less(a: Vector, b: Vector) -> Vector:
    return tuple(x - y for x, y in zip(a, b, strict=True))
