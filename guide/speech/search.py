"""One search of PocketSphinx through a whole utterance: its score, and the words and where they lie."""

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from guide.speech.engine import HeardWord

if TYPE_CHECKING:
    from pocketsphinx import Decoder

_NOT_WORDS = ("(NULL)", "<s>", "</s>", "<sil>", "[NOISE]", "[SPEECH]", "[COUGH]", "<unk>")
_LEAST = 1e-300
"""Scores are given as probabilities, which can come out as 0."""

Found = tuple[float, list[HeardWord]]
"""The score of the path, a natural logarithm, and its segments, silence among them."""


def search(decoder: "Decoder", pcm: bytes) -> Found | None:
    """Decode with the search that is active; None where nothing was found."""
    # Or it begins with what it took for noise in the utterance before, and the same sound gets another score.
    decoder.reinit_feat()
    decoder.start_utt()
    try:
        decoder.process_raw(pcm, full_utt=True)
    finally:
        decoder.end_utt()
    best = decoder.hyp()
    if best is None:
        return None
    segments = [
        HeardWord(s.word, s.start_frame, s.end_frame, math.log(max(s.ascore, _LEAST)), s.prob)
        for s in decoder.seg()
        if s.end_frame >= s.start_frame
    ]
    return math.log(max(best.score, _LEAST)), segments


def score_of(found: Found | None) -> float:
    """The score; of nothing, the least there is."""
    return found[0] if found is not None else math.log(_LEAST)


def words_of(found: Found | None) -> list[HeardWord]:
    """The segments that are words, each as the grammar writes it."""
    segments = found[1] if found is not None else []
    return [
        replace(one, word=one.word.partition("(")[0])
        for one in segments
        if one.word not in _NOT_WORDS
    ]


def text_of(found: Found | None) -> str:
    """The words."""
    return " ".join(one.word for one in words_of(found))
