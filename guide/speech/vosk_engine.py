"""The added engine: Vosk, by a model that the person has put in a folder, in a process of its own.

Its grammar is a list of phrases. If a step has too many sayings to list, such as those of a length, the list is
that of the single words; the strict parse of what was heard is then the only grammar.
"""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

from guide.speech.engine import HeardWord, Hypothesis, NoEngine
from guide.words.spoken import Grammar

UNKNOWN = ("[unk]", "<unk>", "<UNK>")
"""How models name speech outside the phrases (garbage model); each model has one of these names, or none."""


class Vosk:
    """Words by phrases, with a confidence for each word."""

    name = "added"
    knows_parts = False

    def __init__(self, folder: Path) -> None:
        """Load the model, in up to ten seconds. Raises NoEngine if it does not load."""
        self._process = subprocess.Popen(
            [sys.executable, "-m", "guide.speech.vosk_child", str(folder)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
        )
        self._read(folder)

    def _read(self, folder: object = "The added recogniser") -> dict[str, Any]:
        assert self._process.stdout is not None
        line = self._process.stdout.readline()
        answer: dict[str, Any] = json.loads(line) if line else {}
        if not answer or "trouble" in answer:
            self.close()
            raise NoEngine(
                answer.get(
                    "trouble",
                    f"{folder} ended by a fault of its own; use the keys, or set engine=built-in.",
                )
            )
        return answer

    def _ask(self, asked: dict[str, object], sound: bytes = b"") -> dict[str, Any]:
        assert self._process.stdin is not None
        try:
            self._process.stdin.write(
                json.dumps(asked, ensure_ascii=False).encode() + b"\n" + sound
            )
            self._process.stdin.flush()
        except OSError as error:
            raise NoEngine(
                "The added recogniser ended by a fault of its own; use the keys, or set engine=built-in."
            ) from error
        return self._read()

    def set_grammar(self, grammar: Grammar) -> None:
        """Hear only what this grammar allows. Raises NoEngine if the process is gone."""
        phrases = grammar.phrases() or grammar.words()
        self._ask({"phrases": [*phrases, *UNKNOWN]})

    def decode(self, pcm: bytes, plain: bytes = b"") -> Hypothesis | None:
        """The words; None if there are none, or any is unknown. Raises NoEngine."""
        found = self._ask({"bytes": len(pcm)}, pcm)["result"]
        words = tuple(
            HeardWord(
                one["word"],
                round(100 * one["start"]),
                round(100 * one["end"]) - 1,
                0.0,
                one["conf"],
            )
            for one in found
        )
        if not words or any(word.word in UNKNOWN for word in words):
            return None
        least = min(word.probability for word in words)
        return Hypothesis(words, len(pcm) // 320, 0.0, own=least)

    def close(self) -> None:
        """End the process."""
        self._process.kill()
        self._process.wait()
