"""The sound format of this part, and WAV files in it: WAV to 16 kHz, one channel, 16-bit samples, in frames of 30 ms.

A file is PCM of 8, 16, 24 or 32 bits or 32-bit float, any number of channels, any rate. Its header is read and checked
here, because a decoder relies on it: a rate of 1 Hz, a length of hours, samples that are not numbers. (Multimedia
Programming Interface and Data Specifications 1.0, 1991; WAVEFORMATEXTENSIBLE, 2001.) miniaudio then mixes the channels,
converts the samples and changes the rate. It gets a plain header made from the checked values, never that of the file.
"""

import math
import random
import struct
import sys
from array import array
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

from guide.errors import NO_DEVICE, UNKNOWN, HingesideError

RATE = 16000
"""Samples a second: what the acoustic models were trained on."""
FRAME = 480
"""Samples in a frame of 30 ms, the longest that the voice detector accepts."""
FRAME_SECONDS = FRAME / RATE
FRAME_BYTES = 2 * FRAME
LOUDEST = 32767
_ROOM = 8
"""Highest sample of a quiet room through a common microphone."""
QUIET = array("h", random.Random(3).choices(range(-_ROOM, _ROOM + 1), k=FRAME)).tobytes()
"""A frame of a quiet room."""

LONGEST_SECONDS = 600
"""A longer file is not an answer to a question; it is refused rather than listened to for minutes."""
RATES = range(4000, 384001)
_PCM, _FLOAT, _EXTENSIBLE = 1, 3, 0xFFFE
_AT_ONCE = 8192
"""Samples of each channel that are decoded at a time."""
_LAYOUT = 40
"""Bytes of the longest chunk that describes samples."""
_NO_LENGTH = 0x7FFFF000
"""From here on, a length in a header means that it was not known when the header was written."""


class BadAudio(HingesideError):
    """A file that is not sound we can read; `str` is one sentence with the file and what to do."""

    status = UNKNOWN


class NoDecoder(HingesideError):
    """The library that decodes sound is missing; `str` is one sentence with how to get it."""

    status = NO_DEVICE


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
        """The sound, frame by frame, mixed to one channel, in a quiet room if it holds none."""
        return map(in_a_room, blocks(self._chunks()))

    def _chunks(self) -> Iterator[bytes]:
        try:
            import miniaudio  # no sound library before somebody listens
        except ImportError as error:
            raise NoDecoder(
                "The library that decodes sound (miniaudio) is not installed; "
                "“hingeside voice” says how to get it."
            ) from error
        try:
            with self.path.open("rb") as file:
                stream = miniaudio.stream_any(
                    _Checked(self, file),
                    miniaudio.FileFormat.WAV,
                    miniaudio.SampleFormat.SIGNED16,
                    nchannels=1,
                    sample_rate=RATE,
                    frames_to_read=_AT_ONCE,
                )
                for chunk in stream:
                    yield chunk.tobytes()
        except (OSError, miniaudio.MiniaudioError) as error:
            raise BadAudio(f"{self.path} cannot be read to its end; record it again.") from error


class _Checked:
    """A file as a stream that miniaudio reads: a plain header, and the sound that is there and no more.

    It has what miniaudio looks for in its `StreamableSource`, which cannot be named before the library is loaded.
    """

    def __init__(self, wav: Wav, file: BinaryIO) -> None:
        each = wav.channels * wav.bytes_each
        size = wav.size - wav.size % each
        kind = _FLOAT if wav.is_float else _PCM
        layout = struct.pack(
            *("<HHIIHH", kind, wav.channels, wav.rate, wav.rate * each, each, 8 * wav.bytes_each)
        )
        head = b"WAVEfmt " + struct.pack("<I", len(layout)) + layout
        head += b"data" + struct.pack("<I", size)
        self._head = BytesIO(b"RIFF" + struct.pack("<I", min(len(head) + size, 0xFFFFFFFF)) + head)
        self._file = file
        self._left = size
        file.seek(wav.start)
        self.ffi_handle: object = None
        """Set and used by miniaudio, as is the fault below."""
        self.error_in_readcallback: Exception | None = None

    def read(self, count: int) -> bytes:
        """The next bytes, at most `count`; none at the end."""
        if found := self._head.read(count):
            return found
        found = self._file.read(min(count, self._left))
        self._left -= len(found)
        return found

    def seek(self, offset: int, origin: object) -> bool:
        """Never needed: the header is read once, and the sound from its beginning."""
        return False


def open_wav(path: Path) -> Wav:
    """Read the header. Raises BadAudio for a file that is not WAV, is empty, too long, or has another encoding."""
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
            f"{path} lasts {found.seconds / 60:.0f} minutes; at most {LONGEST_SECONDS // 60} are accepted: cut it."
        )
    if found.is_float and not _all_finite(found):
        raise BadAudio(
            f"{path} holds values that are not numbers; save it again as WAV (PCM, 16 bit)."
        )
    return found


def _all_finite(wav: Wav) -> bool:
    """Whether every sample is a number: one that is not would spoil all sound after it."""
    with wav.path.open("rb") as file:
        file.seek(wav.start)
        left = wav.size - wav.size % 4
        while left > 0 and (raw := file.read(min(left, 4 * _AT_ONCE))):
            left -= len(raw)
            values = array("f", raw[: len(raw) & ~3])
            if sys.byteorder == "big":
                values.byteswap()
            if not all(map(math.isfinite, values)):
                return False
    return True


def _header(path: Path, file: BinaryIO) -> Wav:
    if (riff := file.read(12))[:4] != b"RIFF" or riff[8:12] != b"WAVE":
        raise BadAudio(f"{path} is not a WAV file; save the recording as WAV (PCM).")
    layout: tuple[int, int, int, int] | None = None
    while len(head := file.read(8)) == 8:
        name, size = head[:4], int.from_bytes(head[4:], "little")
        if name == b"fmt ":
            body = file.read(min(size, _LAYOUT))
            layout = _layout(path, body)
            file.seek(size - len(body) + size % 2, 1)
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


def blocks(chunks: Iterable[bytes]) -> Iterator[bytes]:
    """Chunks of any length as whole frames; what is left over at the end is filled up with silence."""
    held = b""
    for chunk in chunks:
        held += chunk
        whole = len(held) - len(held) % FRAME_BYTES
        for start in range(0, whole, FRAME_BYTES):
            yield held[start : start + FRAME_BYTES]
        held = held[whole:]
    if held:
        yield held.ljust(FRAME_BYTES, b"\0")


def in_a_room(frame: bytes) -> bytes:
    """The frame, or one of a quiet room if every sample is zero: a noise gate, of a recorder or a microphone, wrote
    that, and nothing can be learned from it about the noise."""
    return frame if any(frame) else QUIET


def samples(frame: bytes) -> "array[int]":
    """The samples of a frame."""
    found = array("h")
    found.frombytes(frame[: len(frame) & ~1])
    return found


def clamped(values: Iterable[float]) -> "array[int]":
    """Numbers as samples, cut off at what 16 bits hold."""
    wanted = [int(value) for value in values]
    try:
        return array("h", wanted)
    except OverflowError:
        return array("h", [max(-LOUDEST - 1, min(LOUDEST, value)) for value in wanted])
