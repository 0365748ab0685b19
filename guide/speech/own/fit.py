"""From sayings to means, and whether they help."""

from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from guide.speech.confidence import scores, shipped_weights
from guide.speech.endpoint import Segment
from guide.speech.engine import Engine
from guide.speech.own.adapt import pulled, turned
from guide.speech.own.alignment import Aligner, Stretch
from guide.speech.own.lesson import Asked
from guide.speech.own.model import Model, written
from guide.speech.own.sums import Sums

ROUNDS = 2
"""Sayings are aligned again by what was learned from them; measured: the second time gains as much again for a
strange voice (lengths 12 to 19 of 24), and nothing for others."""
FEWEST = 20
"""Sayings; from fewer, a transform of 182 numbers a stream is a guess."""


class TooFew(Exception):
    """Too little was said that could be learned from; `str` is one sentence."""


@dataclass(frozen=True, slots=True)
class Said:
    """A saying of the lesson, as it was said."""

    asked: Asked
    segment: Segment


def learned(model: Model, sayings: Sequence[Said], path: Path) -> bytes:
    """The file of means for this person, which is also left at `path`. Raises TooFew."""
    model_means = model.means
    own: Path | None = None
    data = b""
    for _ in range(ROUNDS):
        stretches = _aligned(sayings, own)
        if len(stretches) < FEWEST:
            raise TooFew(
                f"Only {len(stretches)} sayings could be followed, and {FEWEST} are needed; "
                "say the lesson again, nearer to the microphone."
            )
        model_means = turned(model, _counted(model, model_means, stretches))
        means = pulled(model, model_means, _counted(model, model_means, stretches))
        data = written(model, means)
        path.write_bytes(data)
        own = path
    return data


def understood(engine: Engine, sayings: Sequence[Said]) -> int:
    """How many of them an engine understands and believes, as the ear would."""
    weights = shipped_weights()
    right = 0
    for said in sayings:
        engine.set_grammar(said.asked.grammar)
        heard = engine.decode(said.segment.pcm, said.segment.plain)
        meaning = said.asked.grammar.parse(heard.text).meaning if heard is not None else None
        if heard is None or meaning is None or meaning != said.asked.meaning:
            continue
        belief = weights.belief(scores(heard, said.segment, said.asked.grammar), meaning.kind)
        right += belief >= weights.enough(meaning, quiet=said.segment.quiet)
    return right


def _aligned(sayings: Sequence[Said], means: Path | None) -> list[list[Stretch]]:
    aligner = Aligner(means)
    try:
        found = [aligner.align(said.asked.words, said.segment.pcm) for said in sayings]
    finally:
        aligner.close()
    return [one for one in found if one]


def _counted(model: Model, means: "array[float]", stretches: Sequence[Sequence[Stretch]]) -> Sums:
    sums = Sums(model, means)
    for one in stretches:
        sums.add(one)
    return sums
