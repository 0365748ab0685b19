"""What a value may be heard as: fifty for fifteen, sixty eight for sixty."""

from collections.abc import Iterator
from fractions import Fraction

from guide.measures import Quantity
from guide.words.grammar import grammar_for
from guide.words.language import Language
from guide.words.speaking import Spoken, say


def neighbours(value: Spoken, language: Language) -> tuple[Spoken, ...]:
    """The values that one slip of the ear would make of this one, the likeliest first; often none.

    The slips are those of the language file: words taken for each other, a tail that was heard or missed,
    a word that slipped in. Raises Unsayable where the value has no words.
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
