"""The chain of speech recognition: frames of sound in, reports of what was heard out.

It starts no thread and knows no rules of the run: the caller feeds it frames, gets reports, and asks the run what they
mean there. It works alike on a file and on a microphone in another thread.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from guide.speech.audio import FRAME_BYTES
from guide.speech.confidence import Weights, scores, shipped_weights
from guide.speech.endpoint import PAUSE_SECONDS, Segment, Segmenter, has_pitch
from guide.speech.engine import Engine, Hypothesis
from guide.speech.frontend import FrontEnd
from guide.words.spoken import Grammar, Meaning

WAIT_SECONDS = 1.7
"""How long the rest of a measure is waited for. A recogniser that must end its sentence makes “thirty five an inch”
of “thirty five and”, so that every measure not understood may be the beginning of one."""

_MAY_GO_ON = ("nothing", "incomplete", "unsure")

TOO_LOUD = "It is too loud to hear you; stop the tool, or use the keys."
NOT_CAUGHT = "That was not caught; say it again, or use the keys."


@dataclass(frozen=True, slots=True)
class Speaking:
    """Somebody began to speak."""


@dataclass(frozen=True, slots=True)
class Heard:
    """Words with a meaning, recognised with enough confidence."""

    words: str
    meaning: Meaning
    confidence: float
    """0 to 1."""
    end: float
    """Where the speech ended, in seconds since the stream began."""


@dataclass(frozen=True, slots=True)
class Missed:
    """Something was said, or sounded so, and it does not count."""

    why: Literal["loud", "nothing", "incomplete", "unsure", "impossible"]
    told: str
    """One sentence for the person."""
    words: str = ""
    """What it may have been."""
    confidence: float = 0.0


Report = Speaking | Heard | Missed


class Ear:
    """Recognises the phrases of one grammar in a stream of frames."""

    def __init__(self, engine: Engine, weights: Weights | None = None) -> None:
        self._engine = engine
        self._front = FrontEnd()
        self._weights = weights or shipped_weights(self._front.suppressor)
        self._segmenter = Segmenter()
        self._grammar: Grammar | None = None
        self._takes: Callable[[Meaning], str] = lambda _: ""
        self._told_speaking = False
        self._measures = False
        self._begun: tuple[Segment, Missed] | None = None
        """What may be the beginning of a measure, and what it comes to if nothing follows."""
        self._ahead: tuple[bytes, Heard | Missed] | None = None
        """The sound of the segment at hand, and what it comes to if no more is said."""

    def listen_for(self, grammar: Grammar, takes: Callable[[Meaning], str] = lambda _: "") -> None:
        """Hear what this grammar allows from now on, and forget what was begun.

        `takes` gives a sentence if a meaning is impossible here (a leaf of 90 feet), else an empty text.
        """
        self._grammar = grammar
        self._measures = any(part.kind in ("measure", "number") for part in grammar.parts)
        self._takes = takes
        self._engine.set_grammar(grammar)
        self._forget()

    @property
    def level(self) -> float:
        """Level of the noise around, in dB over one step of a sample, for a meter."""
        return self._segmenter.floor

    def feed(self, frame: bytes) -> Iterator[Report]:
        """Take the next frame of 30 ms."""
        segment = self._segmenter.push(*self._front.push(frame))
        if self._segmenter.speaking and not self._told_speaking:
            self._told_speaking = True
            yield Speaking()
        ahead = self._segmenter.ahead
        if ahead is not None:
            self._ahead = (ahead.pcm, self._judge(self._whole(ahead)))
        elif segment is None and self._is_all():
            segment = self._segmenter.finish()
        if segment is not None:
            self._told_speaking = False
            yield from self._segment(segment)
        elif self._begun is not None and self._waited_long(self._begun[0]):
            yield self._begun[1]
            self._forget()

    def finish(self) -> Iterator[Report]:
        """The sound is over: what was still being said."""
        yield from self.feed(bytes(FRAME_BYTES))  # the last of it is still in the suppressor
        segment = self._segmenter.finish()
        if segment is not None:
            yield from self._segment(segment)
        if self._begun is not None:
            yield self._begun[1]
            self._forget()

    def close(self) -> None:
        """Release the engine."""
        self._engine.close()

    def _is_all(self) -> bool:
        """Whether a command was understood, and so much quiet follows that it is all."""
        if self._ahead is None or self._segmenter.pause + 1e-9 < PAUSE_SECONDS:
            return False
        report = self._ahead[1]
        known = isinstance(report, Heard) and report.meaning.kind == "command"
        return known and self._engine.knows_parts

    def _waited_long(self, begun: Segment) -> bool:
        return not self._segmenter.speaking and self._segmenter.now - begun.end > WAIT_SECONDS

    def _segment(self, segment: Segment) -> Iterator[Report]:
        known = self._ahead
        heard_ahead = known is not None and known[0] == segment.pcm
        report = known[1] if known and heard_ahead else self._judge(self._whole(segment))
        joined = self._begun is not None
        self._forget()
        if (
            self._measures
            and not joined
            and isinstance(report, Missed)
            and report.why in _MAY_GO_ON
        ):
            self._begun = (segment, report)
            return
        yield report

    def _whole(self, segment: Segment) -> Segment:
        """With what may be its beginning: “seven eighths” alone would be another measure than “thirty five and
        seven eighths”."""
        return segment if self._begun is None else self._segmenter.joined(self._begun[0], segment)

    def _judge(self, segment: Segment) -> Heard | Missed:
        if segment.endless or segment.snr < self._weights.quietest:
            return Missed("loud", TOO_LOUD)
        if not has_pitch(segment.pcm, segment.levels):
            return Missed("nothing", NOT_CAUGHT)
        heard = self._engine.decode(segment.pcm, segment.plain)
        if heard is None or self._grammar is None:
            return Missed("nothing", NOT_CAUGHT)
        return self._meant(heard, segment, self._grammar)

    def _meant(self, heard: Hypothesis, segment: Segment, grammar: Grammar) -> Heard | Missed:
        understood = grammar.parse(heard.text)
        kind = understood.meaning.kind if understood.meaning is not None else "measure"
        confidence = (
            heard.own
            if heard.own is not None
            else self._weights.belief(scores(heard, segment, grammar), kind)
        )
        if understood.meaning is None:
            stops = understood.outcome == "incomplete"
            told = understood.told if stops else NOT_CAUGHT
            return Missed("incomplete" if stops else "nothing", told, heard.text, confidence)
        if confidence < self._weights.enough(understood.meaning, quiet=segment.quiet):
            return Missed("unsure", NOT_CAUGHT, heard.text, confidence)
        refusal = self._takes(understood.meaning)
        if refusal:
            return Missed("impossible", refusal, heard.text, confidence)
        return Heard(heard.text, understood.meaning, confidence, segment.end)

    def _forget(self) -> None:
        self._begun = None
        self._ahead = None
