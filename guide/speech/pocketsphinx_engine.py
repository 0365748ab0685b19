"""The built-in engine: PocketSphinx with the US English model that its package carries.

The settings are measured, not guessed. If silence between words costs as little as here, and each further word
and sound a little, no short digit is heard in the pause between two others; 1000 states a frame bound the work in
noise without loss, and a narrower beam for ends of words hears as many right.
The result is scored once more together with its rival hypotheses (`Fits`): those scores can be compared with each
other, and measure how far the words are from the likeliest sounds.
Utterances are decoded whole, so that the mean of the whole utterance is taken from it. The second search through the
lattice (bestpath) is left out: it hears no more right here, and takes up to ten seconds in noise.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from guide.speech.engine import HeardWord, Hypothesis, NoEngine
from guide.words.spoken import Grammar, rivals, settled

if TYPE_CHECKING:
    from pocketsphinx import Decoder

_KEPT = 12
"""Compiled grammars kept; a procedure has few kinds of answer."""
_FEW = "few"
"""The name of the grammar of few sayings."""
_BEAM = 1e-100
SILENCE = {"wip": 0.02, "pip": 0.6, "silprob": 4.0}
"""Insertion probabilities of a word and a phone, and that of silence; the same wherever sayings are compared."""
_NOT_WORDS = ("(NULL)", "<s>", "</s>", "<sil>", "[NOISE]", "[SPEECH]", "[COUGH]", "<unk>")
_LEAST = 1e-300
"""Scores are given as probabilities, which can come out as 0."""

Found = tuple[float, list[HeardWord]]
"""The score of the path, a natural logarithm, and its segments, silence among them."""


class PocketSphinx:
    """Words by grammar, and their rival hypotheses to compare them with."""

    name = "built-in"
    knows_parts = True

    def __init__(self, own: str = "") -> None:
        """Load the model: about half a second and 60 MB. Raises NoEngine if the library is missing.

        `own` is a file of means learned from one person (`speech/own`), used in place of the model's.
        """
        try:
            from pocketsphinx import Decoder
        except ImportError as error:
            raise NoEngine(
                "The library that recognises words (pocketsphinx) is not installed; "
                "“hingeside voice” says how to get it."
            ) from error
        means = {"mean": own} if own else {}
        self._decoder = Decoder(
            lm=None,
            maxhmmpf=1000,
            wbeam=1e-20,
            bestpath=False,
            loglevel="FATAL",
            **SILENCE,
            **means,
        )
        self._fits = Fits(means)
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
                    self._fits.teach(word, phones)
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
        """The likeliest words; None if nothing of the grammar fits."""
        if not self._active or not pcm or self._grammar is None:
            return None
        heard = text_of(search(self._decoder, pcm))
        if not heard:
            return None
        found, ahead = self._fits.told_apart(heard, self._grammar, pcm, plain)
        frames = self._decoder.n_frames()
        words = tuple(
            replace(one, probability=min(1.0, one.probability)) for one in words_of(found)
        )
        if not words:
            return None
        again = text_of(search(self._decoder, plain)) if plain else None
        return Hypothesis(words, frames, score_of(found), again, ahead)

    def close(self) -> None:
        """Nothing to give back: memory goes with the object."""


class Fits:
    """Which of a few sayings fits a sound best, each as likely beforehand as any other, and how well.

    A recogniser in its grammar gives no score that compares with another search's: it counts every sound by how far it
    lies behind the best of the sounds that this search still follows. Here all sounds of the model are counted in every
    frame, so that scores of any two sayings compare, and the beams are so wide that none is dropped on the way. A
    decoder of its own for some sayings needs a twentieth of the time of the sound.
    """

    def __init__(self, means: Mapping[str, str]) -> None:
        from pocketsphinx import Decoder

        self._decoder = Decoder(
            lm=None,
            maxhmmpf=-1,
            beam=_BEAM,
            pbeam=_BEAM,
            wbeam=_BEAM,
            compallsen=True,
            bestpath=False,
            loglevel="FATAL",
            **SILENCE,
            **means,
        )

    def teach(self, word: str, phones: str) -> None:
        """Know one more word."""
        self._decoder.add_word(word, phones, False)

    def told_apart(
        self, said: str, grammar: Grammar, pcm: bytes, plain: bytes
    ) -> tuple[Found | None, float | None]:
        """What was said, by its fit to the sound alone, and how much better it fits than the best of its rivals.

        It is `said`, or what else it may have been, if that fits better both in `pcm` and in `plain`, the same
        sound with its noise. The second is a difference of logarithms, None if it has no rivals.
        """
        found = self._settled(said, grammar, pcm)
        said = text_of(found)
        others = self._known(rivals(said, grammar))
        if found is None or not others:
            return found, None
        rival = self.best(others, pcm)
        ahead = score_of(found) - score_of(rival)
        if ahead >= 0 or (plain and self._fit(text_of(rival), plain) <= self._fit(said, plain)):
            return found, ahead
        # Of “six oh eight” the rival is “six eight”, which has more rivals, but not this one.
        others = [one for one in self._known(rivals(text_of(rival), grammar)) if one != said]
        next_best = score_of(self.best(others, pcm)) if others else score_of(None)
        return rival, score_of(rival) - max(score_of(found), next_best)

    def _settled(self, said: str, grammar: Grammar, pcm: bytes) -> Found | None:
        leads = settled(said, grammar)
        most, lead = self.best([said], pcm), 0.0
        for one in self._known(leads):
            other = self.best([one], pcm)
            if score_of(other) + leads[one] / 100 > score_of(most) + lead:
                most, lead = other, leads[one] / 100
        return most

    def _known(self, sayings: Iterable[str]) -> list[str]:
        lookup = self._decoder.lookup_word
        return [one for one in sayings if all(lookup(word) for word in one.split())]

    def _fit(self, saying: str, pcm: bytes) -> float:
        return score_of(self.best([saying], pcm))

    def best(self, sayings: Sequence[str], pcm: bytes) -> Found | None:
        """The best of some sayings."""
        self._decoder.add_fsg(_FEW, self._decoder.create_fsg(_FEW, 0, 1, list(_tree(sayings))))
        self._decoder.activate_search(_FEW)
        return search(self._decoder, pcm)


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


# One search through a whole utterance


def search(decoder: "Decoder", pcm: bytes) -> Found | None:
    """Decode with the search that is active; None if nothing was found."""
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
