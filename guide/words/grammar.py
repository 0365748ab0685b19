"""The context-free grammar of one step: its answers and the commands, and nothing else."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from guide.measures import KINDS, Quantity, home_unit
from guide.words.hearing import Readings, whole
from guide.words.jsgf import Knows, jsgf, phrases, vocabulary
from guide.words.language import Language, language
from guide.words.language_file import sayings
from guide.words.nodes import Concatenation, Either, Lexicon, LexiconEntry, Meant, Node, Ref, Value
from guide.words.speaking import say

MOST_PICKED = 9
"""Answers that can be picked by their number, as by a key."""

ANY = ("length", "angle", "force", "time")
"""The kinds of measure understood if any may be said. The unit must then be said too. A pound is then a
force, so masses are left out."""

ONE_BY_ONE = "one-by-one"
"""The rule of numbers said digit by digit and then a fraction; not every language has it."""

_HYPHEN = re.compile(r"(?<=[^\W\d_])-(?=[^\W\d_])")

Outcome = Literal["complete", "incomplete", "unclear", "nothing"]


@dataclass(frozen=True, slots=True)
class Offered:
    """An answer that may be picked, and everything that may be said for it."""

    value: str
    says: tuple[str, ...]
    """As written in a procedure: figures and hyphens are turned into words."""


@dataclass(frozen=True, slots=True)
class Meaning:
    """The meaning of a phrase."""

    kind: str
    """`measure`, `number`, `count`, `choice` or `command`."""
    value: Quantity | Fraction | int | str


@dataclass(frozen=True, slots=True)
class Understood:
    """The result of parsing some words."""

    outcome: Outcome
    """`incomplete`: the words may be the beginning of more. `unclear`: they mean two things."""
    words: str
    meaning: Meaning | None = None
    """None unless the outcome is `complete`."""

    @property
    def told(self) -> str:
        """One sentence for the person who said it; empty if it was understood."""
        if self.outcome == "complete":
            return ""
        if self.outcome == "incomplete" and self.words:
            return f"“{self.words}” stops in the middle; say all of it again."
        if self.outcome == "unclear":
            return f"“{self.words}” can mean two things; say it another way, or digit by digit."
        return "That was not caught; say it again, or “help” for what can be said."


@dataclass(frozen=True, slots=True, eq=False)
class _Alternative:
    kind: str
    node: Node
    home: str | None = None
    """The unit of a bare number."""


@dataclass(frozen=True, slots=True, eq=False)
class Grammar:
    """Everything that may be said: for a recogniser (`jsgf`, `phrases`) and for the words it heard (`parse`)."""

    language: Language
    parts: tuple[_Alternative, ...]
    """Answers before commands: a word that is both is an answer."""

    def parse(self, text: str) -> Understood:
        """Parse some words to their meaning: only if complete, with nothing left over and nothing missing.

        `text` is words, as a recogniser gives them. Figures and signs are not understood, because to drop one
        would change the meaning.
        """
        words = tuple(_HYPHEN.sub(" ", text.casefold().replace("’", "'")).split())
        if not words or not self.parts:
            return Understood("nothing", " ".join(words))
        stopped = False
        for part in self.parts:
            found = Readings(self.language, part.node, words, part.home)
            if len(found.values) > 1:
                return Understood("unclear", " ".join(words))
            if found.values:
                meaning = _meaning(part.kind, found.values[0])
                return Understood("complete", " ".join(words), meaning)
            stopped |= found.stopped
        return Understood("incomplete" if stopped else "nothing", " ".join(words))

    def jsgf(self, knows: Knows | None = None) -> str:
        """The JSGF text; with `knows`, without the phrases that have a word it does not know.

        Empty if nothing can be said.
        """
        return jsgf(self.language.rules, self._top, knows)

    def phrases(self, most: int = 2000) -> tuple[str, ...] | None:
        """Every phrase, for a recogniser that accepts a list; None if there are more than `most`."""
        return phrases(self.language.rules, self._top, most)

    def whole(self) -> tuple[str, ...]:
        """Every command and choice."""
        nodes = tuple(part.node for part in self.parts if part.kind in ("command", "choice"))
        return phrases(self.language.rules, Either(nodes), 2000) or ()

    def words(self) -> tuple[str, ...]:
        """Every word, to look up in a recogniser's dictionary."""
        return vocabulary(self.language.rules, self._top)

    @property
    def _top(self) -> Node:
        return Either(tuple(part.node for part in self.parts))


def grammar_for(
    kind: str,
    system: str = "inch",
    *,
    choices: Sequence[Offered] = (),
    commands: Iterable[str] = (),
    in_language: str = "english",
    digits: bool = False,
) -> Grammar:
    """The grammar of a step that accepts a `kind` of answer, with the choices and commands there.

    `kind` is one of KINDS, `count`, `number`, `choice`, `any`, or `nothing` if only commands are accepted.
    A bare number of a measure has the home unit of `system`. Any kind may have choices too, such as "I don't
    know"; each may also be picked by its number. With `digits`, a measure or a count is said digit by digit
    and in no other way. ValueError for another kind, system or command.
    """
    words = language(in_language)
    parts = list(_offered(choices, words))
    parts += _digit_by_digit(kind, system, words) if digits else _asked(kind, system)
    named = list(commands)
    if named:
        parts.append(_Alternative("command", _commands(named, in_language)))
    return Grammar(words, tuple(parts))


def in_words(text: str, of: Language) -> tuple[str, ...]:
    """The written text of a choice as words to say: small letters, numbers in words, no signs.

    “EN-3, 7/8” becomes “en three seven eight”, so such a choice is best given words of its own.
    """
    plain = text.casefold().replace("’", "'")
    found = re.findall(r"[^\W\d_]+(?:'[^\W\d_]+)*|[0-9]+", plain)
    return tuple(word for one in found for word in _figures(one, of).split())


def _figures(word: str, of: Language) -> str:
    if not word.isdigit():
        return word
    if len(word) < 5 and (word == "0" or not word.startswith("0")):
        return say(int(word), of)
    return " ".join(say(int(digit), of) for digit in word)


def _meaning(kind: str, value: Value) -> Meaning:
    count = whole(value)
    return Meaning(kind, count if kind == "count" and count is not None else value)


def _asked(kind: str, system: str) -> Iterator[_Alternative]:
    if kind in KINDS:
        yield _Alternative("measure", Ref(kind), home_unit(kind, system))
    elif kind == "count":
        yield _Alternative("count", Ref("whole"))
    elif kind == "number":
        yield _Alternative("number", Ref("plain-number"))
    elif kind == "any":
        yield _Alternative("number", Ref("plain-number"))
        yield _Alternative("measure", Either(tuple(Ref(one) for one in ANY)))
    elif kind not in ("choice", "nothing"):
        known = ", ".join((*KINDS, "count", "number", "choice", "any", "nothing"))
        raise ValueError(f"“{kind}” is not a kind of answer; the kinds are {known}.")


def _digit_by_digit(kind: str, system: str, of: Language) -> Iterator[_Alternative]:
    """A measure or a count whose number is said digit by digit, with or without its unit."""
    number = Ref(ONE_BY_ONE if ONE_BY_ONE in of.rules else "digit-by-digit")
    if kind in KINDS:
        alone = Meant("measure", number)
        measured = Meant("measure", Concatenation((number, Ref(f"unit-{kind}"))))
        yield _Alternative("measure", Either((alone, measured)), home_unit(kind, system))
    elif kind == "count":
        yield _Alternative("count", Ref("digit-by-digit"))
    else:
        yield from _asked(kind, system)


def _offered(choices: Sequence[Offered], of: Language) -> Iterator[_Alternative]:
    """One alternative for the names of the choices, and one for their numbers."""
    entries = [
        LexiconEntry(words, choice.value)
        for choice in choices
        for words in dict.fromkeys(in_words(text, of) for text in choice.says)
        if words
    ]
    if not choices:
        return
    if entries:
        yield _Alternative("choice", Lexicon(tuple(entries)))
    numbered = [
        LexiconEntry(words, choice.value)
        for number, choice in enumerate(choices[:MOST_PICKED], 1)
        for words in _picking(number, of)
    ]
    yield _Alternative("choice", Lexicon(tuple(numbered)))


@lru_cache(maxsize=64)
def _picking(number: int, of: Language) -> tuple[tuple[str, ...], ...]:
    """The ways to pick an answer by its number: “answer two”, “number two”."""
    picked = Lexicon((LexiconEntry(tuple(say(number, of).split()), Fraction(number)),))
    found = phrases({**of.rules, "picked": picked}, of.picking, 100)
    return tuple(tuple(phrase.split()) for phrase in found or ())


@lru_cache(maxsize=256)
def _command_entries(name: str, in_language: str) -> tuple[LexiconEntry, ...]:
    known = {**sayings(in_language), **sayings(in_language, "declined")}
    if name not in known:
        raise ValueError(f"“{name}” is not a command; the commands are {', '.join(known)}.")
    of = language(in_language)
    said = known[name]
    return tuple(LexiconEntry(in_words(text, of), name) for text in (said.word, *said.also))


def _commands(names: Sequence[str], in_language: str) -> Node:
    return Lexicon(tuple(entry for name in names for entry in _command_entries(name, in_language)))
