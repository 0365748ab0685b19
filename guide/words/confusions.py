"""Phrases and values that are easily misheard for each other.

`settled` and `rivals` are phrases that a recogniser compares with the sound. `neighbours`, fewer, are values to
offer a person, such as fifty for fifteen or sixty eight for sixty.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from itertools import islice

from guide.measures import Quantity
from guide.words.grammar import Grammar, Meaning, grammar_for
from guide.words.language import Language
from guide.words.speaking import Spoken, say

_MOST = 40
_WHOLE = ("command", "choice")


def settled(text: str, grammar: Grammar) -> Mapping[str, float]:
    """What was said if not `text`, each with its lead: how much worse it may fit the sound
    [1/100 of a natural logarithm].

    Often empty. The fit is to the sound alone: with its grammar a recogniser makes these mistakes in most voices, and
    the same way.
    """
    meaning = _value(text, grammar)
    if meaning is None:
        return {}
    instead = _instead(text, grammar)
    return {one: lead for one, lead in instead.items() if _other_value(one, meaning, grammar)}


def rivals(text: str, grammar: Grammar) -> tuple[str, ...]:
    """Other phrases of the grammar that may have been said for `text`; often empty.

    For a measure or a number: phrases with another value at an edit distance of one word, at most 40, without those
    that `settled` decides; if it is a single word, all short commands and choices too. For a command or a choice: all
    the others, and for a short one all values of a single word.
    """
    meaning = grammar.parse(text).meaning
    if meaning is None:
        return ()
    if meaning.kind in _WHOLE:
        others = tuple(one for one, meant in _whole(grammar) if meant != meaning)
        return (*others, *_single(grammar)) if _short(text) else others
    decided = _instead(text, grammar)
    found = (
        other
        for other in dict.fromkeys(_a_word_away(text.split(), grammar))
        if other not in decided
        and text not in _instead(other, grammar)
        and _other_value(other, meaning, grammar)
    )
    whole = () if " " in text else tuple(one for one, _ in _whole(grammar) if _short(one))
    return (*islice(found, _MOST), *whole)


def _short(text: str) -> bool:
    return text.count(" ") <= 1


@lru_cache(maxsize=16)
def _single(grammar: Grammar) -> tuple[str, ...]:
    """The words that are a value by themselves."""
    return tuple(one for one in grammar.words() if _value(one, grammar) is not None)


def _value(text: str, grammar: Grammar) -> Meaning | None:
    meaning = grammar.parse(text).meaning
    return None if meaning is None or meaning.kind in _WHOLE else meaning


@lru_cache(maxsize=16)
def _whole(grammar: Grammar) -> tuple[tuple[str, Meaning], ...]:
    """Every command and choice, with its meaning."""
    found = ((one, grammar.parse(one).meaning) for one in grammar.whole())
    return tuple((one, meaning) for one, meaning in found if meaning is not None)


def _other_value(text: str, meaning: Meaning, grammar: Grammar) -> bool:
    other = grammar.parse(text).meaning
    return other is not None and other != meaning


def _instead(text: str, grammar: Grammar) -> dict[str, float]:
    """The replacements in the language's `settled` list for `text`, meaningful or not, each with its lead."""
    words = text.split()
    return {
        saying: lead
        for heard, said, lead in grammar.language.settled
        for saying in _replaced(words, heard.split(), said.split())
    }


def _a_word_away(words: list[str], grammar: Grammar) -> Iterator[str]:
    of = grammar.language
    groups = [(*one,) for one in of.swapped] + [(*sorted(one),) for one in of.blurred]
    for group in groups:
        for said in group:
            for other in group:
                if other != said:
                    yield from _replaced(words, said.split(), other.split())
    for place in range(len(words)):
        yield " ".join([*words[:place], *words[place + 1 :]])


def _replaced(words: list[str], said: list[str], other: list[str]) -> Iterator[str]:
    """`words` with `other` in place of `said`, at each place where it occurs."""
    for place in range(len(words) - len(said) + 1):
        if words[place : place + len(said)] == said:
            yield " ".join([*words[:place], *other, *words[place + len(said) :]])


def neighbours(value: Spoken, language: Language) -> tuple[Spoken, ...]:
    """The values that one mishearing would make of this one, the likeliest first; often none.

    The mishearings are those of the language file: words misheard for each other, a tail that was added or missed,
    a word that was added. Raises Unsayable if the value has no words.
    """
    kind = value.kind if isinstance(value, Quantity) else "number"
    grammar = grammar_for(kind, in_language=language.name)
    found: dict[Spoken, None] = {}
    for words in _slips(say(value, language).split(), language):
        meaning = grammar.parse(" ".join(words)).meaning
        if meaning is not None and not isinstance(meaning.value, str) and meaning.value != value:
            near = meaning.value
            keep = isinstance(value, int) and isinstance(near, Fraction) and near.denominator == 1
            found[int(near) if keep and isinstance(near, Fraction) else near] = None
    return tuple(found)


def _slips(words: list[str], language: Language) -> Iterator[list[str]]:
    both_ways = [*language.swapped, *((other, one) for one, other in language.swapped)]
    for place, word in enumerate(words):
        for said, heard in both_ways:
            if word == said:
                yield [*words[:place], heard, *words[place + 1 :]]
    for place, word in enumerate(words):
        if word in language.tail_after:
            if words[place + 1 : place + 2] == [language.tail]:
                yield [*words[: place + 1], *words[place + 2 :]]
            else:
                yield [*words[: place + 1], language.tail, *words[place + 1 :]]
    for place, word in enumerate(words[1:], 1):
        for extra, before in language.slipped_in:
            if word == before:
                yield [*words[:place], extra, *words[place:]]
