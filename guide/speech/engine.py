"""The protocol of a recogniser: sound to words by a grammar, with the scores that confidence is computed from."""

from dataclasses import dataclass
from typing import Protocol

from guide.errors import NO_DEVICE, HingesideError
from guide.words.spoken import Grammar


class NoEngine(HingesideError):
    """An engine cannot work here; `str` is one sentence: what is missing, and how to get it."""

    status = NO_DEVICE


@dataclass(frozen=True, slots=True)
class HeardWord:
    """One word of a hypothesis."""

    word: str
    start: int
    """The first of its frames of 10 ms."""
    end: int
    """The last."""
    score: float
    """How likely its sounds are compared with the likeliest sound of each frame [natural logarithm];
    0 if the engine does not say."""
    probability: float
    """The engine's own confidence in it, 0 to 1."""

    @property
    def frames(self) -> int:
        """How long it lasts."""
        return self.end - self.start + 1


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """The best hypothesis for a segment, with its scores."""

    words: tuple[HeardWord, ...]
    frames: int
    """Length of the segment in frames of 10 ms."""
    score: float
    """The same of the whole, with what silence and words cost."""
    again: str | None = None
    """The words that the same sound with its noise comes to; None if it was not listened to."""
    ahead: float | None = None
    """How much likelier these words are than the likeliest rival with another value, as a difference of logarithms;
    None if they have no rival, or the engine does not ask."""
    own: float | None = None
    """The engine's own confidence in all of it, 0 to 1, if that is to be used instead of these scores."""

    @property
    def text(self) -> str:
        """The words."""
        return " ".join(word.word for word in self.words)


class Engine(Protocol):
    """A recogniser."""

    @property
    def name(self) -> str:
        """As the setting names it."""

    @property
    def knows_parts(self) -> bool:
        """Whether it doubts the first half of a saying, if a grammar would make a whole one of it."""

    def set_grammar(self, grammar: Grammar) -> None:
        """Hear only what this grammar allows from now on."""

    def decode(self, pcm: bytes, plain: bytes = b"") -> Hypothesis | None:
        """The likeliest words in 16 kHz 16-bit sound; None if there are none.

        `plain` is the same sound before its noise was suppressed, for an engine that compares the two.
        """

    def close(self) -> None:
        """Release memory and processes."""
