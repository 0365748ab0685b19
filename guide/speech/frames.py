"""Sound as this part passes it on: 16 kHz, one channel, 16-bit samples, in frames of 30 ms."""

import random
from array import array
from collections.abc import Iterable, Iterator

RATE = 16000
"""Samples a second: what the acoustic models were trained on."""
FRAME = 480
"""Samples in a frame of 30 ms, the longest the voice detector takes."""
FRAME_SECONDS = FRAME / RATE
FRAME_BYTES = 2 * FRAME
LOUDEST = 32767
_ROOM = 8
"""Highest sample of a quiet room through a common microphone."""
QUIET = array("h", random.Random(3).choices(range(-_ROOM, _ROOM + 1), k=FRAME)).tobytes()
"""A frame of a quiet room."""


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
    """The frame, or one of a quiet room where there is no sound in it at all: whoever made the recording, or a
    microphone that shuts itself between words, put nothing there, and not even the noise is known by it."""
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
