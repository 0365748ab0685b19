"""What else may have been said, in words: of a measure or number, what noise would make of a part of it.

Wider than `neighbours.py`, which says what to offer a person; here a recogniser is asked which fits the sound.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import islice

from guide.words.grammar import Grammar, Meaning

_MOST = 40
_WHOLE = ("command", "choice")


def settled(text: str, grammar: Grammar) -> Mapping[str, float]:
    """What may stand for `text`, each with its lead: how much worse it may fit the sound, in hundredths of a logarithm.

    Often empty. The fit is that to the sound alone: a recogniser in its grammar goes wrong here in most voices, and
    the same way.
    """
    meaning = _value(text, grammar)
    if meaning is None:
        return {}
    instead = _instead(text, grammar)
    return {one: lead for one, lead in instead.items() if _other_value(one, meaning, grammar)}


def rivals(text: str, grammar: Grammar) -> tuple[str, ...]:
    """What else of the grammar may have been said for `text`; often nothing.

    For a measure or a number, sayings with another value a word away from it, at most 40, and none that `settled`
    decides; for one of a single word, all short commands and choices too. For a command or a choice, all the others,
    and for a short one all values of a single word.
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
    """What the language would settle for in place of `text`, whether it means anything or not, with its lead."""
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
    """`words` with `other` in place of `said`, at each place where it stands."""
    for place in range(len(words) - len(said) + 1):
        if words[place : place + len(said)] == said:
            yield " ".join([*words[:place], *other, *words[place + len(said) :]])
