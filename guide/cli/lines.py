"""Lines typed by the person, until the input or Ctrl-C ends them."""

import signal
import sys
from types import FrameType, TracebackType
from typing import Self

from guide.cli.terminal import person_types


def forget_typed(terminal: int) -> None:
    """Throw away what a terminal holds and nobody has read."""
    try:
        import termios  # not on Windows
    except ImportError:
        import msvcrt

        while msvcrt.kbhit():  # type: ignore[attr-defined, unused-ignore]
            msvcrt.getwch()  # type: ignore[attr-defined, unused-ignore]
        return
    termios.tcflush(terminal, termios.TCIFLUSH)


class TypedLines:
    """Standard input line by line. Ctrl-C ends the lines at the next one, never a write half way."""

    def __init__(self, prompt: str = "Answer: ") -> None:
        """`prompt` is printed before each line."""
        self._prompt = prompt
        self._waiting = False
        self._stopped = False

    def __enter__(self) -> Self:
        self._before = signal.signal(signal.SIGINT, self._interrupted)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        signal.signal(signal.SIGINT, self._before)

    def _interrupted(self, number: int, frame: FrameType | None) -> None:
        self._stopped = True
        if self._waiting:
            raise KeyboardInterrupt

    def forget(self) -> None:
        """Throw away what was typed before now, where a person types; lines from a file or a pipe are all meant."""
        if person_types():
            forget_typed(sys.stdin.fileno())

    def read(self) -> str | None:
        """The next line without its end; None when there are no more."""
        sys.stdout.write(self._prompt)
        sys.stdout.flush()
        line = ""
        try:
            self._waiting = True
            if not self._stopped and sys.stdin is not None:
                line = sys.stdin.readline()
        except KeyboardInterrupt:
            line = ""  # the lines have ended
        finally:
            self._waiting = False
        if not line:
            print()
            return None
        return line.rstrip("\n")
