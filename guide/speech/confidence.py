"""Confidence measure of a hypothesis: several weak scores combined by logistic regression.

    p = 1 / (1 + exp(-(bias + sum over scores of weight * (score - mean) / spread)))

No single score separates right from wrong; ten together do. For a measure or a number there are two functions: was one
said at all, from the acoustic fit, and was it this one, from the distance to its rival hypotheses. One function for
both answers neither well. Commands are few and do not sound alike, so that one function is enough for them.

`tests/campaigns/speech.py` fits the weights on two of its voices and tests them on others. There is a file of weights,
with their thresholds, for each kind of noise suppression.
"""

import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from guide.speech.endpoint import Segment
from guide.speech.engine import HeardWord, Hypothesis
from guide.speech.frontend import share
from guide.speech.suppressor import Name, suppressor_here
from guide.words import ANSWERS, COMMANDS, VOICE
from guide.words.spoken import Grammar, Meaning

_CHANGES = {command.name: command.changes for command in (*COMMANDS, *ANSWERS, *VOICE)}


@dataclass(frozen=True, slots=True)
class Term:
    """One score in the sum: its usual value and spread, and its weight."""

    mean: float
    spread: float
    weight: float


@dataclass(frozen=True, slots=True)
class Logistic:
    """A fitted logistic function."""

    terms: Mapping[str, Term]
    bias: float

    def belief(self, scores: Mapping[str, float]) -> float:
        """The probability, 0 to 1, that goes with some scores."""
        total = self.bias
        for name, term in self.terms.items():
            away = (scores[name] - term.mean) / term.spread
            # What is far from all that was fitted must not outweigh the other scores.
            total += term.weight * max(-4.0, min(4.0, away))
        return 1.0 / (1.0 + math.exp(-max(-40.0, min(40.0, total))))


@dataclass(frozen=True, slots=True)
class Weights:
    """The fitted functions and their thresholds."""

    words: Logistic
    """That the command or choice heard was said."""
    asked: Logistic
    """That a measure or number was said."""
    right: Logistic
    """That it was the one heard."""
    harmless: float
    """Enough for a command that changes nothing."""
    changing: float
    """Enough for a command that changes the run, or a choice."""
    value: float
    """Enough for a measure or a number, which is read back before it counts."""
    value_in_quiet: float
    """The same in a quiet place."""
    quietest: float
    """The least signal-to-noise ratio [dB]."""
    agreed: float
    """If speech is fewer dB above what is left of the noise, as in that of a drill, a measure must come to the
    same with the noise and without."""
    outside: float
    """More of the loud sound than this, 0 to 1, must not lie outside the words: “go forward ten meters” is not “go
    forward”."""

    def belief(self, scores: Mapping[str, float], kind: str) -> float:
        """The probability, 0 to 1, that words with these scores and a meaning of this kind were said."""
        if scores["loud outside the words"] > self.outside:
            return 0.0
        if kind in ("command", "choice"):
            return self.words.belief(scores)
        if scores["above what is left"] < self.agreed and not scores["heard again"]:
            return 0.0
        return min(self.asked.belief(scores), self.right.belief(scores))

    def enough(self, meaning: Meaning, *, quiet: bool = False) -> float:
        """The confidence that this meaning needs before it is acted on, in noise or in a `quiet` place."""
        if meaning.kind not in ("command", "choice"):
            return self.value_in_quiet if quiet else self.value
        changes = meaning.kind == "choice" or _CHANGES.get(str(meaning.value), False)
        return self.changing if changes else self.harmless


@lru_cache
def shipped_weights(suppressor: Name | None = None) -> Weights:
    """The weights that come with the program, for a suppressor; without a name, for the best that works here."""
    name = "rnnoise" if (suppressor or suppressor_here()) == "rnnoise" else "webrtc"
    path = resources.files("guide.speech") / f"confidence_{name}.json"
    return read_weights(path.read_text("utf-8"))


def read_weights(text: str) -> Weights:
    """Weights from the text of a file of them."""
    data = json.loads(text)
    words, asked, right = (
        Logistic(
            {name: Term(*numbers) for name, numbers in data[part]["terms"].items()},
            data[part]["bias"],
        )
        for part in ("words", "asked", "right")
    )
    limits = data["thresholds"]
    return Weights(
        words,
        asked,
        right,
        limits["harmless"],
        limits["changing"],
        limits["value"],
        limits["value_in_quiet"],
        limits["quietest_db"],
        limits["agreed_db"],
        limits["outside"],
    )


def scores(heard: Hypothesis, segment: Segment, grammar: Grammar) -> dict[str, float]:
    """The scores of a hypothesis that has a meaning in the grammar: the inputs of the regression."""
    meaning = grammar.parse(heard.text).meaning
    words = heard.words
    spoken = sum(word.frames for word in words)
    inside = words[-1].end - words[0].start + 1
    short = [-100 * word.score / word.frames for word in words]
    paces = [word.frames / max(1, len(word.word)) for word in words]
    loud = share(segment.levels, 0.75)
    return {
        "score a frame": 100 * heard.score / heard.frames,
        "words short of the best sounds": -100 * sum(word.score for word in words) / spoken,
        "worst word": max(short),
        "words": float(len(words)),
        "fewest frames a letter": min(paces),
        "most frames a letter": max(paces),
        "gaps": 1.0 - spoken / inside,
        "covered": inside / heard.frames,
        "above the noise": min(60.0, segment.snr),
        "above what is left": segment.left,
        "loud outside the words": _outside(words, segment.levels, loud - 12),
        "loud frames": sum(one > loud - 12 for one in segment.levels) / len(segment.levels),
        "last word": words[-1].frames / 10,
        "heard again": float(heard.again is None or grammar.parse(heard.again).meaning == meaning),
        "ahead of rivals": _ahead(heard),
    }


def _outside(words: Sequence[HeardWord], levels: Sequence[float], loud: float) -> float:
    """The part of the loud frames, 0 to 1, that no word was heard in: more was said than what was heard.

    Words count frames of a hundredth of a second, and the ends of words are softer than this needs to know.
    """
    inside = {
        frame for word in words for frame in range(max(0, word.start // 3 - 1), word.end // 3 + 2)
    }
    numbers = [number for number, level in enumerate(levels) if level > loud]
    return sum(number not in inside for number in numbers) / max(1, len(numbers))


_FAR_FROM_RIVALS = 8.0
"""The lead of a hypothesis without a rival, which is also the largest lead."""


def _ahead(heard: Hypothesis) -> float:
    """How much better the words fit than the best of their rivals, -8 to 8, in hundredths of a logarithm."""
    if heard.ahead is None:
        return _FAR_FROM_RIVALS
    return max(-_FAR_FROM_RIVALS, min(_FAR_FROM_RIVALS, 100 * heard.ahead))
