"""How far what an engine heard is to be believed: several weak scores put together by a logistic function.

No single score tells right from wrong; ten together do. The weights are fitted by `tests/campaigns/speech.py` on
two of its voices and judged on others; they stand in `confidence.json` with the thresholds that go with them.
Command words and measures have weights of their own, because one short word looks otherwise than eight.
"""

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from guide.speech.endpoint import Segment
from guide.speech.engine import Hypothesis
from guide.speech.frontend import share
from guide.words import ANSWERS, COMMANDS, VOICE
from guide.words.spoken import Meaning

_CHANGES = {command.name: command.changes for command in (*COMMANDS, *ANSWERS, *VOICE)}


@dataclass(frozen=True, slots=True)
class Term:
    """One score in the sum: its usual value and spread, and its weight."""

    mean: float
    spread: float
    weight: float


@dataclass(frozen=True, slots=True)
class Weights:
    """A fitted logistic function and the thresholds that go with it."""

    words: Mapping[str, Term]
    words_bias: float
    numbers: Mapping[str, Term]
    numbers_bias: float
    harmless: float
    """Enough for a command that changes nothing."""
    changing: float
    """Enough for a command that changes the run, or a choice."""
    value: float
    """Enough for a measure or a number, which is read back before it counts."""
    quietest: float
    """Speech must stand as many dB above the noise."""

    def belief(self, scores: Mapping[str, float], kind: str) -> float:
        """The probability, 0 to 1, that words with these scores were said."""
        terms, total = (
            (self.words, self.words_bias)
            if kind in ("command", "choice")
            else (self.numbers, self.numbers_bias)
        )
        for name, term in terms.items():
            away = (scores[name] - term.mean) / term.spread
            total += term.weight * max(-4.0, min(4.0, away))
        return 1.0 / (1.0 + math.exp(-max(-40.0, min(40.0, total))))

    def enough(self, meaning: Meaning) -> float:
        """The confidence that this meaning needs before it is acted on."""
        if meaning.kind == "command":
            return self.changing if _CHANGES.get(str(meaning.value), False) else self.harmless
        return self.changing if meaning.kind == "choice" else self.value


@lru_cache(maxsize=1)
def shipped_weights() -> Weights:
    """The weights that come with the program."""
    return read_weights((resources.files("guide.speech") / "confidence.json").read_text("utf-8"))


def read_weights(text: str) -> Weights:
    """Weights from the text of a file of them."""
    data = json.loads(text)
    terms = {
        part: {name: Term(*numbers) for name, numbers in data[part]["terms"].items()}
        for part in ("words", "numbers")
    }
    limits = data["thresholds"]
    return Weights(
        terms["words"],
        data["words"]["bias"],
        terms["numbers"],
        data["numbers"]["bias"],
        limits["harmless"],
        limits["changing"],
        limits["value"],
        limits["quietest_db"],
    )


def scores(heard: Hypothesis, segment: Segment) -> dict[str, float]:
    """The scores that belief is made of."""
    words = heard.words
    spoken = sum(word.frames for word in words)
    inside = words[-1].end - words[0].start + 1
    fits = [word.better_sounds for word in words]
    paces = [word.frames / max(1, len(word.word)) for word in words]
    loud = share(segment.levels, 0.75)
    return {
        "score a frame": 100 * heard.score / heard.frames,
        "behind free sounds": 100 * (heard.loop_score - heard.score) / heard.frames,
        "worst fit of a word": max(fits),
        "mean fit": sum(fit * word.frames for fit, word in zip(fits, words, strict=True)) / spoken,
        "words": float(len(words)),
        "fewest frames a letter": min(paces),
        "most frames a letter": max(paces),
        "gaps": 1.0 - spoken / inside,
        "covered": inside / heard.frames,
        "above the noise": min(60.0, segment.snr),
        "loud frames": sum(one > loud - 12 for one in segment.levels) / len(segment.levels),
        "last word": words[-1].frames / 10,
    }
