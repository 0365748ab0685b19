"""The microphone, by miniaudio, which needs only the sound service of the system."""

import ctypes
import queue
import sys
from collections.abc import Generator, Iterator
from types import TracebackType
from typing import TYPE_CHECKING

from guide.errors import NO_DEVICE, HingesideError
from guide.speech.audio import RATE, blocks

if TYPE_CHECKING:
    import miniaudio

SILENT_SECONDS = 2.0
"""Seconds without a frame after which a microphone is gone."""
_HELD = 400
"""Chunks of about 30 ms that wait for a slow reader; older ones are dropped."""


class NoMicrophone(HingesideError):
    """No sound comes in; `str` is one sentence: what is missing, and what to do."""

    status = NO_DEVICE


class Microphone:
    """The system's usual microphone while a `with` block lasts."""

    def __init__(self, *, nowhere: bool = False) -> None:
        """With `nowhere`, a device that hears silence, on a machine without a microphone."""
        self._nowhere = nowhere
        self._chunks: queue.Queue[bytes] = queue.Queue(_HELD)
        self._device: miniaudio.CaptureDevice | None = None

    def __enter__(self) -> "Microphone":
        """Open it. Raises NoMicrophone."""
        try:
            import miniaudio
        except ImportError as error:
            raise NoMicrophone(
                "The library that records (miniaudio) is not installed; "
                "“hingeside voice” says how to get it."
            ) from error
        _quiet()
        backends = [miniaudio.Backend.NULL] if self._nowhere else None
        try:
            self._device = miniaudio.CaptureDevice(
                input_format=miniaudio.SampleFormat.SIGNED16,
                nchannels=1,
                sample_rate=RATE,
                buffersize_msec=30,
                backends=backends,
            )
            receiver = self._take()
            next(receiver)
            self._device.start(receiver)
        except miniaudio.MiniaudioError as error:
            raise NoMicrophone(
                f"No microphone found ({error.args[0]}). Plug one in, or use the keys."
            ) from error
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close it."""
        if self._device is not None:
            self._device.close()
            self._device = None

    def frames(self) -> Iterator[bytes]:
        """Frames of 30 ms for as long as they are asked for. Raises NoMicrophone if it goes away."""
        return blocks(self._received())

    def _received(self) -> Iterator[bytes]:
        while self._device is not None:
            try:
                yield self._chunks.get(timeout=SILENT_SECONDS)
            except queue.Empty as error:
                raise NoMicrophone(
                    "The microphone has gone; plug it in again, or use the keys."
                ) from error

    def _take(self) -> Generator[None, bytes, None]:
        while True:
            chunk = bytes((yield))
            if self._chunks.full():
                self._chunks.get_nowait()
            self._chunks.put_nowait(chunk)


_say_nothing = ctypes.CFUNCTYPE(None)(lambda: None)


def _quiet() -> None:
    """Keep ALSA from writing its faults on standard error, where the app draws its screen."""
    if not sys.platform.startswith("linux"):
        return
    try:
        ctypes.CDLL("libasound.so.2").snd_lib_error_set_handler(_say_nothing)
    except OSError:
        return  # without the library there is nothing that writes
