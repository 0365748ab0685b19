"""The program itself in a pseudo-terminal, read as a person reads the screen."""

import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

import pyte

ROOT = Path(__file__).resolve().parents[2]


class Window:
    """A terminal of 80 by 24 with the program in it."""

    def __init__(self, *arguments: str, **environment: str) -> None:
        self.screen = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.screen)
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.process = subprocess.Popen(
            [sys.executable, "-m", "guide.cli.main", *arguments],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            cwd=ROOT,
            env={**os.environ, "TERM": "xterm-256color", "LANG": "C.UTF-8", **environment},
        )
        os.close(theirs)
        self.file = ours

    def shows(self, text: str, seconds: float = 30.0) -> bool:
        """Whether the text comes on the screen within so many seconds."""
        until = time.monotonic() + seconds
        while not any(text in line for line in self.screen.display):
            left = until - time.monotonic()
            if left <= 0 or not select.select([self.file], [], [], left)[0]:
                return False
            if not self.read():
                return False
        return True

    def read(self) -> bool:
        """Feed the screen with what the program has written; false when it is gone."""
        try:
            written = os.read(self.file, 65536)
        except OSError:
            return False
        self.stream.feed(written)
        return bool(written)

    def press(self, keys: str) -> None:
        """Keys as the terminal sends them."""
        os.write(self.file, keys.encode())
