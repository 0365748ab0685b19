"""The embedded engine: PocketSphinx with the US English model that its package carries.

The settings are measured, not guessed. Where silence between words costs as little as here, and each further word
and sound a little, no short digit is heard in the pause between two others; 1000 states a frame bound the work in
noise without loss, and a narrower beam for ends of words hears as many right.
A measure or number is held against its rivals in a grammar of these few sayings alone, which takes some hundredths of a
second; the lattice of the first search mostly holds none of them.
Utterances are decoded whole, so that the mean of the whole utterance is taken from it. The second search through the
lattice (bestpath) is left out: it hears no more right here, and takes up to ten seconds in noise.
"""

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from guide.speech.engine import HeardWord, Hypothesis, NoEngine
from guide.words.spoken import Grammar, rivals, settled

if TYPE_CHECKING:
    from pocketsphinx import Decoder

_ALONE = "alone"
"""The name of the grammar of few sayings."""
_KEPT = 12
"""Compiled grammars kept; a procedure asks for few kinds of answer."""
_NOT_WORDS = ("(NULL)", "<s>", "</s>", "<sil>", "[NOISE]", "[SPEECH]", "[COUGH]", "<unk>")
_LEAST = 1e-300
"""Scores are given as probabilities, which can come out as 0."""


class PocketSphinx:
    """Words by grammar, and a loop of free sounds beside it to hold them against."""

    name = "pocketsphinx"
    knows_parts = True

    def __init__(self, own: str = "") -> None:
        """Load the model: about half a second and 60 MB. Raises NoEngine where the library is missing.

        `own` is a file of means learned from one person (`speech/own`), used in place of the model's.
        """
        try:
            from pocketsphinx import Decoder, get_model_path
        except ImportError as error:
            raise NoEngine(
                "The library that hears words (pocketsphinx) is not installed; "
                "“hingeside voice” says how to get it."
            ) from error
        means = {"mean": own} if own else {}
        self._decoder: Decoder = Decoder(
            lm=None,
            wip=0.02,
            pip=0.6,
            silprob=4.0,
            maxhmmpf=1000,
            wbeam=1e-20,
            bestpath=False,
            loglevel="FATAL",
            **means,
        )
        self._loop: Decoder = Decoder(
            lm=None,
            allphone=get_model_path("en-us/en-us-phone.lm.bin"),
            beam=1e-20,
            pbeam=1e-20,
            lw=2.0,
            loglevel="FATAL",
            **means,
        )
        self._taught: set[str] = set()
        self._searches: dict[str, str] = {}
        """The names of compiled grammars by their text, the one used last at the end."""
        self._made = 0
        self._active = ""
        self._grammar: Grammar | None = None

    def set_grammar(self, grammar: Grammar) -> None:
        """Hear only what this grammar allows; words the model does not know are left out of it."""
        if grammar.language.name not in self._taught:
            for word, phones in grammar.language.pronunciations.items():
                if not self._knows(word):
                    self._decoder.add_word(word, phones, False)
            self._taught.add(grammar.language.name)
        self._grammar = grammar
        text = grammar.jsgf(self._knows)
        if not text:
            self._active = ""
            return
        name = self._searches.pop(text, "")
        if not name:
            if len(self._searches) >= _KEPT:
                oldest = next(iter(self._searches))
                self._decoder.remove_search(self._searches.pop(oldest))
            self._made += 1
            name = f"step-{self._made}"
            self._decoder.add_jsgf_string(name, text)
        self._searches[text] = self._active = name
        self._decoder.activate_search(self._active)

    def _knows(self, word: str) -> bool:
        return self._decoder.lookup_word(word) is not None

    def decode(self, pcm: bytes, plain: bytes = b"") -> Hypothesis | None:
        """The likeliest words; None where nothing of the grammar fits."""
        if not self._active or not pcm:
            return None
        found = _run(self._decoder, pcm)
        if found is None:
            return None
        found = self._settled(found, pcm)
        score, segments = found
        frames = self._decoder.n_frames()
        loop = _run(self._loop, pcm)
        loop_score, sounds = loop if loop is not None else (0.0, [])
        free = _Sounds(sounds)
        words = tuple(
            HeardWord(
                one.word.partition("(")[0],
                one.start,
                one.end,
                one.score,
                min(1.0, one.probability),
                (free.between(one.start, one.end) - one.score) / one.frames,
            )
            for one in segments
            if one.word not in _NOT_WORDS
        )
        if not words:
            return None
        again = _text(_run(self._decoder, plain)) if plain else None
        said = " ".join(one.word for one in words)
        ahead = self._ahead(said, pcm)
        return Hypothesis(words, frames, score, loop_score, again, ahead)

    def _settled(self, found: "_Found", pcm: bytes) -> "_Found":
        """What was found, or what takes its place by its fit to the sound alone."""
        said = _text(found)
        if self._grammar is None or not said:
            return found
        leads = settled(said, self._grammar)
        if not leads:
            return found
        best, most = found, self._fit([said], pcm)
        for saying, lead in leads.items():
            other = self._alone([saying], pcm) if all(map(self._knows, saying.split())) else None
            if other is not None and other[0] + lead / 100 > most:
                best, most = other, other[0] + lead / 100
        self._decoder.activate_search(self._active)
        return best

    def _ahead(self, said: str, pcm: bytes) -> float | None:
        """How much better the words fit than the best of their rivals."""
        if self._grammar is None:
            return None
        others = [one for one in rivals(said, self._grammar) if all(map(self._knows, one.split()))]
        if not others:
            return None
        fits = [self._fit(sayings, pcm) for sayings in ([said], others)]
        self._decoder.activate_search(self._active)
        return fits[0] - fits[1]

    def _fit(self, sayings: Sequence[str], pcm: bytes) -> float:
        """How well the best of some sayings fits the sound."""
        return _score(self._alone(sayings, pcm))

    def _alone(self, sayings: Sequence[str], pcm: bytes) -> "_Found | None":
        """The best of some sayings, each as likely beforehand as any other; the search is changed for it."""
        self._decoder.add_fsg(_ALONE, self._decoder.create_fsg(_ALONE, 0, 1, list(_tree(sayings))))
        self._decoder.activate_search(_ALONE)
        return _run(self._decoder, pcm)

    def close(self) -> None:
        """Nothing to give back: memory goes with the object."""


def _tree(sayings: Sequence[str]) -> Iterator[tuple[int, int, float, str]]:
    """Transitions from state 0 to state 1; sayings that begin alike share their beginning."""
    states: dict[tuple[str, ...], int] = {(): 0}
    for saying in sayings:
        words = tuple(saying.split())
        for count in range(1, len(words)):
            if words[:count] not in states:
                states[words[:count]] = len(states) + 1
                yield states[words[: count - 1]], states[words[:count]], 1.0, words[count - 1]
        yield states[words[:-1]], 1, 1.0, words[-1]


_Found = tuple[float, list[HeardWord]]
"""Score and segments."""


def _score(found: _Found | None) -> float:
    return found[0] if found is not None else math.log(_LEAST)


def _run(decoder: "Decoder", pcm: bytes) -> _Found | None:
    """Decode a whole utterance: score and segments."""
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


def _text(found: _Found | None) -> str:
    words = found[1] if found is not None else []
    return " ".join(one.word.partition("(")[0] for one in words if one.word not in _NOT_WORDS)


class _Sounds:
    """The scores of free sounds, added up so that any stretch of frames can be asked for."""

    def __init__(self, sounds: list[HeardWord]) -> None:
        self._ends = [0]
        self._sums = [0.0]
        for sound in sounds:
            self._ends.append(sound.end + 1)
            self._sums.append(self._sums[-1] + sound.score)

    def between(self, start: int, end: int) -> float:
        return self._upto(end + 1) - self._upto(start)

    def _upto(self, frame: int) -> float:
        place = bisect_right(self._ends, frame) - 1
        if place + 1 >= len(self._ends):
            return self._sums[-1]
        before, after = self._ends[place], self._ends[place + 1]
        part = (frame - before) / max(1, after - before)
        return self._sums[place] + part * (self._sums[place + 1] - self._sums[place])
