"""Listening beside everything else: a thread that takes sound, feeds the ear, and hands over what was heard."""

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from threading import Event, Lock, Thread
from typing import Protocol

from guide.speech.asked import Takes
from guide.speech.ear import Ear, Report
from guide.speech.engine import Engine, NoEngine
from guide.speech.microphone import NoMicrophone
from guide.words.spoken import Grammar


class Source(Protocol):
    """Where frames come from, such as a microphone that is open."""

    def frames(self) -> Iterator[bytes]:
        """Frames of 30 ms. Raises NoMicrophone where they cease."""


class Listener:
    """Listens from `start` until `stop`, and calls `on_report` in its own thread.

    While `shut` is true no sound is listened to, so that the ear does not hear the mouth. The engine is
    loaded in the thread, where its half second delays nobody.
    """

    def __init__(
        self,
        load: Callable[[], Engine],
        source: AbstractContextManager[Source],
        on_report: Callable[[Report], None],
        on_trouble: Callable[[str], None],
        shut: Callable[[], bool] = lambda: False,
    ) -> None:
        """`on_trouble` is given one sentence when listening ends by itself."""
        self._load = load
        self._source = source
        self._on_report = on_report
        self._on_trouble = on_trouble
        self._shut = shut
        self._lock = Lock()
        self._next: tuple[Grammar, Takes] | None = None
        self._over = Event()
        self._thread = Thread(target=self._run, daemon=True)

    def listen_for(self, grammar: Grammar, takes: Takes = lambda _: "") -> None:
        """From the next frame on, hear what this grammar allows."""
        with self._lock:
            self._next = (grammar, takes)

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def stop(self) -> None:
        """End, after the frame at hand."""
        self._over.set()

    def wait(self, seconds: float) -> bool:
        """Wait for the end; False where it takes longer than `seconds`."""
        self._thread.join(seconds)
        return not self._thread.is_alive()

    def _run(self) -> None:
        try:
            engine = self._load()
            try:
                with self._source as source:
                    self._hear(Ear(engine), source)
            finally:
                engine.close()
        except (NoEngine, NoMicrophone) as error:
            self._on_trouble(str(error))

    def _hear(self, ear: Ear, source: Source) -> None:
        for frame in source.frames():
            if self._over.is_set():
                return
            with self._lock:
                wanted, self._next = self._next, None
            if wanted is not None:
                ear.listen_for(*wanted)
            # Silence in place of our own voice, so that the time of the ear goes on.
            for report in ear.feed(bytes(len(frame)) if self._shut() else frame):
                self._on_report(report)
        for report in ear.finish():
            self._on_report(report)
