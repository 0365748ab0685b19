"""The ear in a process of its own, so that no key waits for it.

The recogniser holds the whole interpreter while it decodes: 0.2 s for a short saying, 0.3 s for four seconds of noise
(measured). In a thread of the app, that is how long a key would have waited.
"""

import pickle
import subprocess
import sys
from collections.abc import Iterator
from contextlib import suppress

from guide.run.asked import Takes
from guide.speech.ear import Heard, Missed, Report
from guide.speech.engine import NoEngine
from guide.words.spoken import Grammar

GONE = "The ear ended by a fault of its own; go on by keys."


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
        """Hear what this grammar allows from now on. Raises NoEngine where the process is gone."""
        self._takes = takes
        self._ask(grammar)

    def feed(self, frame: bytes) -> Iterator[Report]:
        """Take the next frame of 30 ms. Raises NoEngine where the process is gone."""
        return map(self._held_against, self._ask(frame))

    def finish(self) -> Iterator[Report]:
        """The sound is over: what was still being said. Raises NoEngine where the process is gone."""
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
        """A meaning is held against what can be in this process, where the run stands."""
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
