"""The files of the recogniser's acoustic model: means and variances of its densities, and the weights of its states.

The layouts are those that the recogniser reads (its own descriptions stand at the head of `mdef` and `sendump`; that
of `means` and `variances` is from memory, and compared with the check sum in the file). Each phone has a Gaussian
mixture a stream, with diagonal covariances: means and variances are arrays by phone, stream, density and number.
"""

import math
import struct
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt

from guide.speech.engine import NoEngine
from guide.speech.own.voice_file import model_mark

Means = npt.NDArray[np.float32]
"""By phone, stream, density and number: (phones, STREAMS, densities, WIDTH)."""
WIDTH = 13
"""Numbers in one stream: of the cepstrum, of its slope, or of its bend."""
STREAMS = 3
WEIGHT_STEP = 1024 * math.log(1.0001)
"""A weight is kept as so many steps of its natural logarithm below 0: 1024 powers of 1.0001."""
LEAST_VARIANCE = 1e-4
"""As the recogniser floors them."""
_NEEDED = ("-feat 1s_c_d_dd", "-svspec 0-12/13-25/26-38", "-cmn batch", "-model ptm")
_HEAD_END = b"endhdr\n"
_UNKNOWN = (
    "The model of the recogniser is of another kind than this program knows; "
    "no voice can be taught to it; recognition works without one."
)


@dataclass(frozen=True, slots=True)
class Model:
    """The model that comes with the recogniser."""

    phones: tuple[str, ...]
    """Each has a set of densities; those of noise begin with “+”."""
    silence: int
    """The place of silence among the phones."""
    densities: int
    """In each stream of a phone."""
    states: int
    means: Means
    variances: Means
    """Of the same shape; none below LEAST_VARIANCE."""
    weights: npt.NDArray[np.uint8]
    """By stream, density and state, in steps of WEIGHT_STEP."""
    head: bytes
    """The bytes before the numbers in the file of means."""
    mark: str
    """The identity of this model: the SHA-256 of its file of means."""

    def speech(self) -> list[int]:
        """The phones that are neither silence nor noise."""
        return [
            place
            for place, name in enumerate(self.phones)
            if place != self.silence and not name.startswith("+")
        ]

    def log_weights(self, state: int, stream: int) -> npt.NDArray[np.float64]:
        """The natural logarithm of the weight of each of a state's densities."""
        return -WEIGHT_STEP * self.weights[stream, :, state].astype(np.float64)


def read_model(folder: Path) -> Model:
    """Read the files. Raises NoEngine for a model of another kind."""
    try:
        settings = (folder / "feat.params").read_text("utf-8")
        if any(line not in settings.splitlines() for line in _NEEDED):
            raise NoEngine(_UNKNOWN)
        phones, silence, states = _phones((folder / "mdef").read_bytes())
        head, means = _numbers((folder / "means").read_bytes())
        _, variances = _numbers((folder / "variances").read_bytes())
        if len(means) != len(phones) or means.shape != variances.shape:
            raise NoEngine(_UNKNOWN)
        densities = means.shape[2]
        weights = _weights((folder / "sendump").read_bytes(), densities, states)
    except (OSError, ValueError, IndexError, struct.error) as error:
        raise NoEngine(_UNKNOWN) from error
    floored = np.maximum(variances, np.float32(LEAST_VARIANCE))
    return Model(
        *(phones, silence, densities, states, means, floored, weights, head),
        model_mark(folder),
    )


def written(model: Model, means: Means) -> bytes:
    """A file of means that the recogniser reads in place of its own."""
    text, rest = model.head.split(_HEAD_END)
    body = rest[4:] + means.astype("<f4").tobytes()
    # The first four bytes tell the order of all others, and are not summed up.
    return text + _HEAD_END + rest[:4] + body + struct.pack("<I", _check_sum(body))


def _phones(data: bytes) -> tuple[tuple[str, ...], int, int]:
    """The phones, which of them is silence, and how many states there are."""
    if data[:4] != b"BMDF":
        raise ValueError("no file of phones")
    start = 12 + int.from_bytes(data[8:12], "little")
    counts = struct.unpack("<10i", data[start : start + 40])
    names = data[start + 40 :].split(b"\0", counts[0])[: counts[0]]
    return tuple(name.decode("ascii") for name in names), counts[9], counts[4]


def _numbers(data: bytes) -> tuple[bytes, Means]:
    """The bytes before the numbers, and the numbers."""
    start = data.index(_HEAD_END) + len(_HEAD_END)
    order, phones, streams, densities, *widths = struct.unpack("<7I", data[start : start + 28])
    count = int.from_bytes(data[start + 28 : start + 32], "little")
    shaped = phones * streams * densities * WIDTH
    if order != 0x11223344 or widths != [WIDTH] * STREAMS or count != shaped:
        raise ValueError("numbers of another shape")
    end = start + 32 + 4 * count
    if int.from_bytes(data[end : end + 4], "little") != _check_sum(data[start + 4 : end]):
        raise ValueError("numbers that do not add up")
    numbers = np.frombuffer(data[start + 32 : end], "<f4").astype(np.float32)
    return data[: start + 32], numbers.reshape(phones, streams, densities, WIDTH)


def _weights(data: bytes, densities: int, states: int) -> npt.NDArray[np.uint8]:
    place = 0
    notes = []
    while length := int.from_bytes(data[place : place + 4], "little"):
        notes.append(data[place + 4 : place + 3 + length])
        place += 4 + length
    sizes = struct.unpack("<2i", data[place + 4 : place + 12])
    found = data[place + 12 :]
    if sizes != (densities, states) or len(found) != STREAMS * densities * states:
        raise ValueError("weights of another shape")
    if b"cluster_count 0" not in notes:
        raise ValueError("weights that are packed")
    return np.frombuffer(found, np.uint8).reshape(STREAMS, densities, states)


def _check_sum(data: bytes) -> int:
    total = 0
    for word in _words(data):
        total = (((total << 20) | (total >> 12)) + word) & 0xFFFFFFFF
    return total


def _words(data: bytes) -> Iterable[int]:
    return struct.unpack(f"<{len(data) // 4}I", data)
