"""A grammar as a recogniser needs it: as JSGF text, as a list of every phrase, or as a list of words.

JSGF is the Java Speech Grammar Format (W3C Note, June 2000). Alternatives with the same beginning are
left-factored, so that a number is written once and its units follow it: a recogniser copies every rule into
each place that names it.
"""

from collections.abc import Callable, Iterator, Mapping
from itertools import islice

from guide.words.language import references
from guide.words.nodes import Concatenation, Either, Lexicon, Maybe, Meant, Node, Ref, Word

Knows = Callable[[str], bool]
"""Whether a recogniser's dictionary has a word."""


def jsgf(rules: Mapping[str, Node], top: Node, knows: Knows | None = None) -> str:
    """The JSGF text of the phrases of `top`; empty if no phrase is left.

    With `knows`, phrases with a word that the recogniser does not know are left out, because one such word makes
    it refuse the whole grammar.
    """
    writer = _Writer(rules, knows or (lambda _: True))
    said = writer.alternatives(top)
    if said is None:
        return ""
    lines = [
        f"<{_name(rule)}> = {text};" for rule, text in writer.texts.items() if text is not None
    ]
    return "\n".join(["#JSGF V1.0;", "grammar said;", f"public <said> = {said};", *lines, ""])


def vocabulary(rules: Mapping[str, Node], top: Node) -> tuple[str, ...]:
    """Every word of the grammar, in order of the alphabet."""
    found: set[str] = set()
    seen: set[str] = set()
    waiting = [top]
    while waiting:
        node = waiting.pop()
        found |= _words_of(node)
        for rule in references(node):
            if rule not in seen:
                seen.add(rule)
                waiting.append(rules[rule])
    return tuple(sorted(found))


def _words_of(node: Node) -> set[str]:
    match node:
        case Word(text):
            return {text}
        case Lexicon(entries):
            return {word for entry in entries for word in entry.words}
        case Concatenation(items) | Either(items):
            return {word for item in items for word in _words_of(item)}
        case Maybe(inner) | Meant(of=inner):
            return _words_of(inner)
        case Ref():
            return set()


def _name(rule: str) -> str:
    return rule.replace(":", "-")


class _Writer:
    """Writes nodes. None is a node that cannot be said, and "" one that is said without a word."""

    def __init__(self, rules: Mapping[str, Node], knows: Knows) -> None:
        self._rules = rules
        self._knows = knows
        self.texts: dict[str, str | None] = {}
        """The text of each rule that is named."""

    def alternatives(self, node: Node) -> str | None:
        """A node as the alternatives of a rule."""
        rows = [row for one in _flat(node) if (row := self._row(one)) is not None]
        return _joined(rows) if rows else None

    def _row(self, node: Node) -> tuple[str, ...] | None:
        """A sequence as the texts of its parts; None if one of them cannot be said."""
        inner = node.of if isinstance(node, Meant) else node
        texts = [
            self._text(item)
            for item in (inner.items if isinstance(inner, Concatenation) else (inner,))
        ]
        if None in texts:
            return None
        return tuple(text for text in texts if text)

    def _text(self, node: Node) -> str | None:
        match node:
            case Word(text):
                return text if self._knows(text) else None
            case Ref(rule):
                if rule not in self.texts:
                    self.texts[rule] = None
                    self.texts[rule] = self.alternatives(self._rules[rule])
                return f"<{_name(rule)}>" if self.texts[rule] else None
            case Maybe(inner):
                said = self.alternatives(inner)
                return f"[{said}]" if said else ""
        said = self.alternatives(node)
        return f"({said})" if said and (" " in said or "|" in said) else said


def _flat(node: Node) -> tuple[Node, ...]:
    """The alternatives of a node, each a sequence."""
    match node:
        case Either(items):
            return tuple(one for item in items for one in _flat(item))
        case Lexicon(entries):
            return tuple(
                Concatenation(tuple(Word(word) for word in entry.words)) for entry in entries
            )
    return (node,)


def _joined(rows: list[tuple[str, ...]]) -> str:
    """Alternatives as one text, left-factored."""
    tails: dict[str, list[tuple[str, ...]]] = {}
    for row in dict.fromkeys(rows):
        tails.setdefault(row[0], []).append(row[1:])
    return " | ".join(_headed(head, rows) for head, rows in tails.items())


def _headed(head: str, rows: list[tuple[str, ...]]) -> str:
    more = [row for row in rows if row]
    if not more:
        return head
    tail = _joined(more)
    if len(more) < len(rows):
        return f"{head} [{tail}]"
    return f"{head} ({tail})" if "|" in tail else f"{head} {tail}"


def phrases(rules: Mapping[str, Node], top: Node, most: int) -> tuple[str, ...] | None:
    """Every phrase once, in the order of the grammar; None if there are more than `most`."""
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
        case Concatenation(items):
            yield from _in_order(rules, items)


def _in_order(rules: Mapping[str, Node], items: tuple[Node, ...]) -> Iterator[tuple[str, ...]]:
    if not items:
        yield ()
        return
    for first in _sayings(rules, items[0]):
        for rest in _in_order(rules, items[1:]):
            yield (*first, *rest)
