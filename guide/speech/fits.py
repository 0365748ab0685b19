"""Which of a few sayings fits the sound best, each as likely beforehand as any other, and how well.

A recogniser in its grammar gives no score that can be held against another search's: it counts every sound by how far
it lies behind the best of the sounds that this search still follows. Here all sounds of the model are counted in every
frame, so that scores of any two sayings compare, and the beams are so wide that none is dropped on the way. A decoder
of its own for some sayings takes a twentieth of the time of the sound.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from guide.speech.search import Found, score_of, search, text_of
from guide.words.spoken import Grammar, rivals, settled

_FEW = "few"
"""The name of the grammar of few sayings."""
_BEAM = 1e-100
SILENCE = {"wip": 0.02, "pip": 0.6, "silprob": 4.0}
"""What a word, a sound and silence between words cost; the same wherever sayings are compared."""


class Fits:
    """Holds sayings against a sound."""

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

        It is `said`, or what else it may have been, where that fits better both in `pcm` and in `plain`, the same
        sound with its noise. The second is a difference of logarithms, None where it has no rivals.
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
