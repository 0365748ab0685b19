"""What else a measure or number may have been, in words: what noise would make of one of its words.

Wider than `neighbours.py`, which says what to offer a person; here a recogniser is asked which fits the sound.
"""

from collections.abc import Iterator

from guide.words.grammar import Grammar
from guide.words.language import Language

_MOST = 40


def rivals(text: str, grammar: Grammar) -> tuple[str, ...]:
    """Sayings of the grammar with another value, one word away from `text`; at most 40, often none.

    None for commands and choices, which are far apart by the choice of their words.
    """
    meaning = grammar.parse(text).meaning
    if meaning is None or meaning.kind in ("command", "choice"):
        return ()
    found: dict[str, None] = {}
    for words in _one_word_away(text.split(), grammar.language):
        other = " ".join(words)
        meant = grammar.parse(other).meaning
        if meant is not None and meant != meaning:
            found[other] = None
    return tuple(found)[:_MOST]


def _one_word_away(words: list[str], language: Language) -> Iterator[list[str]]:
    groups = (*map(frozenset, language.swapped), *language.blurred)
    for place, word in enumerate(words):
        before, after = words[:place], words[place + 1 :]
        for other in dict.fromkeys(
            one for group in groups if word in group for one in sorted(group)
        ):
            if other != word:
                yield [*before, other, *after]
        yield [*before, *after]
