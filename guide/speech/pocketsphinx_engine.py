"""The built-in engine: PocketSphinx with the US English model that its package carries.

The settings are measured, not guessed. Where silence between words costs as little as here, and each further word
and sound a little, no short digit is heard in the pause between two others; 1000 states a frame bound the work in
noise without loss, and a narrower beam for ends of words hears as many right.
What it comes to is fitted to the sound once more, beside its rivals (`fits.py`): those scores compare with each other,
and tell how far the words are from the likeliest sounds there are.
Utterances are decoded whole, so that the mean of the whole utterance is taken from it. The second search through the
lattice (bestpath) is left out: it hears no more right here, and takes up to ten seconds in noise.
"""

from dataclasses import replace

from guide.speech.engine import Hypothesis, NoEngine
from guide.speech.fits import SILENCE, Fits
from guide.speech.search import score_of, search, text_of, words_of
from guide.words.spoken import Grammar

_KEPT = 12
"""Compiled grammars kept; a procedure asks for few kinds of answer."""


class PocketSphinx:
    """Words by grammar, and their rivals to hold them against."""

    name = "built-in"
    knows_parts = True

    def __init__(self, own: str = "") -> None:
        """Load the model: about half a second and 60 MB. Raises NoEngine where the library is missing.

        `own` is a file of means learned from one person (`speech/own`), used in place of the model's.
        """
        try:
            from pocketsphinx import Decoder
        except ImportError as error:
            raise NoEngine(
                "The library that hears words (pocketsphinx) is not installed; "
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
        """The likeliest words; None where nothing of the grammar fits."""
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
