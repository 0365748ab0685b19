"""Parse words to their meaning: every parse that uses all of the words, or whether they stop in the middle.

A recursive-descent parser with backtracking and memoisation of each rule at each place (a packrat parser that
keeps every alternative), so that an ambiguous grammar gives all of its readings.
"""

from fractions import Fraction

from guide.words.language import Language, meant
from guide.words.nodes import Concatenation, Either, Lexicon, Maybe, Meant, Node, Ref, Value, Word

_Ends = list[tuple[int, tuple[Value, ...]]]
"""Each place where a node can end, and the values it yields up to there."""


class Readings:
    """The parses of some words by one node of a grammar."""

    def __init__(
        self, of: Language, node: Node, words: tuple[str, ...], home: str | None = None
    ) -> None:
        """`home` is the unit of a bare number; None if the unit must be said."""
        self._rules = of.rules
        self._begins = of.begins
        self._words = words
        self._home = home
        self._known: dict[tuple[str, int], _Ends] = {}
        self.stopped = False
        """Whether the words may be the beginning of a longer phrase."""
        ends = self._ends(node, 0)
        self.values: list[Value] = list(
            dict.fromkeys(
                values[0] for end, values in ends if end == len(words) and len(values) == 1
            )
        )
        """Every meaning of all the words together, each once."""

    def _ends(self, node: Node, start: int) -> _Ends:
        match node:
            case Word(text):
                return [(start + 1, ())] if self._next_is(text, start) else []
            case Lexicon():
                return self._listed(node, start)
            case Ref(rule):
                if start < len(self._words) and self._words[start] not in self._begins[rule]:
                    return []
                if (rule, start) not in self._known:
                    self._known[rule, start] = self._ends(self._rules[rule], start)
                return self._known[rule, start]
            case Maybe(inner):
                return [(start, ()), *self._ends(inner, start)]
            case Concatenation(items):
                return self._sequence(items, start)
            case Either(items):
                return [end for item in items for end in self._ends(item, start)]
            case Meant():
                found: _Ends = []
                for end, values in self._ends(node.of, start):
                    value = meant(node, values, self._home)
                    if value is not None:
                        found.append((end, (value,)))
                return found

    def _next_is(self, text: str, at: int) -> bool:
        if at == len(self._words):
            self.stopped = True
            return False
        return self._words[at] == text

    def _listed(self, node: Lexicon, start: int) -> _Ends:
        left = len(self._words) - start
        if not left:
            self.stopped = True
            return []
        found: _Ends = []
        for entry in node.by_first.get(self._words[start], ()):
            count = len(entry.words)
            if self._words[start : start + count] == entry.words:
                found.append((start + count, (entry.value,)))
            elif left < count and self._words[start:] == entry.words[:left]:
                self.stopped = True
        return found

    def _sequence(self, items: tuple[Node, ...], start: int) -> _Ends:
        reached: _Ends = [(start, ())]
        for item in items:
            reached = [
                (end, (*before, *values))
                for place, before in reached
                for end, values in self._ends(item, place)
            ]
        return reached


def whole(value: Value) -> int | None:
    """The whole number that a value is; None for any other value."""
    return int(value) if isinstance(value, Fraction) and value.denominator == 1 else None
