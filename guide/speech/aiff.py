"""The sound in an AIFF or AIFF-C file, which is what the voices of macOS write.

Audio Interchange File Format 1.3 (1989) and AIFF-C (draft of 1991): numbers have their highest byte first, save for
samples of the kind `sowt`; the rate is a number of 80 bits.
"""

import struct
import sys
from array import array
from io import BytesIO

_HIGH_FIRST, _LOW_FIRST = (b"NONE", b"twos"), b"sowt"


def read_aiff(data: bytes) -> tuple[int, bytes]:
    """Samples a second, and 16-bit samples of the first channel as this machine orders their bytes.

    Raises ValueError for what is written in another way, and where there is no sound.
    """
    file = BytesIO(data)
    form, _, kind = struct.unpack(">4sI4s", file.read(12).ljust(12, b"\0"))
    if form != b"FORM" or kind not in (b"AIFF", b"AIFC"):
        raise ValueError("it is no AIFF file")
    layout: tuple[int, int, bytes] | None = None
    while len(head := file.read(8)) == 8:
        name, size = struct.unpack(">4sI", head)
        body = file.read(size + size % 2)[:size]  # chunks begin at even places
        if name == b"COMM":
            layout = _layout(body, compressed=kind == b"AIFC")
        elif name == b"SSND" and layout is not None:
            rate, channels, order = layout
            return rate, _samples(body[8 + struct.unpack(">I", body[:4])[0] :], channels, order)
    raise ValueError("it holds no sound")


def _layout(body: bytes, *, compressed: bool) -> tuple[int, int, bytes]:
    channels, _, bits, exponent, mantissa = struct.unpack(">hIhHQ", body[:18])
    order = body[18:22] if compressed else _HIGH_FIRST[0]
    if bits != 16 or order not in (*_HIGH_FIRST, _LOW_FIRST):
        raise ValueError("its samples are not plain ones of 16 bits")
    return round(mantissa * 2.0 ** ((exponent & 0x7FFF) - 16383 - 63)), channels, order


def _samples(raw: bytes, channels: int, order: bytes) -> bytes:
    found = array("h", raw[: len(raw) & ~1])
    if (order == _LOW_FIRST) != (sys.byteorder == "little"):
        found.byteswap()
    return found[::channels].tobytes()
