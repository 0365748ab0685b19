"""Every saying of a grammar, one by one, for a recogniser that takes a list of phrases."""

from collections.abc import Iterator, Mapping
from itertools import islice

from guide.words.nodes import Either, Lexicon, Maybe, Meant, Node, Ref, Seq, Word


def phrases(rules: Mapping[str, Node], top: Node, most: int) -> tuple[str, ...] | None:
    """Every saying once, in the order of the grammar; None where there are more than `most`."""
    found = list(islice(_sayings(rules, top), most + 1))
    if len(found) > most:
        return None
    return tuple(dict.fromkeys(" ".join(words) for words in found))


def _sayings(rules: Mapping[str, Node], node: Node) -> Iterator[tuple[str, ...]]:
    match node:
        case Word(text):
            yield (text,)
        case Lexicon(entries):
            yield from (entry.words for entry in entries)
        case Ref(rule):
            yield from _sayings(rules, rules[rule])
        case Maybe(inner):
            yield ()
            yield from _sayings(rules, inner)
        case Either(items):
            for item in items:
                yield from _sayings(rules, item)
        case Meant(of=inner):
            yield from _sayings(rules, inner)
        case Seq(items):
            yield from _in_order(rules, items)


def _in_order(rules: Mapping[str, Node], items: tuple[Node, ...]) -> Iterator[tuple[str, ...]]:
    if not items:
        yield ()
        return
    for first in _sayings(rules, items[0]):
        for rest in _in_order(rules, items[1:]):
            yield (*first, *rest)
