"""A WAV file as 16 kHz frames: PCM of 8, 16, 24 or 32 bits or 32-bit float, any number of channels, any rate.

The chunks are read here and not by the standard library's `wave`, which before Python 3.12 refuses the extensible
header that recorders write for 24 bits. (Multimedia Programming Interface and Data Specifications 1.0, 1991;
WAVEFORMATEXTENSIBLE, 2001.)
"""

import struct
import sys
from array import array
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from guide.speech.frames import blocks, clamped, in_a_room
from guide.speech.resample import Resampler

LONGEST_SECONDS = 600
"""A file that is longer is no answer to a question; it is refused rather than listened to for minutes."""
RATES = range(4000, 384001)
_PCM, _FLOAT, _EXTENSIBLE = 1, 3, 0xFFFE
_AT_ONCE = 8192
_NO_LENGTH = 0x7FFFF000
"""From here on a length stands for one that was not known when the header was written."""


class BadAudio(Exception):
    """A file that is no sound we can read; `str` is one sentence with the file and what to do."""


@dataclass(frozen=True, slots=True)
class Wav:
    """Where the sound of a file lies, and how it is written."""

    path: Path
    rate: int
    channels: int
    bytes_each: int
    """Bytes of one sample of one channel."""
    is_float: bool
    start: int
    size: int
    """Bytes of sound that are there, whatever the header promises."""
    cut_off: bool = False
    """Whether the header promises more than is there. A recorder that could not go back to write the length
    leaves the largest there is, which promises nothing."""

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return self.size / (self.bytes_each * self.channels * self.rate)

    def frames(self) -> Iterator[bytes]:
        """The sound, frame by frame, mixed to one channel, in a quiet room where it holds none."""
        return map(in_a_room, blocks(self._chunks()))

    def _chunks(self) -> Iterator[bytes]:
        resampler = Resampler(self.rate)
        each = self.bytes_each * self.channels
        with self.path.open("rb") as file:
            file.seek(self.start)
            left = self.size
            while left >= each and (raw := file.read(min(left, _AT_ONCE * each))):
                left -= len(raw)
                mixed = _mixed(self._values(raw[: len(raw) // each * each]), self.channels)
                yield resampler.push(mixed).tobytes()
        yield resampler.flush().tobytes()

    def _values(self, raw: bytes) -> "array[int]":
        if self.is_float:
            return clamped(32768 * value for value in array("f", _in_order(raw, 4)))
        if self.bytes_each == 1:  # the only width that is written without a sign
            return array("h", [(value - 128) << 8 for value in raw])
        # The two highest bytes of a longer sample are its 16 bits.
        high = bytearray(len(raw) // self.bytes_each * 2)
        high[0::2] = raw[self.bytes_each - 2 :: self.bytes_each]
        high[1::2] = raw[self.bytes_each - 1 :: self.bytes_each]
        return array("h", _in_order(bytes(high), 2))


def open_wav(path: Path) -> Wav:
    """Read the header. Raises BadAudio for what is no WAV, is empty, too long, or written in another way."""
    try:
        with path.open("rb") as file:
            found = _header(path, file)
    except OSError as error:
        raise BadAudio(
            f"{path} cannot be read ({error.strerror}); check the name of the file."
        ) from error
    if found.size < found.bytes_each * found.channels:
        raise BadAudio(f"{path} holds no sound; record it again.")
    if found.seconds > LONGEST_SECONDS:
        raise BadAudio(
            f"{path} lasts {found.seconds / 60:.0f} minutes; at most {LONGEST_SECONDS // 60} are taken: cut it."
        )
    return found


def _header(path: Path, file: BinaryIO) -> Wav:
    if (riff := file.read(12))[:4] != b"RIFF" or riff[8:12] != b"WAVE":
        raise BadAudio(f"{path} is not a WAV file; save the recording as WAV (PCM).")
    layout: tuple[int, int, int, int] | None = None
    while len(head := file.read(8)) == 8:
        name, size = head[:4], int.from_bytes(head[4:], "little")
        if name == b"fmt ":
            layout = _layout(path, file.read(size))
            file.seek(size % 2, 1)
        elif name == b"data":
            if layout is None:
                break
            start = file.tell()
            there = file.seek(0, 2) - start
            kind, channels, rate, width = layout
            cut_off = there < size < _NO_LENGTH
            return Wav(
                path, rate, channels, width, kind == _FLOAT, start, min(size, there), cut_off
            )
        else:
            file.seek(size + size % 2, 1)  # chunks begin at even places
    raise BadAudio(f"{path} is cut off before its sound begins; record it again.")


def _layout(path: Path, body: bytes) -> tuple[int, int, int, int]:
    if len(body) < 16:
        raise BadAudio(f"{path} is cut off before its sound begins; record it again.")
    kind, channels, rate, _, _, bits = struct.unpack("<HHIIHH", body[:16])
    if kind == _EXTENSIBLE and len(body) >= 26:
        kind = int.from_bytes(body[24:26], "little")
    right = (kind == _PCM and bits in (8, 16, 24, 32)) or (kind == _FLOAT and bits == 32)
    if not right:
        raise BadAudio(f"{path} is not written as plain sound; save it as WAV (PCM, 16 bit).")
    if rate not in RATES or not 1 <= channels <= 32:
        raise BadAudio(
            f"{path} claims {rate} samples a second in {channels} channels; save it again at 16000, one channel."
        )
    return kind, channels, rate, bits // 8


def _in_order(raw: bytes, width: int) -> bytes:
    """Numbers of `width` bytes as this machine orders their bytes; a file has the lowest first."""
    if sys.byteorder == "little":
        return raw
    swapped = array({2: "h", 4: "i"}[width], raw)
    swapped.byteswap()
    return swapped.tobytes()


def _mixed(values: "array[int]", channels: int) -> "array[int]":
    if channels == 1:
        return values
    parts = [values[n::channels] for n in range(channels)]
    return array("h", [sum(together) // channels for together in zip(*parts, strict=True)])
