"""The listening thread: it reads sound, feeds the recognition process, and reports what was heard.

Recognition has a process of its own because the recogniser holds Python's global interpreter lock while it decodes:
0.2 s for a short saying, 0.3 s for four seconds of noise (measured). In a thread of the app, a key would wait as long.
"""

import math
import pickle
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, suppress
from threading import Event, Lock, Thread
from typing import Protocol

from guide.run.listening import Takes
from guide.speech.audio import FRAME_SECONDS, LOUDEST, in_a_room, samples
from guide.speech.ear import Heard, Missed, Report
from guide.speech.engine import NoEngine
from guide.speech.microphone import NoMicrophone
from guide.words.spoken import Grammar


class FrameSource(Protocol):
    """Where frames come from, such as a microphone that is open."""

    def frames(self) -> Iterator[bytes]:
        """Frames of 30 ms. Raises NoMicrophone if they cease."""


class Hearing(Protocol):
    """Speech recognition, here or in a process of its own."""

    def listen_for(self, grammar: Grammar, takes: Takes = ...) -> None:
        """Hear what this grammar allows from now on. Raises NoEngine if it cannot."""

    def feed(self, frame: bytes) -> Iterator[Report]:
        """Take the next frame of 30 ms. Raises NoEngine if it cannot."""

    def finish(self) -> Iterator[Report]:
        """The sound is over: what was still being said."""

    def close(self) -> None:
        """Release memory and processes."""


class Listener:
    """Listens from `start` until `stop`, and calls `on_report` in its own thread.

    While `shut` is true sound is ignored, so that the program's own voice is not recognised; it is called at every
    frame. Recognition is loaded in the thread, so that its half second delays no key.
    """

    def __init__(
        self,
        open_ear: Callable[[], Hearing],
        source: AbstractContextManager[FrameSource],
        on_report: Callable[[Report, object], None],
        on_trouble: Callable[[str], None],
        shut: Callable[[], bool] = lambda: False,
        on_ready: Callable[[], None] = lambda: None,
    ) -> None:
        """`on_report` is given each report and the turn of the `listen_for` that it was heard under,
        `on_trouble` one sentence when listening ends by itself."""
        self.level = 0.0
        """How loud the last frame was, 0 to 1, for a meter."""
        self.dead_seconds = 0.0
        """For how long nothing has come from the source, not even the noise of an open microphone."""
        self._open_ear = open_ear
        self._source = source
        self._on_report = on_report
        self._on_trouble = on_trouble
        self._shut = shut
        self._on_ready = on_ready
        self._lock = Lock()
        self._next: tuple[Grammar, Takes, object] | None = None
        self._over = Event()
        self._thread = Thread(target=self._run, daemon=True)

    def listen_for(
        self, grammar: Grammar, takes: Takes = lambda _: "", turn: object = None
    ) -> None:
        """From the next frame on, hear what this grammar allows; `turn` is given back with what was heard."""
        with self._lock:
            self._next = (grammar, takes, turn)

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def stop(self) -> None:
        """End, after the frame at hand."""
        self._over.set()

    def wait(self, seconds: float) -> bool:
        """Wait for the end; False if it takes longer than `seconds`."""
        self._thread.join(seconds)
        return not self._thread.is_alive()

    def _run(self) -> None:
        try:
            ear = self._open_ear()
            try:
                with self._source as source:
                    self._hear(ear, source)
            finally:
                ear.close()
        except (NoEngine, NoMicrophone) as error:
            self.level = 0.0
            self._on_trouble(str(error))

    def _hear(self, ear: Hearing, source: FrameSource) -> None:
        turn: object = None
        self._on_ready()
        for frame in source.frames():
            if self._over.is_set():
                return
            shut = self._shut()
            self._measure(frame)
            with self._lock:
                wanted, self._next = self._next, None
            if wanted is not None:
                grammar, takes, turn = wanted
                ear.listen_for(grammar, takes)
            # Silence in place of our own voice, so that the time of recognition goes on.
            for report in ear.feed(bytes(len(frame)) if shut else in_a_room(frame)):
                self._on_report(report, turn)
        for report in ear.finish():
            self._on_report(report, turn)

    def _measure(self, frame: bytes) -> None:
        peak = max(map(abs, samples(frame)), default=0)
        self.level = loudness(peak)
        self.dead_seconds = 0.0 if peak >= FAINT else self.dead_seconds + FRAME_SECONDS


FAINT = 4
"""A peak below as many steps of a sample is not a signal: an open microphone has more noise of its own."""
_FAINTEST = -54.0
"""Decibels below full scale that a meter shows as nothing: a quiet room through a common microphone."""


def loudness(peak: int) -> float:
    """How loud a frame is by its highest sample, 0 to 1: in decibels, from a quiet room to full scale."""
    decibels = 20 * math.log10(max(peak, 1) / LOUDEST)
    return min(1.0, max(0.0, 1 - decibels / _FAINTEST))


GONE = "Speech recognition ended by a fault of its own; use the keys."


class EarApart:
    """Hears as `Ear` does. Its calls wait for the process, and are for a thread that may wait."""

    def __init__(self, engine: str = "auto", model: str = "", own: str = "") -> None:
        """Start it and load the engine. Raises NoEngine with what is missing."""
        self._takes: Takes = lambda _: ""
        self._process = subprocess.Popen(
            [sys.executable, "-m", "guide.speech.ear_child", engine, model, own],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,  # recognisers write there what a screen must not show
        )
        self._answer()

    def listen_for(self, grammar: Grammar, takes: Takes = lambda _: "") -> None:
        """Hear what this grammar allows from now on. Raises NoEngine if the process is gone."""
        self._takes = takes
        self._ask(grammar)

    def feed(self, frame: bytes) -> Iterator[Report]:
        """Take the next frame of 30 ms. Raises NoEngine if the process is gone."""
        return map(self._held_against, self._ask(frame))

    def finish(self) -> Iterator[Report]:
        """The sound is over: what was still being said. Raises NoEngine if the process is gone."""
        return map(self._held_against, self._ask(None))

    def close(self) -> None:
        """End the process."""
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            assert pipe is not None
            with suppress(OSError):
                pipe.close()

    def _held_against(self, report: Report) -> Report:
        """A meaning is checked in this process, where the run is: whether it is possible at this step."""
        if isinstance(report, Heard):
            refusal = self._takes(report.meaning)
            if refusal:
                return Missed("impossible", refusal, report.words, report.confidence)
        return report

    def _ask(self, wanted: Grammar | bytes | None) -> list[Report]:
        assert self._process.stdin is not None
        try:
            pickle.dump(wanted, self._process.stdin)
            self._process.stdin.flush()
        except OSError as error:
            raise NoEngine(GONE) from error
        return self._answer()

    def _answer(self) -> list[Report]:
        assert self._process.stdout is not None
        try:
            answer: list[Report] | str = pickle.load(self._process.stdout)
        except (EOFError, pickle.UnpicklingError) as error:
            raise NoEngine(GONE) from error
        if isinstance(answer, str):
            raise NoEngine(answer)
        return answer
