"""Sounds for the tests: tones, sayings of a synthesiser, noise, and files of them."""

import math
import random
import struct
import subprocess
from array import array
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path

RATE = 16000


def tone(hertz: float, seconds: float, rate: int = RATE, peak: int = 8000) -> list[int]:
    """A sine."""
    return [
        round(peak * math.sin(2 * math.pi * hertz * n / rate)) for n in range(int(seconds * rate))
    ]


def hiss(seconds: float, peak: int, seed: int = 3) -> list[int]:
    """White noise."""
    return list(_hiss(seconds, peak, seed))


@cache
def _hiss(seconds: float, peak: int, seed: int) -> tuple[int, ...]:
    rng = random.Random(seed)
    return tuple(rng.randint(-peak, peak) for _ in range(int(seconds * RATE)))


_SAID: dict[tuple[str, str], "array[int]"] = {}


def flite(text: str, folder: Path, voice: str = "slt") -> list[int]:
    """A saying, with half a second of a quiet room around it; synthesised once in a process, in the folder."""
    if (text, voice) not in _SAID:
        path = folder / "said.wav"
        subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(path)], check=True)
        _SAID[text, voice] = array("h", path.read_bytes()[44:])
    room = hiss(0.5, 8)
    return [*room, *_SAID[text, voice], *room]


def wav(
    samples: Sequence[int], path: Path, *, rate: int = RATE, bits: int = 16, channels: int = 1
) -> Path:
    """A WAV file of PCM, the same in each channel; 16-bit samples, widened or narrowed to `bits`."""
    widths: dict[int, Callable[[int], bytes]] = {
        8: lambda v: struct.pack("<B", (v >> 8) + 128),
        16: struct.Struct("<h").pack,
        24: lambda v: struct.pack("<i", v << 8)[:3],
        32: lambda v: struct.pack("<i", v << 16),
    }
    packed = widths[bits]
    data = b"".join(packed(value) * channels for value in samples)
    each = channels * bits // 8
    layout = struct.pack("<HHIIHH", 1, channels, rate, rate * each, each, bits)
    body = b"WAVE" + chunk(b"fmt ", layout) + chunk(b"data", data)
    path.write_bytes(chunk(b"RIFF", body))
    return path


def chunk(name: bytes, body: bytes) -> bytes:
    """One chunk of a RIFF file."""
    return name + struct.pack("<I", len(body)) + body


def frames_of(samples: Sequence[int]) -> list[bytes]:
    """Samples as whole frames."""
    raw = array("h", samples).tobytes()
    return [raw[at : at + 960].ljust(960, b"\0") for at in range(0, len(raw), 960)]
