"""Speech output that can be interrupted (barge-in): one sentence at a time, silent at once.

To be silent, the process that speaks is ended, so that no library has to stop and no buffer has to empty. A new one
is started in advance, so that the next sentence does not wait for it.
"""

import json
import subprocess
import sys
from contextlib import suppress
from threading import Lock, Thread


class Mouth:
    """Says sentences, each of which cuts off the one before. Safe to call from any thread."""

    def __init__(self, *, nowhere: bool = False) -> None:
        """With `nowhere` the sound is played into nothing, for a machine without a loudspeaker."""
        self._command = [sys.executable, "-m", "guide.speech.speaker"]
        if nowhere:
            self._command.append("--nowhere")
        self._lock = Lock()
        self._process: subprocess.Popen[str] | None = None
        self._reader: Thread | None = None
        self._saying = 0
        """Sentences that were given to this process and are not over."""
        self.trouble = ""
        """Why nothing can be said here, in one sentence; empty while it can."""

    @property
    def speaking(self) -> bool:
        """Whether something is being said, so that listening can be suspended."""
        return self._saying > 0

    def say(self, text: str) -> None:
        """Begin to say `text`; what was being said is cut off. Does nothing if there is trouble."""
        with self._lock:
            if self.trouble:
                return
            if self._saying:
                self._end()
            process = self._running()
            self._saying += 1
            try:
                assert process.stdin is not None
                process.stdin.write(json.dumps({"say": " ".join(text.split())}) + "\n")
                process.stdin.flush()
            except OSError:
                # It ended by itself; its last line, which the reader takes, says why.
                self._saying = 0

    def hush(self) -> None:
        """Be silent, at once."""
        with self._lock:
            if self._saying:
                self._end()
                self._running()

    def wait(self, seconds: float = 60.0) -> bool:
        """Wait until the process that speaks has ended or said everything; for tests and scripts.

        False if it took longer than `seconds`.
        """
        with self._lock:
            process, reader = self._process, self._reader
            if process is not None and process.stdin is not None and process.poll() is None:
                process.stdin.close()
        if reader is None:
            return True
        reader.join(seconds)
        return not reader.is_alive()

    def close(self) -> None:
        """End the process."""
        with self._lock:
            self._end()

    def _running(self) -> "subprocess.Popen[str]":
        if self._process is None or self._process.poll() is not None:
            self._process = subprocess.Popen(
                self._command,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,  # sound libraries write there what a screen must not show
                text=True,
                encoding="utf-8",
            )
            self._reader = Thread(target=self._read, args=(self._process,), daemon=True)
            self._reader.start()
        return self._process

    def _read(self, process: "subprocess.Popen[str]") -> None:
        assert process.stdout is not None
        for line in process.stdout:
            answer = json.loads(line)
            if process is self._process:
                self._saying = 0
                self.trouble = answer.get("trouble", "")
        if process is self._process and not self.trouble:
            self._saying = 0

    def _end(self) -> None:
        process, self._process, self._saying = self._process, None, 0
        if process is None:
            return
        process.kill()
        process.wait()
        assert process.stdin is not None
        with suppress(BrokenPipeError):  # a sentence that it did not live to read
            process.stdin.close()
