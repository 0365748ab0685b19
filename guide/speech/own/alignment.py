"""Forced alignment: which state of the model each frame of a known saying is, and what the recogniser sees there.

The recogniser finds the likeliest path through the states of the known words (Viterbi alignment) in two passes, first
words, then states. It writes the cepstra that it works on into a folder, so that what is learned from is what it hears.
"""

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from guide.speech.own.model import STREAMS, WIDTH

if TYPE_CHECKING:
    from pocketsphinx import Decoder

Cepstra = npt.NDArray[np.float64]
"""By frame of 10 ms and number: (frames, WIDTH)."""
Frames = npt.NDArray[np.float64]
"""By frame, stream and number: (frames, STREAMS, WIDTH); the streams are cepstrum, slope and bend."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Some frames of one state."""

    phone: str
    state: int
    frames: Frames


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
        """The stretches of a saying; none if the words do not fit the sound or are not known."""
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
                    found.append(Stretch(phone.name, int(state.name), some))
        return found

    def close(self) -> None:
        """Delete the files of cepstra."""
        self._folder.cleanup()

    def _hear(self, pcm: bytes) -> Cepstra:
        for old in Path(self._folder.name).iterdir():
            old.unlink()
        self._decoder.reinit_feat()  # forgets the noise of the saying before, as recognition does
        self._decoder.start_utt()
        self._decoder.process_raw(pcm, full_utt=True)
        self._decoder.end_utt()
        (path,) = Path(self._folder.name).iterdir()
        return read_cepstra(path.read_bytes())


def read_cepstra(data: bytes) -> Cepstra:
    """The cepstra of a file, whose numbers have their highest byte first."""
    count = int.from_bytes(data[:4], "big")
    if len(data) != 4 + 4 * count or count % WIDTH:
        raise RuntimeError("a file of cepstra is cut off")
    return np.frombuffer(data[4:], ">f4").astype(np.float64).reshape(-1, WIDTH)


def streams(cepstra: Cepstra) -> Frames:
    """The model's features: cepstra less their mean, c, their slope over 4 frames (delta), and the bend (delta-delta).

        slope[t] = c[t + 2] - c[t - 2]        bend[t] = slope[t + 1] - slope[t - 1]

    The mean is that of the frames with any sound in them, and the first and last frames go on for ever, as in the
    recogniser.
    """
    loud = cepstra[cepstra[:, 0] >= 0]
    if not len(loud):
        return np.zeros((0, STREAMS, WIDTH))
    about = cepstra - loud.mean(axis=0)
    padded = np.pad(about, ((3, 3), (0, 0)), mode="edge")
    slopes = padded[4:] - padded[:-4]  # that of frame t stands at t + 1
    return np.stack([about, slopes[1:-1], slopes[2:] - slopes[:-2]], axis=1)
